#include <algorithm>
#include <array>
#include <string_view>

#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

constexpr std::array<std::string_view, 5> metal{"EMT", "RMC", "IMC", "FMC", "LFMC"};

bool applies(const Facts& f) {
  if (f.subject != Subject::output_circuit && f.subject != Subject::string_circuit) return false;
  return std::any_of(f.stretches.begin(), f.stretches.end(), [](const StretchFacts& s) {
    return s.method.known() && std::find(metal.begin(), metal.end(), *s.method) != metal.end();
  });
}

/// Metal raceways of circuits over 250 V to ground are bonded around knockouts: by hubs, bushings or
/// jumpers. From 2020 on only where a pole is solidly grounded.
///
/// Source: NFPA 70, 250.97; 690.43(D) from 2020 on, from memory. The string's whole maximum voltage counts as
/// its voltage to ground. Proved: cases/rules/bonding_over_250_volts.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const bool relieved = edition.year() >= 2020;
  if (relieved && f.scheme.known() && *f.scheme != "solid")
    return not_applicable("Asked of solidly grounded circuits only.");
  const auto v = maximum_voltage(f, edition, trail);
  const auto limit =
      use(trail, "V_bond", "asked above", edition.limit<units::dim::voltage>("bonding.volts"));
  if (!v.value) return cannot_tell(words::unknown(trail, v.missing));
  if (units::at_most(*v.value, *limit.value))
    return {Verdict::pass,
            words::compared(*v.value, *limit.value) + ": no more than the usual bond is asked.",
            {},
            {}};
  if (relieved && !f.scheme.known())
    return cannot_tell("cannot tell: the job says nothing of grounding (grounding.scheme).");
  const auto& bonds = f.grounding.raceway_bonds;
  trail.note("Over it metal raceways are bonded at their ends.", edition.cite("bonding.volts"));
  if (!bonds.known())
    return on_site("Metal raceway over " + words::plain(*limit.value) +
                   ": bonded at its ends by hubs, bushings or jumpers around the knockouts.");
  return *bonds ? Outcome{Verdict::pass,
                          words::compared(*v.value, *limit.value) +
                              ", and the metal raceway is bonded at its ends: passes.",
                          {},
                          {}}
                : Outcome{Verdict::fail,
                          words::compared(*v.value, *limit.value) +
                              ", and the metal raceway is not bonded at its ends: fails.",
                          {},
                          {}};
}

}  // namespace

extern const Rule bonding_over_250_volts{
    .id = "bonding.over-250-volts",
    .title = "Bond of metal raceways over 250 V",
    .aliases = "G9",
    .asks =
        "Are metal raceways of circuits over 250 V to ground bonded at their ends where the "
        "edition asks for it?",
    .applies = applies,
    .check = check,
    .cites = "bonding.volts"};

}  // namespace stringwright::codebook
