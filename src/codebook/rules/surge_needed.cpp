#include "codebook/methods/building.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment; }

/// Where the way from the array is long for the lightning of the place, an arrester is fitted.
///
///     L_dc ≥ L_crit = k_L / N_g
///
/// L_dc  longest way from modules to equipment [m]
/// k_L   115 m for one dwelling, 200 m for a plant on the ground, 450 m for other buildings, times
///       flashes per km² and year
/// N_g   flashes to ground per km² and year [-]
///
/// Source: IEC 60364-7-712, 712.443.101, from memory. Proved: cases/rules/surge_needed.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const bool dwelling = f.dwelling.known() && *f.dwelling;
  const Answer on = on_a_building(f);
  if (!dwelling && !on.holds) return cannot_tell("cannot tell: not known is " + on.why + ".");
  const auto k = use(trail, "k_L", "length by the place",
                     edition.limit<units::dim::length>(dwelling    ? "surge.length-dwelling"
                                                       : *on.holds ? "surge.length-other"
                                                                   : "surge.length-ground"));
  const auto n_g = trail.given("N_g", "flashes per km² and year", f.arrester.flashes);
  const auto l = trail.given("L_dc", "way from the array", f.arrester.run);
  const auto l_crit = trail.let("L_crit", "critical length", k / n_g, edition.cite("surge.needed"));
  const auto claim = l >= l_crit;
  const auto asked = trail.require(claim, edition.cite("surge.needed"));
  if (f.arrester.fitted.known() && *f.arrester.fitted)
    return {Verdict::pass, "An arrester is fitted, asked or not.", {}, {}};
  if (!asked) return cannot_tell(words::unknown(trail, claim.missing));
  if (!*asked)
    return not_applicable("The way is shorter than " + words::plain(*l_crit.value) +
                          ": no arrester is asked.");
  if (!f.arrester.fitted.known())
    return cannot_tell("cannot tell: an arrester is asked; whether one is fitted is not known.");
  return {Verdict::fail,
          "The way is not shorter than " + words::plain(*l_crit.value) +
              ", and no arrester is fitted: fails.",
          {},
          {}};
}

}  // namespace

extern const Rule surge_needed{
    .id = "surge.needed",
    .title = "Whether an arrester is asked",
    .aliases = "S5",
    .asks =
        "Is an arrester fitted where the way from the array is long for the lightning of the "
        "place?",
    .applies = applies,
    .check = check,
    .cites = "surge.needed",
    .family = Asked::iec};

}  // namespace stringwright::codebook
