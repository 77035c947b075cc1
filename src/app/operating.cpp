#include "app/operating.hpp"

#include "circuit/build.hpp"

namespace stringwright::app {
namespace {

struct Asked {
  std::string load;
  units::Temperature cell;
  circuit::Port port;
};

std::vector<Asked> asked(const job::Site& site) {
  std::vector<Asked> all;
  if (site.t_min) all.push_back({"open circuit", *site.t_min, circuit::Port::open()});
  all.push_back({"short circuit", units::celsius(25), circuit::Port::short_circuit()});
  all.push_back({"maximum power", units::celsius(25), circuit::Port::maximum_power()});
  if (site.t_hot && site.rise)
    all.push_back({"maximum power", *site.t_hot + *site.rise, circuit::Port::maximum_power()});
  return all;
}

}  // namespace

std::vector<OperatingPoint> operating_points(const wiring::Wiring& w, const Circuit& circuit,
                                             std::vector<std::string>& remarks) {
  std::vector<OperatingPoint> all;
  if (!circuit.solvable) return all;

  std::vector<std::string> said;
  for (const auto& a : asked(w.job.site)) {
    circuit::State state;
    state.sky.cell = a.cell;
    state.port = a.port;
    const auto solved = circuit::operating_point(w, circuit.models, circuit.resistances, state);
    if (!solved) {
      const std::string why = solved.failure().message + " [" + solved.failure().id + "]";
      remarks.push_back("No " + a.load + " point at " + units::print(a.cell) + " cell: " + why);
      continue;
    }
    for (std::size_t i = 0; i < w.inputs.size(); ++i) {
      OperatingPoint p;
      p.thing = w.inputs[i].id;
      p.load = a.load;
      p.cell = a.cell;
      p.sun = state.sky.sun;
      const auto& point = solved->inputs[i];
      if (a.port.kind != circuit::Port::Kind::short_circuit) p.v = point.v;
      if (a.port.kind != circuit::Port::Kind::open) p.i = point.i;
      if (a.port.kind == circuit::Port::Kind::maximum_power) p.p = point.p;
      // The loss is one figure of the whole network: it stands with the only input, or not at all.
      if (p.p && w.inputs.size() == 1) p.lost = solved->lost_in_conductors;
      all.push_back(p);
    }
  }
  return all;
}

}  // namespace stringwright::app
