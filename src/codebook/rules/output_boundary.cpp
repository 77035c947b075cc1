#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::disconnect && f.disconnect.of == "system" &&
         f.disconnect.given.known() && *f.disconnect.given;
}

/// From 2017 on the PV system ends at its disconnect; with a battery that is at the controller's battery
/// side, for the controller belongs to the PV system. In 2014 the disconnect stands where the conductors
/// enter the building.
///
/// Source: NFPA 70, 690.1, 690.13. Proved: cases/rules/output_boundary.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("output.boundary");
  if (!f.disconnect.side.known())
    return cannot_tell("cannot tell: on which side of the equipment it stands is not known.");
  if (!f.battery.known())
    return cannot_tell("cannot tell: whether a battery stands behind the equipment is not known.");
  const std::string side = *f.disconnect.side;
  if (edition.factor("output.boundary-behind").value.value_or(0) == 0) {
    trail.note("It belongs where the conductors enter the building, outside or just inside.",
               source);
    if (side == "array")
      return {Verdict::pass,
              "It stands between array and equipment: passes.",
              {"It has to be outside, or inside at the nearest point of entry."},
              {}};
    return {Verdict::fail,
            "It stands behind the equipment, not where the conductors enter: fails.",
            {},
            {}};
  }
  const bool pump = f.behind.kind.known() && *f.behind.kind == "pump-drive";
  const std::string wanted = *f.battery ? "battery" : pump ? "load" : "ac";
  trail.note("The PV system ends at the " + std::string(wanted == "ac" ? "a.c." : wanted) +
                 " side of the equipment.",
             source);
  if (side == wanted)
    return {Verdict::pass,
            std::string("It stands on the ") + (wanted == "ac" ? "a.c." : wanted) +
                " side, where the PV system ends: passes.",
            {},
            {}};
  return {Verdict::fail,
          "It stands on the " + std::string(side == "ac" ? "a.c." : side) +
              " side, and the PV system ends at the " + (wanted == "ac" ? "a.c." : wanted) +
              " side: fails.",
          {"What stands on the array side isolates the equipment; it does not part the PV system "
           "from the rest."},
          {}};
}

}  // namespace

extern const Rule output_boundary{
    .id = "output.boundary",
    .title = "Where the PV system ends",
    .aliases = "K1",
    .asks = "Does the disconnect of the PV system stand where the PV system ends?",
    .applies = applies,
    .check = check,
    .cites = "output.boundary"};

}  // namespace stringwright::codebook
