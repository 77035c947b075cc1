#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::connector_pair; }

/// Halves of two makers fit and still do not mate: the contact heats over years. From 2020 on the code
/// says it; before that the listing of each half does.
///
/// Source: NFPA 70, 690.33(C) (2014, 2017: 110.3(B)). Proved: cases/rules/connector_pair.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("connector.pair");
  const auto& c = f.connector;
  if (!c.family.known() || !c.other.known()) {
    Outcome o = cannot_tell("cannot tell: the connector family of " +
                            std::string(c.family.known() ? "what mates with " + *c.family
                                                         : std::string("the modules")) +
                            " is not known.");
    o.also.push_back(
        "The plugs of a home run have to be of the modules' own family: say it as family "
        "of the home run.");
    return o;
  }
  trail.note(*c.family + " mates with " + *c.other + ".", source);
  if (*c.family == *c.other)
    return {Verdict::pass, "Both halves are " + *c.family + ": passes.", {}, {}};
  if (c.documented.known() && *c.documented)
    return {
        Verdict::pass, *c.family + " and " + *c.other + " are documented to mate: passes.", {}, {}};
  return {
      Verdict::fail,
      *c.family + " and " + *c.other + " are not documented to mate: fails.",
      {"Cut one half off and crimp on the other's family with its maker's tool, or join them at "
       "terminals in the box."},
      {}};
}

}  // namespace

extern const Rule connector_pair{
    .id = "connector.pair",
    .title = "Connectors that mate",
    .aliases = "C3",
    .asks = "Are the two halves of every mated pair of one type and maker, or documented to mate?",
    .applies = applies,
    .check = check,
    .cites = "connector.pair",
    .family = Asked::both};

}  // namespace stringwright::codebook
