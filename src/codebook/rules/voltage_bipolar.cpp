#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// In a bipolar array the voltage between the outer conductors counts, unless the halves are kept in
/// equipment and conductors of their own.
///
///     V_pole2 = k_half · V_max,    V_pole2 ≤ V_place
///
/// Source: NFPA 70, 690.7(C) (2014: 690.7(E)). Proved: cases/rules/voltage_bipolar.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.bipolar.known() && !*f.bipolar)
    return not_applicable("Two wires: there is no second half of opposite sign.");
  if (!f.bipolar.known())
    return cannot_tell(
        "cannot tell: whether the array has two halves of opposite sign is not known.");
  const auto source = edition.cite("voltage.bipolar");
  if (!f.apart.known())
    return cannot_tell(
        "cannot tell: whether the two halves have boxes, devices and conductors of their own is "
        "not "
        "known.");
  trail.note(*f.apart ? "The halves stand apart: each counts by itself."
                      : "The halves share equipment: their voltages add.",
             source);
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto k = use(trail, "k_half", "halves that add",
                     edition.factor(*f.apart ? "voltage.halves-apart" : "voltage.halves-together"));
  const auto v_pole = trail.let("V_pole2", "between the outer conductors", k * v_max);
  if (!f.on_building.known() || (*f.on_building && !f.dwelling.known()))
    return cannot_tell("cannot tell: on what the array stands is not known.");
  const auto v_place =
      read_table(trail, "V_place", "ceiling of the place",
                 edition.voltage_ceiling(*f.on_building, f.dwelling.value.value_or(false)));
  return demand_at_most(trail, v_pole, v_place, source);
}

}  // namespace

extern const Rule voltage_bipolar{
    .id = "voltage.bipolar",
    .title = "Voltage of a bipolar array",
    .aliases = "V8",
    .asks = "Do the two halves of a bipolar array count apart, or with the sum of their voltages?",
    .applies = applies,
    .check = check,
    .cites = "voltage.bipolar voltage.ceiling"};

}  // namespace stringwright::codebook
