#include "job/find.hpp"
#include "wiring/builder.hpp"

namespace stringwright::wiring {
namespace {

/// The stated gain wins. Else, for an i_sc of the front side alone:
///
///     k_rear = 1 + φ · G_rear / 1000 W/m²
///
/// Source: IEC 60904-1-2 (equivalent irradiance of bifacial devices).
std::optional<units::Ratio> rear_gain(const job::Job& j, const job::Row* row) {
  const auto* module = row && row->module ? job::find(j.module, *row->module) : nullptr;
  if (!module) return units::Ratio(1.0);
  if (module->rear_gain) return units::Ratio(1.0) + *module->rear_gain;
  if (!module->bifaciality || module->bifaciality->si() == 0) return units::Ratio(1.0);
  const auto* surface = row->on ? job::find(j.surface, *row->on) : nullptr;
  if (!surface || !surface->rear_sun) return std::nullopt;
  return units::Ratio(1.0) +
         *module->bifaciality * (*surface->rear_sun / units::watts_per_square_metre(1000));
}

/// The unit at a module, in its plus lead; the minus lead goes through it as it is. Returns where the
/// string goes on.
int add_electronics(Builder& b, StringCircuit& circuit, const job::String& s, int number,
                    int module_plus) {
  const std::string n = std::to_string(number);
  const std::string id = s.id + "." + n + ".E";
  const int unit = b.device(DeviceKind::electronics, id, id, "", s.electronics.span);
  b.w.devices[static_cast<std::size_t>(unit)].number = number;
  b.w.devices[static_cast<std::size_t>(unit)].part = *s.electronics;
  circuit.electronics.push_back(unit);
  const int in = b.terminal(unit, "in", "in", Pole::plus);
  const int out = b.terminal(unit, "out", "out", Pole::plus);
  b.conductor(ConductorKind::lead, s.id + "." + n + "-E", "", Pole::plus, module_plus, in,
              s.electronics.span);
  return out;
}

}  // namespace

void add_strings(Builder& b) {
  for (const auto& s : b.w.job.string) {
    StringCircuit circuit;
    circuit.id = s.id;
    circuit.span = s.span;
    circuit.age = s.age.value_or(1.0);
    int number = 0;
    int previous_plus = -1;
    for (const auto& place : s.walk.value_or({})) {
      ++number;
      const std::string n = std::to_string(number);
      const job::Row* row = job::find(b.w.job.row, place.row);
      const int m =
          b.device(DeviceKind::module, s.id + "." + n, s.id + "." + n, place.row, s.walk.span);
      b.w.devices[static_cast<std::size_t>(m)].number = number;
      b.w.devices[static_cast<std::size_t>(m)].place =
          place.row + "." + std::to_string(place.number);
      b.w.devices[static_cast<std::size_t>(m)].part = row ? row->module.value_or("") : "";
      b.w.devices[static_cast<std::size_t>(m)].rear_gain = rear_gain(b.w.job, row);
      const int minus = b.terminal(m, "minus", "−", Pole::minus);
      const int plus = b.terminal(m, "plus", "+", Pole::plus);
      if (previous_plus >= 0) {
        // Plus of the module nearer the minus end meets minus of the next.
        b.conductor(ConductorKind::lead, s.id + "." + std::to_string(number - 1) + "-" + n, "",
                    Pole::plus, previous_plus, minus, s.walk.span);
      }
      previous_plus = s.electronics ? add_electronics(b, circuit, s, number, plus) : plus;
      circuit.modules.push_back(m);
    }
    b.w.strings.push_back(std::move(circuit));
  }
}

}  // namespace stringwright::wiring
