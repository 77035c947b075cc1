#include "job/find.hpp"
#include "wiring/builder.hpp"

namespace stringwright::wiring {

void add_inputs(Builder& b) {
  const job::Job& j = b.w.job;
  for (const auto& e : j.equipment) {
    for (const auto& in : e.input) {
      InputCircuit circuit;
      circuit.equipment = e.id;
      circuit.input = in.id;
      circuit.id = e.id + "." + in.id;
      circuit.device = b.device(DeviceKind::input, circuit.id, in.id, e.id, in.span);
      const int plus = b.terminal(circuit.device, "plus", "+", Pole::plus);
      const int minus = b.terminal(circuit.device, "minus", "−", Pole::minus);
      const int ground = b.terminal(circuit.device, "ground", "PE", Pole::ground);
      for (int t : {plus, minus, ground}) {
        if (!in.terminals) continue;
        parts::TerminalSpec spec;
        spec.rated = in.terminals;
        b.w.terminals[static_cast<std::size_t>(t)].spec = spec;
      }

      if (in.device) {
        circuit.protector =
            b.device(DeviceKind::protector, circuit.id + ".Q", "Q", e.id, in.device.span);
        auto& q = b.w.devices[static_cast<std::size_t>(circuit.protector)];
        q.part = *in.device;
        q.poles = in.poles.value_or(1);
        const parts::Part* part = job::find(j.part, q.part);
        const DevicePoles where = device_poles(j.grounding);
        const auto pole = [&](Pole p, int inner, const char* sign) {
          const int line = b.terminal(circuit.protector, std::string("line") + sign, "line", p);
          const int load = b.terminal(circuit.protector, std::string("load") + sign, "load", p);
          if (part) {
            b.w.terminals[static_cast<std::size_t>(line)].spec = part->line;
            b.w.terminals[static_cast<std::size_t>(load)].spec = part->load;
          }
          const int link = b.conductor(ConductorKind::finger,
                                       circuit.id + (p == Pole::plus ? ".link+" : ".link-"), "", p,
                                       load, inner, in.span);
          b.w.conductors[static_cast<std::size_t>(link)].length_from =
              "inside the equipment's enclosure";
        };
        const bool both = where.plus && where.minus;
        if (where.plus) pole(Pole::plus, plus, both ? "_plus" : "");
        if (where.minus) pole(Pole::minus, minus, both ? "_minus" : "");
      }

      b.w.inputs.push_back(std::move(circuit));
    }
  }
}

}  // namespace stringwright::wiring
