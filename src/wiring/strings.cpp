#include "job/find.hpp"
#include "wiring/builder.hpp"

namespace stringwright::wiring {

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
      const int minus = b.terminal(m, "minus", "−", Pole::minus);
      const int plus = b.terminal(m, "plus", "+", Pole::plus);
      if (previous_plus >= 0) {
        // Plus of the module nearer the minus end meets minus of the next.
        b.conductor(ConductorKind::lead, s.id + "." + std::to_string(number - 1) + "-" + n, "",
                    Pole::plus, previous_plus, minus, s.walk.span);
      }
      previous_plus = plus;
      circuit.modules.push_back(m);
    }
    b.w.strings.push_back(std::move(circuit));
  }
}

}  // namespace stringwright::wiring
