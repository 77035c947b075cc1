#include "base/text.hpp"
#include "codebook/methods/ground.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment_ground; }

/// The equipment grounding conductor is not smaller than the device ahead of its circuit asks for.
///
///     A_gnd ≥ A_min
///
/// A_min  metal area of the size in Table 250.122, by the device ahead or the one assumed [mm²]
///
/// Source: NFPA 70, 690.45, Table 250.122. Proved: cases/rules/egc_size.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const units::Metal metal = f.wire.known() ? f.wire->metal : units::Metal::copper;
  const auto least = smallest_ground(f, edition, trail, metal);
  if (!least.size) return cannot_tell(least.why);
  const std::string needed = least.size->print() + " " + std::string(units::print(metal));
  if (!f.wire.known())
    return cannot_tell("cannot tell: the ground wire is not chosen; " + needed +
                       " is the smallest that passes.");
  const Fact<units::Area> area(f.wire->size.area(), f.wire.from);
  const auto a_gnd = trail.given("A_gnd", "ground wire", area);
  const auto a_min =
      trail.let("A_need", "needed",
                trail::Traced<units::Area>{
                    least.size->area(), needed, units::print(least.size->area()), 0, {}});
  const auto holds = trail.require(a_gnd >= a_min, edition.cite("table.egc"));
  const std::string own = f.wire->size.print();
  Outcome outcome{trail::verdict_of(holds), "", {}, {}};
  outcome.so = holds && *holds ? own + " is not smaller than " + needed + ": passes."
                               : own + " is smaller than " + needed + ": fails.";
  if (!least.capped.empty()) outcome.also.push_back(least.capped);
  if (f.wires_per_pole.known() && f.wires_per_pole->in(units::plain) > 1)
    outcome.also.push_back("Each of the " + text::fixed(f.wires_per_pole->in(units::plain), 0) +
                           " raceways holds one of that size.");
  outcome.margin = trail::Margin{least.size->area(),
                                 needed + " needed",
                                 false,
                                 {{f.wire->size.area(), own, trail::Margin::Mark::chosen}}};
  return outcome;
}

}  // namespace

extern const Rule egc_size{.id = "egc.size",
                           .title = "Size of the equipment grounding conductor",
                           .aliases = "G5 U4",
                           .asks =
                               "Is the equipment grounding conductor at least the size that the "
                               "device ahead of its circuit asks for?",
                           .applies = applies,
                           .check = check,
                           .cites = "table.egc egc.no-device egc.not-larger egc.minimum"};

}  // namespace stringwright::codebook
