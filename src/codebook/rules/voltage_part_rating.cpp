#include "codebook/methods/demands.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::box || f.subject == Subject::string_circuit ||
         f.subject == Subject::output_circuit ||
         (f.subject == Subject::connector && f.connector.described.known() &&
          *f.connector.described);
}

/// Every part bears the maximum voltage: V_rate ≥ V_max, V_arr ≥ V_max. A conductor without a printed
/// voltage counts with the least its insulation type is made for.
///
/// Source: NFPA 70, 110.4, 690.7. Proved: cases/rules/voltage_part_rating.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("voltage.parts");
  const auto v_max = maximum_voltage(f, edition, trail);
  Fact<units::Voltage> rated = f.v_rated;
  const bool conductor =
      f.subject == Subject::string_circuit || f.subject == Subject::output_circuit;
  bool by_type = false;
  if (!rated.known() && conductor && f.wire.known() && !f.wire->insulation.empty() &&
      edition.insulation_rating_dry(f.wire->insulation).value) {
    const auto least = edition.limit<units::dim::voltage>("insulation.least-volts");
    if (v_max.value && units::at_least(*least.value, *v_max.value)) {
      const auto v = use(trail, "V_rate", "least of its type", least);
      return demand_at_least(trail, v, v_max, source);
    }
    by_type = true;
  }
  const auto v_rate = trail.given("V_rate", "voltage it is made for", rated);
  Outcome o = demand_at_least(trail, v_rate, v_max, source);
  if (o.verdict == Verdict::cannot_tell && by_type)
    o.also.push_back("Its type " + f.wire->insulation +
                     " is made from 600 V up: read the voltage printed on it.");
  if (f.subject != Subject::box || !f.box.arrester.known() || !*f.box.arrester) return o;
  const auto v_arr = trail.given("V_arr", "arrester's continuous voltage", f.box.v_arrester);
  Demands both(trail);
  both.add(o);
  both.add(demand_at_least(trail, v_arr, v_max, source));
  return both.outcome("The label of the box, and of the arrester, say so.");
}

}  // namespace

extern const Rule voltage_part_rating{
    .id = "voltage.part-rating",
    .title = "Voltage of boxes, cables, connectors and arresters",
    .aliases = "M14",
    .asks = "Is the box with its arrester, the cable, the connector made for the maximum voltage?",
    .applies = applies,
    .check = check,
    .cites = "voltage.parts table.insulation"};

}  // namespace stringwright::codebook
