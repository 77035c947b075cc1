#include "codebook/methods/drop.hpp"

#include "codebook/methods/ampacity.hpp"

namespace stringwright::codebook {

Traced<units::Voltage> voltage_drop(const Traced<units::Length>& one_way,
                                    const Traced<units::ResistancePerLength>& r,
                                    const Traced<units::Current>& i) {
  return trail::number(2) * one_way * r * i;
}

Traced<units::Voltage> voltage_drop(const Facts& facts, const Edition& edition, Trail& trail) {
  const bool string =
      facts.subject == Subject::string_circuit || facts.subject == Subject::string_device;
  const auto length = trail.given("L", "one-way length", facts.length);
  const auto i = string ? trail.given("I_mp", "operating current", facts.i_mp)
                        : trail.given("ΣI_mp", "operating current", facts.i_mp_total);
  auto r = not_known<units::ResistancePerLength>("r", {"conductor"});
  const auto hot = edition.temperature("drop.conductor-temperature");
  if (facts.wire.known() && hot.value)
    r = read_table(trail, "r", "resistance",
                   edition.resistance(facts.wire->size, facts.wire->metal, *hot.value));
  if (side_by_side(facts)) {
    const auto n = trail.given("n_c", "side by side", facts.wires_per_pole);
    r = trail.let("r_c", "all side by side", r / n);
  }
  return trail.let("ΔU", "voltage drop", voltage_drop(length, r, i), {}, 2);
}

}  // namespace stringwright::codebook
