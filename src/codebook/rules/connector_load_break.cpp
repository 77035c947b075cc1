#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::connector && f.connector.described.known() && *f.connector.described;
}

/// Source: NFPA 70, 690.33(D) (2014: 690.33(E)). Proved: cases/rules/connector_load_break.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.connector.load_break.known() && *f.connector.load_break) {
    trail.note("It is rated to break the current.", edition.cite("connector.load-break"));
    return {Verdict::pass, "It is rated to break the current: passes.", {}, {}};
  }
  const auto source = edition.cite("connector.load-break");
  const std::string unless =
      f.connector.load_break.known() ? "" : ", unless it is rated to break current";
  Demands demands(trail);
  demands.one_of(f.connector.lock, {"tool"},
                 {"a tool parts it", "the bare hand parts it", "whether a tool parts it"}, source);
  demands.ask(
      f.connector.not_under_load,
      {"it is marked not to be parted under load", "it carries no mark against parting under load",
       "whether it is marked not to be parted under load"},
      source);
  Outcome o = demands.outcome("Its data sheet and its body say so.");
  if (o.verdict == Verdict::fail && !unless.empty())
    return cannot_tell("cannot tell: whether it is rated to break the current is not known.");
  if (o.verdict == Verdict::fail)
    o.also.push_back("Parted under load it draws an arc that daylight feeds.");
  return o;
}

}  // namespace

extern const Rule connector_load_break{
    .id = "connector.load-break",
    .title = "Connectors and current",
    .aliases = "C4",
    .asks =
        "Are the connectors made to break current, or parted by a tool only and marked against "
        "it?",
    .applies = applies,
    .check = check,
    .cites = "connector.load-break",
    .family = Asked::both};

}  // namespace stringwright::codebook
