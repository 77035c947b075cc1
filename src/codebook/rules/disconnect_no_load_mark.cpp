#include "codebook/methods/demands.hpp"
#include "codebook/methods/disconnects.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::disconnect && f.disconnect.given.known() && *f.disconnect.given;
}

/// Source: NFPA 70, 690.15(B), 690.33 (2014: 690.17 exception, 690.33(E)). Proved: cases/rules/disconnect_no_load_mark.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto breaks = breaks_load(f);
  if (breaks && *breaks) return not_applicable("It may be opened under load.");
  Demands demands(trail);
  demands.ask(f.disconnect.not_under_load,
              {"it is marked not to be opened under load",
               "it does not break load and carries no mark against it",
               breaks ? "whether it is marked not to be opened under load"
                      : "whether it breaks load or is marked not to be opened under load"},
              edition.cite("disconnect.no-load"));
  Outcome o =
      demands.outcome("The mark is DO NOT OPEN UNDER LOAD, or NOT FOR CURRENT INTERRUPTING.");
  if (!breaks && o.verdict == Verdict::fail)
    return cannot_tell("cannot tell: whether it breaks load is not known.");
  return o;
}

}  // namespace

extern const Rule disconnect_no_load_mark{
    .id = "disconnect.no-load-mark",
    .title = "Mark of what may not be opened under load",
    .aliases = "D5",
    .asks = "Is whatever isolates without breaking load marked not to be opened under load?",
    .applies = applies,
    .check = check,
    .cites = "disconnect.no-load",
    .family = Asked::both};

}  // namespace stringwright::codebook
