#include "circuit/build.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <string_view>
#include <tuple>
#include <unordered_map>
#include <utility>

#include "circuit/maximum_power.hpp"

namespace stringwright::circuit {
namespace {

using wiring::DeviceKind;
using wiring::Pole;

const Condition& sky_of(const State& state, int module) {
  const auto own = state.module_sky.find(module);
  return own == state.module_sky.end() ? state.sky : own->second;
}

const Port& port_of(const State& state, int input) {
  const auto own = state.input_port.find(input);
  return own == state.input_port.end() ? state.port : own->second;
}

/// A diode that drops its marked forward voltage at its rated current. Its slope is that of silicon between
/// junction and lead (a = 50 mV); its leak keeps a blocked string's voltage defined. Empty where the part
/// does not say the voltage: then it counts as a joint, which flatters by less than a volt.
std::optional<Diode> diode_of(const parts::Part* part) {
  if (!part || !part->v_forward || !part->rating) return std::nullopt;
  Diode d;
  d.a = units::volts(0.05);
  d.i_s = *part->rating / std::expm1(*part->v_forward / d.a);
  d.leak = pv::siemens(1e-8);
  return d;
}

class Builder {
 public:
  Builder(const wiring::Wiring& wiring, const Models& models, const Resistances& resistances,
          const State& state)
      : w_(wiring), models_(models), r_(resistances), state_(state) {}

  Result<Built> run() {
    if (r_.size() != w_.conductors.size()) {
      return Failure{"circuit.bad-resistance", std::to_string(w_.conductors.size()) +
                                                   " conductors but " + std::to_string(r_.size()) +
                                                   " resistances"};
    }
    const auto devices = w_.devices.size();
    b_.module.assign(devices, -1);
    b_.pole.assign(devices, -1);
    add_nodes();
    for (const auto& add : {&Builder::add_modules, &Builder::add_conductors, &Builder::add_devices})
      if (auto f = (this->*add)()) return *f;
    add_ports();
    return std::move(b_);
  }

 private:
  /// A node for every terminal, but one for all terminals of a bar.
  void add_nodes() {
    b_.node.assign(w_.terminals.size(), -1);
    for (const auto& d : w_.devices) {
      const bool bar = d.kind == DeviceKind::bar;
      int shared = -1;
      for (const int t : d.terminals) {
        if (!bar || shared < 0) shared = b_.network.add_node();
        b_.node[t] = shared;
      }
    }
    for (int& n : b_.node)
      if (n < 0) n = b_.network.add_node();
  }

  /// Terminal of a device with that pole, the n-th of them; -1 where there is none.
  int terminal(const wiring::Device& d, Pole pole, int n = 0) const {
    for (const int t : d.terminals)
      if (w_.terminals[t].pole == pole && n-- == 0) return t;
    return -1;
  }

  std::optional<Failure> add_modules() {
    for (const auto& s : w_.strings) {
      for (const int m : s.modules) {
        const auto& d = w_.devices[m];
        const int minus = terminal(d, Pole::minus), plus = terminal(d, Pole::plus);
        if (minus < 0 || plus < 0) continue;
        const auto law = module_law(m, s.age * d.rear_gain.value_or(units::Ratio(1.0)));
        if (!law) return law.failure();
        b_.module[m] = b_.network.add(b_.node[plus], b_.node[minus], *law);
        b_.one_maximum =
            b_.one_maximum && *law == b_.network.elements[b_.module[s.modules.front()]].law;
      }
    }
    return std::nullopt;
  }

  Result<int> module_law(int device, units::Ratio age) {
    const auto& d = w_.devices[device];
    const Condition& sky = sky_of(state_, device);
    const Key key{d.part, sky.sun.si(), sky.cell.kelvin(), age};
    if (key == last_key_) return last_law_;
    const auto known = laws_.find(key);
    if (known == laws_.end()) {
      const auto model = models_.find(d.part);
      if (model == models_.end()) {
        return Failure{"circuit.no-model", "module " + d.id + ": '" + d.part + "' has no model"};
      }
      auto curve = pv::at(model->second, sky.sun, sky.cell, age);
      if (!curve) return curve.failure();
      last_law_ = b_.network.add_law(CellGroup{*curve});
      laws_.emplace(key, last_law_);
    } else {
      last_law_ = known->second;
    }
    last_key_ = key;
    return last_law_;
  }

  std::optional<Failure> add_conductors() {
    b_.conductor.assign(w_.conductors.size(), -1);
    for (std::size_t k = 0; k < w_.conductors.size(); ++k) {
      const auto& c = w_.conductors[k];
      if (!(r_[k].si() >= 0) || !std::isfinite(r_[k].si())) {
        return Failure{"circuit.bad-resistance",
                       "conductor " + c.id + ": its resistance is not a number of ohms"};
      }
      if (c.from < 0 || c.to < 0 || b_.node[c.from] == b_.node[c.to]) continue;
      b_.conductor[k] = b_.network.add(b_.node[c.to], b_.node[c.from], resistance_law(r_[k]));
    }
    return std::nullopt;
  }

  int resistance_law(units::Resistance r) {
    if (r.si() == 0) return joint_law();
    const auto [it, fresh] = resistors_.emplace(r.si(), 0);
    if (fresh) it->second = b_.network.add_law(Resistor{r});
    return it->second;
  }

  int joint_law() {
    if (joint_ < 0) joint_ = b_.network.add_law(Joint{});
    return joint_;
  }

  std::optional<Failure> add_devices() {
    for (const auto& id : state_.open) {
      const int d = w_.find_device(id);
      if (d < 0 || (w_.devices[d].kind != DeviceKind::protector &&
                    w_.devices[d].kind != DeviceKind::electronics)) {
        return Failure{"circuit.no-such-device",
                       "'" + id + "' is no breaker, fuse or switch of this wiring"};
      }
    }
    for (std::size_t k = 0; k < w_.devices.size(); ++k) {
      const auto& d = w_.devices[k];
      if (d.kind == DeviceKind::protector && !state_.open.contains(d.id)) {
        for (const Pole pole : {Pole::plus, Pole::minus}) {
          const int line = terminal(d, pole, 0), load = terminal(d, pole, 1);
          if (line < 0 || load < 0) continue;
          const int e = b_.network.add(b_.node[load], b_.node[line], joint_law());
          if (b_.pole[k] < 0) b_.pole[k] = e;
        }
      } else if (d.kind == DeviceKind::bond && d.terminals.size() >= 2) {
        b_.network.add(b_.node[d.terminals[0]], b_.node[d.terminals[1]], joint_law());
      } else if (d.kind == DeviceKind::electronics && !state_.open.contains(d.id)) {
        b_.network.add(b_.node[d.terminals[1]], b_.node[d.terminals[0]], joint_law());
      } else if (d.kind == DeviceKind::diode) {
        const auto law =
            state_.diodes_shorted ? std::nullopt : diode_of(w_.part_of(static_cast<int>(k)));
        b_.network.add(b_.node[d.terminals[1]], b_.node[d.terminals[0]],
                       law ? b_.network.add_law(*law) : joint_law());
      }
    }
    return std::nullopt;
  }

  void add_ports() {
    for (std::size_t k = 0; k < w_.inputs.size(); ++k) {
      const auto& d = w_.devices[w_.inputs[k].device];
      const int plus = terminal(d, Pole::plus), minus = terminal(d, Pole::minus),
                ground = terminal(d, Pole::ground);
      if (b_.earth < 0 && ground >= 0) b_.earth = b_.node[ground];
      b_.network.references.push_back(b_.node[minus]);
      const Port& port = port_of(state_, static_cast<int>(k));
      const auto held = port.kind == Port::Kind::voltage ? port.voltage : units::volts(0);
      b_.port.push_back(port.kind == Port::Kind::open
                            ? -1
                            : b_.network.add(b_.node[plus], b_.node[minus], Source{held}));
    }
  }

  using Key = std::tuple<std::string_view, double, double, double>;

  const wiring::Wiring& w_;
  const Models& models_;
  const Resistances& r_;
  const State& state_;
  Built b_;
  std::map<Key, int> laws_;
  Key last_key_;
  int last_law_ = -1;
  std::unordered_map<double, int> resistors_;
  int joint_ = -1;
};

/// Sum of the modules' open-circuit voltages of the longest string: a place to begin.
units::Voltage likely_v_oc(const wiring::Wiring& w, const Built& b) {
  double most = 0;
  int law = -1;
  double v_oc = 0;
  for (const auto& s : w.strings) {
    double sum = 0;
    for (const int m : s.modules) {
      if (b.module[m] < 0) continue;
      const int own = b.network.elements[b.module[m]].law;
      if (own != law) {
        law = own;
        v_oc = at_current(b.network.laws[law], units::amps(0)).v.si();
      }
      sum += v_oc;
    }
    most = std::fmax(most, sum);
  }
  return units::volts(most);
}

}  // namespace

Models fit_models(const wiring::Wiring& w, std::map<std::string, Failure>& failures,
                  const pv::FitOptions& options) {
  Models models;
  for (const auto& m : w.job.module) {
    const bool used = std::any_of(w.devices.begin(), w.devices.end(), [&](const wiring::Device& d) {
      return d.kind == DeviceKind::module && d.part == m.id;
    });
    if (!used) continue;
    auto model = pv::fit(m, options);
    if (model) {
      models.emplace(m.id, std::move(*model));
    } else {
      failures.emplace(m.id, model.failure());
    }
  }
  return models;
}

Result<Built> build(const wiring::Wiring& w, const Models& models, const Resistances& resistances,
                    const State& state) {
  return Builder(w, models, resistances, state).run();
}

OperatingPoint read(const wiring::Wiring& w, const Built& b, const State& state,
                    const Solution& s) {
  OperatingPoint out;
  out.residual = s.residual;
  out.iterations = s.iterations;
  const auto part = [&](int terminal) { return s.part[b.node[terminal]]; };
  const auto potential = [&](int terminal) { return s.potential[b.node[terminal]]; };
  const auto current = [&](int element) {
    return element < 0 ? units::Current{} : s.current[element];
  };
  /// Voltage between two terminals; none where they float against each other or one is not there.
  const auto between = [&](int plus, int minus) -> std::optional<units::Voltage> {
    if (plus < 0 || minus < 0 || part(plus) != part(minus)) return std::nullopt;
    return potential(plus) - potential(minus);
  };
  const auto terminal = [&](const wiring::Device& d, Pole pole, int n = 0) {
    for (const int t : d.terminals)
      if (w.terminals[t].pole == pole && n-- == 0) return t;
    return -1;
  };

  out.potential.reserve(w.terminals.size());
  for (std::size_t t = 0; t < w.terminals.size(); ++t) {
    const int k = static_cast<int>(t);
    out.potential.push_back(s.floating[part(k)] ? std::nullopt : std::optional(potential(k)));
  }

  out.conductors.reserve(w.conductors.size());
  for (std::size_t k = 0; k < w.conductors.size(); ++k) {
    const int e = b.conductor[k];
    out.conductors.push_back(current(e));
    if (e < 0) continue;
    const auto line = linear(b.network.laws[b.network.elements[e].law]);
    if (line) out.lost_in_conductors += s.current[e] * s.current[e] * line->r;
  }

  for (std::size_t k = 0; k < w.devices.size(); ++k) {
    const auto& d = w.devices[k];
    DevicePoint p;
    switch (d.kind) {
      case DeviceKind::module:
        p.i = current(b.module[k]);
        p.v = between(terminal(d, Pole::plus), terminal(d, Pole::minus));
        if (p.v) out.from_modules += *p.v * p.i;
        break;
      case DeviceKind::protector: {
        const Pole pole = terminal(d, Pole::plus) >= 0 ? Pole::plus : Pole::minus;
        p.open = state.open.contains(d.id);
        p.i = current(b.pole[k]);
        p.v = between(terminal(d, pole, 0), terminal(d, pole, 1));
        break;
      }
      case DeviceKind::input:
      case DeviceKind::arrester:
        p.v = between(terminal(d, Pole::plus), terminal(d, Pole::minus));
        break;
      case DeviceKind::bar:
      case DeviceKind::rack:
      case DeviceKind::bond:
      case DeviceKind::diode:
      case DeviceKind::electronics:
        break;
    }
    out.devices.push_back(p);
  }

  for (std::size_t k = 0; k < w.inputs.size(); ++k) {
    DevicePoint& d = out.devices[w.inputs[k].device];
    d.i = -current(b.port[k]);
    InputPoint p{.v = d.v, .i = d.i};
    if (p.v) p.p = *p.v * p.i;
    out.inputs.push_back(p);
  }
  for (const auto& string : w.strings) {
    StringPoint p;
    if (!string.modules.empty()) p.i = current(b.module[string.modules.back()]);
    if (!string.plus_path.empty() && !string.minus_path.empty())
      p.v = between(w.conductors[string.plus_path.back()].to,
                    w.conductors[string.minus_path.back()].to);
    if (p.v) p.p = *p.v * p.i;
    out.strings.push_back(p);
  }
  return out;
}

Result<OperatingPoint> operating_point(const wiring::Wiring& w, const Built& built,
                                       const State& state, const SolveOptions& options) {
  auto solver = Solver::make(built.network, options);
  if (!solver) return solver.failure();

  std::vector<int> searched;
  for (std::size_t k = 0; k < w.inputs.size(); ++k)
    if (port_of(state, static_cast<int>(k)).kind == Port::Kind::maximum_power)
      searched.push_back(built.port[k]);
  if (!searched.empty()) {
    const units::Voltage likely = likely_v_oc(w, built);
    for (const int source : searched) solver->set_source(source, 0.8 * likely);
    // Inputs that share nothing but a bond are done after one round; a fault between them takes more.
    std::vector<units::Voltage> v(searched.size());
    for (int round = 0; round < 20; ++round) {
      double moved = 0;
      for (std::size_t k = 0; k < searched.size(); ++k) {
        const auto best = find_maximum_power(*solver, searched[k], likely, built.one_maximum);
        if (!best) return best.failure();
        moved = std::fmax(moved, std::fabs(best->v.si() - v[k].si()));
        v[k] = best->v;
      }
      if (searched.size() == 1 || moved <= 1e-6 * std::fmax(likely.si(), 1)) break;
    }
  }
  const auto solved = solver->solve();
  if (!solved) return solved.failure();
  return read(w, built, state, *solved);
}

Result<OperatingPoint> operating_point(const wiring::Wiring& w, const Models& models,
                                       const Resistances& resistances, const State& state,
                                       const SolveOptions& options) {
  const auto built = build(w, models, resistances, state);
  if (!built) return built.failure();
  return operating_point(w, *built, state, options);
}

}  // namespace stringwright::circuit
