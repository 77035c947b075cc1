#include "circuit/curve.hpp"

#include <string>

#include "circuit/maximum_power.hpp"

namespace stringwright::circuit {

Result<IvCurve> iv_curve(const wiring::Wiring& w, const Models& models,
                         const Resistances& resistances, const State& state, int input, int points,
                         const SolveOptions& options) {
  if (input < 0 || input >= static_cast<int>(w.inputs.size()) || points < 2) {
    return Failure{"circuit.no-such-curve", "a curve is of one input and has at least two points"};
  }
  // The open-circuit voltage first: it ends the sweep. Other inputs find their own point meanwhile.
  State open = state;
  open.input_port[input] = Port::open();
  const auto end = operating_point(w, models, resistances, open, options);
  if (!end) return end.failure();
  const units::Voltage v_oc =
      units::max(end->inputs[input].v.value_or(units::volts(0)), units::volts(0));

  State swept = state;
  swept.input_port[input] = Port::at(units::volts(0));
  for (std::size_t k = 0; k < w.inputs.size(); ++k) {
    Port& other = swept.input_port.try_emplace(static_cast<int>(k), state.port).first->second;
    if (other.kind == Port::Kind::maximum_power)
      other = Port::at(end->inputs[k].v.value_or(units::volts(0)));
  }
  const auto built = build(w, models, resistances, swept);
  if (!built) return built.failure();
  auto solver = Solver::make(built->network, options);
  if (!solver) return solver.failure();

  IvCurve curve;
  curve.string_v.resize(w.strings.size());
  curve.string_i.resize(w.strings.size());
  for (int k = 0; k < points; ++k) {
    const units::Voltage v = v_oc * (static_cast<double>(k) / (points - 1));
    solver->set_source(built->port[input], v);
    const auto solved = solver->solve();
    if (!solved) return solved.failure();
    const auto potential = [&](int terminal) { return solved->potential[built->node[terminal]]; };
    curve.v.push_back(v);
    curve.i.push_back(-solved->current[built->port[input]]);
    for (std::size_t s = 0; s < w.strings.size(); ++s) {
      const auto& string = w.strings[s];
      const bool lands =
          !string.plus_path.empty() && !string.minus_path.empty() && !string.modules.empty();
      curve.string_v[s].push_back(lands ? potential(w.conductors[string.plus_path.back()].to) -
                                              potential(w.conductors[string.minus_path.back()].to)
                                        : units::volts(0));
      curve.string_i[s].push_back(lands ? solved->current[built->module[string.modules.back()]]
                                        : units::amps(0));
    }
  }
  return curve;
}

}  // namespace stringwright::circuit
