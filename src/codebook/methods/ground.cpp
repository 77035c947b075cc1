#include "codebook/methods/ground.hpp"

#include "codebook/methods/currents.hpp"

namespace stringwright::codebook {
namespace {

/// The device that Table 250.122 is read with: the one ahead, or the one that 690.45 assumes.
Traced<units::Current> device_for_table(const Facts& facts, const Edition& edition, Trail& trail) {
  if (facts.device_ahead.known()) return trail.given("I_n", "device ahead", facts.device_ahead);
  if (!facts.device_ahead_fitted.known() || *facts.device_ahead_fitted)
    return trail.given("I_n", "device ahead", facts.device_ahead);
  const auto rated = edition.factor("egc.assumed-device-rated");
  if (rated.value && rated.value->in(units::plain) == 0) {
    auto i_max = max_current(facts, edition, trail);
    if (i_max.value)
      trail.note("No device stands ahead: one of the circuit's maximum current is assumed.",
                 edition.cite("egc.no-device"));
    return i_max;
  }
  auto i_req = device_current(facts, edition, trail);
  if (!i_req.value) return i_req;
  trail.note("No device stands ahead: one rated for the circuit's current is assumed.",
             edition.cite("egc.no-device"));
  return read_table(trail, "I_n", "assumed device", edition.standard_rating_at_least(*i_req.value));
}

}  // namespace

GroundSize smallest_ground(const Facts& facts, const Edition& edition, Trail& trail,
                           units::Metal metal) {
  const auto device = device_for_table(facts, edition, trail);
  GroundSize found;
  if (!device.value) {
    found.why = words::unknown(trail, device.missing);
    return found;
  }
  const auto table = edition.equipment_ground(*device.value, metal);
  if (!table.value) {
    found.why = "cannot tell: " + table.why + ".";
    return found;
  }
  found.size = table.value;
  read_table(trail, "A_min", "least ground wire",
             Looked<units::Area>{table.value->area(), table.where + ": " + table.value->print(),
                                 table.source, ""});
  if (facts.circuit_wire.known() && facts.circuit_wire->metal == metal &&
      facts.circuit_wire->size < *found.size) {
    found.size = facts.circuit_wire->size;
    found.capped = "It need not be larger than the circuit's " + found.size->print() + ".";
    trail.note(found.capped, edition.cite("egc.not-larger"));
  }
  const auto smallest = edition.smallest_size("equipment-ground", metal);
  if (smallest.value && *found.size < *smallest.value) {
    found.size = smallest.value;
    trail.note("Not below " + smallest.value->print() + ".", smallest.source);
  }
  return found;
}

std::optional<units::Ratio> growth(const Edition& edition, const units::WireSize& before,
                                   const units::WireSize& after) {
  const auto from = edition.circular_mils(before);
  const auto to = edition.circular_mils(after);
  if (!from.value || !to.value) return std::nullopt;
  return *to.value / *from.value;
}

std::optional<units::Area> grown_ground(const Edition& edition, const units::WireSize& ground,
                                        units::Ratio growth) {
  const auto area = edition.circular_mils(ground);
  if (!area.value) return std::nullopt;
  return *area.value * growth;
}

std::optional<units::WireSize> smallest_of_area(const Edition& edition, units::Area area) {
  for (const auto& size : units::WireSize::american()) {
    const auto printed = edition.circular_mils(size);
    if (printed.value && units::at_least(*printed.value, area)) return size;
  }
  return std::nullopt;
}

}  // namespace stringwright::codebook
