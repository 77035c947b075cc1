#include "codebook/methods/currents.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  if (f.subject != Subject::stretch || !f.laid.method.known() || f.laid.buried.known())
    return false;
  const std::string& m = *f.laid.method;
  // In the open air and in earth it is outside by its own words.
  if (m == "free-air" || m == "buried") return f.laid.inside.known() && *f.laid.inside;
  return true;
}

/// Inside a building, from where it comes in to the first disconnect, a PV circuit lies in metal
/// raceway, metal-clad cable or metal enclosures. From 2020 on only above 30 V or 8 A.
///
/// Source: NFPA 70, 690.31(G); 690.31(D) of 2020. Proved: cases/rules/wiring_inside_building.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note(
      "Inside a building up to the first disconnect: metal raceway, metal-clad cable, metal "
      "enclosures.",
      edition.cite("wiring.inside"));
  if (is_metal_raceway(*f.laid.method) || *f.laid.method == "MC")
    return {Verdict::pass, *f.laid.method + " is metal: passes inside as well.", {}, {}};
  if (!f.laid.inside.known())
    return cannot_tell(
        "cannot tell: does any of it lie inside a building? Say inside = true or "
        "false for this stretch; " +
        *f.laid.method + " would not do inside.");
  if (!*f.laid.inside) return {Verdict::pass, "It lies outside: passes.", {}, {}};
  const auto volts = edition.limit<units::dim::voltage>("building.volts");
  const auto amps = edition.limit<units::dim::current>("building.amps");
  if (volts.value && volts.value->si() > 0) {
    const auto v = maximum_voltage(f, edition, trail);
    const auto i = max_current(f, edition, trail);
    if (!v.value || !i.value) {
      auto missing = v.missing;
      missing.insert(missing.end(), i.missing.begin(), i.missing.end());
      return cannot_tell(words::unknown(trail, missing));
    }
    if (units::at_most(*v.value, *volts.value) && units::at_most(*i.value, *amps.value))
      return {Verdict::pass,
              words::compared(*v.value, *volts.value) + " and " +
                  words::compared(*i.value, *amps.value) + ": passes without metal.",
              {},
              {}};
  }
  return {Verdict::fail,
          *f.laid.method + " inside a building: fails.",
          {"From where it comes in to the first disconnect it takes metal raceway or metal-clad "
           "cable; or put the disconnect outside."},
          {}};
}

}  // namespace

extern const Rule wiring_inside_building{
    .id = "wiring.inside-building",
    .title = "Wires inside a building",
    .aliases = "X4",
    .asks = "Do PV wires inside a building lie in metal up to their first disconnect?",
    .applies = applies,
    .check = check,
    .cites = "wiring.inside"};

}  // namespace stringwright::codebook
