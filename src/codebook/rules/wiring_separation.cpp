#include "codebook/methods/words.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::stretch && f.laid.method.known() &&
         (is_raceway(*f.laid.method) || *f.laid.method == "tray");
}

/// PV circuits share no raceway, box or tray with other wiring, nor with an inverter's output, unless a
/// partition keeps them apart.
///
/// Source: NFPA 70, 690.31(B). Proved: cases/rules/wiring_separation.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("No other circuits in it unless a partition keeps them apart.",
             edition.cite("wiring.separate"));
  if (!f.laid.other_wires.known())
    return on_site(
        "Nothing but PV circuits and their ground in this raceway or tray: no a.c., no "
        "output of an inverter, no lighting.");
  if (!*f.laid.other_wires)
    return {Verdict::pass, "Nothing but PV circuits lies in it: passes.", {}, {}};
  if (!f.laid.partition.known())
    return cannot_tell("cannot tell: does a partition keep the other wires apart (partition)?");
  return *f.laid.partition
             ? Outcome{Verdict::pass, "A partition keeps the other wires apart: passes.", {}, {}}
             : Outcome{Verdict::fail, "Other wires lie in it without a partition: fails.", {}, {}};
}

}  // namespace

extern const Rule wiring_separation{.id = "wiring.separation",
                                    .title = "Separation from other circuits",
                                    .aliases = "X5",
                                    .asks = "Do PV circuits keep apart from all other wiring?",
                                    .applies = applies,
                                    .check = check,
                                    .cites = "wiring.separate"};

}  // namespace stringwright::codebook
