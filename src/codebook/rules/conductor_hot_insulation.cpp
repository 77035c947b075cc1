#include "codebook/methods/ampacity.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return (f.subject == Subject::string_circuit || f.subject == Subject::output_circuit) &&
         f.hot_rating.known() && *f.hot_rating > units::celsius(90);
}

/// Wire marked above 90 °C counts by a table of its own from 2020 on, along its way; terminals limit as
/// ever. Earlier editions have factors but no ampacity for it: 90 °C counts.
///
/// Source: NFPA 70-2020, Tables 690.31(A)(a) and (b). Proved: cases/rules/conductor_hot_insulation.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.given("T_mark", "insulation, as marked", f.hot_rating);
  if (!f.wire.known()) return cannot_tell("cannot tell: the conductor is not known.");
  if (f.wire->metal != units::Metal::copper)
    return {Verdict::caution, "The table above 90 °C is for copper: 90 °C counts.", {}, {}};
  const auto hot = hot_ampacity(edition, f.wire->size, *f.hot_rating);
  const auto i_hot = read_table(trail, "I_hot", "at its own rating", hot);
  if (!hot.value) return {Verdict::caution, "It counts as 90 °C wire: " + hot.why + ".", {}, {}};
  const auto cool = edition.ampacity(f.wire->size, f.wire->metal, units::celsius(90));
  Outcome outcome{Verdict::pass,
                  "Along its way it counts with " + words::plain(*i_hot.value) + " at 30 °C" +
                      (cool.value ? ", as 90 °C wire with " + words::plain(*cool.value) : "") +
                      ": passes.",
                  {"In open air the 90 °C table counts. Terminals limit it as before."},
                  {}};
  return outcome;
}

}  // namespace

extern const Rule conductor_hot_insulation{
    .id = "conductor.hot-insulation",
    .title = "Wire marked above 90 °C",
    .aliases = "I13",
    .asks = "May wire that is marked for more than 90 °C be counted with more?",
    .applies = applies,
    .check = check,
    .cites = "table.hot-wire table.hot-ambient"};

}  // namespace stringwright::codebook
