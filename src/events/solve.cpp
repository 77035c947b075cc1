#include "events/solve.hpp"

#include <algorithm>
#include <cmath>
#include <variant>

#include "circuit/elements/all.hpp"
#include "circuit/faults/faults.hpp"

namespace stringwright::events {
namespace {

using wiring::Pole;

/// Equipment that works takes current and gives none: a source behind a valve. Volts of the valve per
/// e-fold of current; small beside every array.
constexpr double valve_volts = 0.01;

int terminal(const wiring::Wiring& w, int device, Pole pole) {
  for (const int t : w.devices[device].terminals)
    if (w.terminals[t].pole == pole) return t;
  return -1;
}

const circuit::CellGroup* cells(const circuit::Built& b, int element) {
  return element < 0
             ? nullptr
             : std::get_if<circuit::CellGroup>(&b.network.laws[b.network.elements[element].law]);
}

int bond_element(const wiring::Wiring& w, const circuit::Built& b, int device) {
  const auto& terminals = w.devices[device].terminals;
  const int one = b.node[terminals[0]], other = b.node[terminals[1]];
  const auto& all = b.network.elements;
  const auto found = std::find_if(all.begin(), all.end(), [&](const circuit::Element& e) {
    return e.plus == one && e.minus == other;
  });
  return found == all.end() ? -1 : static_cast<int>(found - all.begin());
}

/// Voltage at which equipment works: the sum of the modules' maximum power points along a string.
units::Voltage working_voltage(const Site& s, const circuit::Built& b, int input) {
  units::Voltage v;
  for (std::size_t k = 0; k < s.w.strings.size(); ++k) {
    if (s.input_of_string(static_cast<int>(k)) != input) continue;
    int last_law = -1;
    units::Voltage one;
    for (const int m : s.w.strings[k].modules) {
      const auto* group = cells(b, b.module[m]);
      if (!group) continue;
      const int law = b.network.elements[b.module[m]].law;
      if (law != last_law) one = group->curve.maximum_power().v;
      last_law = law;
      v += one;
    }
    break;
  }
  return v;
}

/// Opens the bonds, or gives them the resistance of the ground-fault device that is in them.
void set_bonds(const Site& s, const Position& position, Faulted& f) {
  const job::GroundFault* d = s.detector();
  const auto r = position.bond ? position.bond
                 : d           ? d->resistance.value
                               : std::optional<units::Resistance>();
  auto& n = f.built.network;
  for (int& bond : f.bond) {
    if (bond < 0) continue;
    if (position.bond_open) {
      circuit::faults::cut(f.built, bond);
      bond = -1;
    } else if (r && r->si() > 0) {
      n.elements[bond].law = n.add_law(circuit::Resistor{*r});
    }
  }
}

/// What arrives at an input by its plus conductors and does not leave by its minus conductors.
units::Current residual(const Site& s, const std::vector<units::Current>& conductors, int input) {
  units::Current sum;
  const auto add = [&](int c) {
    if (c >= 0) sum += conductors[c];
  };
  for (const int box : s.w.inputs[input].boxes) {
    add(s.w.boxes[box].out_plus);
    add(s.w.boxes[box].out_minus);
  }
  for (const int string : s.w.inputs[input].strings) {
    const auto& x = s.w.strings[string];
    if (x.plus_path.empty() || x.minus_path.empty()) continue;
    add(x.plus_path.back());
    add(x.minus_path.back());
  }
  return units::abs(sum);
}

}  // namespace

std::optional<units::Voltage> Solved::between(int plus, int minus) const {
  if (plus < 0 || minus < 0 || solution.part[plus] != solution.part[minus]) return std::nullopt;
  return solution.potential[plus] - solution.potential[minus];
}

Result<const Faulted*> Trials::sound(Load load, const Sky& sky) {
  const auto key = std::tuple{static_cast<int>(load), sky.sun.si(), sky.cell.kelvin()};
  if (const auto known = sound_.find(key); known != sound_.end()) return &known->second;
  circuit::State state;
  state.sky = sky;
  state.diodes_shorted = true;  // a fault counts on no diode: they mostly fail as a joint
  auto built = circuit::build(s_.w, s_.models, s_.resistances, state);
  if (!built) return built.failure();
  Faulted f;
  f.built = std::move(*built);
  auto& b = f.built;
  auto& n = b.network;
  for (const auto& p : s_.poles) {
    const int plus = b.node[p.load], minus = b.node[p.line];
    const auto found =
        std::find_if(n.elements.begin(), n.elements.end(),
                     [&](const circuit::Element& e) { return e.plus == plus && e.minus == minus; });
    f.pole.push_back(found == n.elements.end() ? -1 : static_cast<int>(found - n.elements.begin()));
  }
  for (std::size_t k = 0; k < s_.w.inputs.size(); ++k) {
    const int input = static_cast<int>(k);
    const int device = s_.w.inputs[k].device;
    const int plus = b.node[terminal(s_.w, device, Pole::plus)],
              minus = b.node[terminal(s_.w, device, Pole::minus)];
    f.battery.push_back(-1);
    f.load.push_back(-1);
    if (load == Load::working) {
      const int inner = n.add_node();
      n.add(inner, minus, circuit::Source{working_voltage(s_, b, input)});
      f.load.back() = n.add(inner, plus, circuit::Diode{.a = units::volts(valve_volts)});
    } else if (const auto* battery = s_.battery_of(input); load == Load::battery && battery) {
      if (!battery->v_max || !battery->fault_current)
        return Failure{"events.battery-not-known",
                       "voltage or fault current of the battery behind " + s_.w.inputs[k].id +
                           " is not known: nobody can tell what it feeds back"};
      f.battery.back() = circuit::faults::battery(b, plus, minus, *battery->v_max,
                                                  *battery->v_max / *battery->fault_current);
    }
    if (load == Load::drained) f.load.back() = n.add(plus, minus, circuit::Source{});
    if (!s_.bonded()) {
      const int ground = b.node[terminal(s_.w, device, Pole::ground)];
      f.leaks.push_back(circuit::faults::bridge(b, plus, ground, s_.insulation));
      f.leaks.push_back(circuit::faults::bridge(b, minus, ground, s_.insulation));
    }
  }
  for (const int device : s_.bonds) f.bond.push_back(bond_element(s_.w, b, device));
  b.one_maximum = false;
  return &sound_.emplace(key, std::move(f)).first->second;
}

Result<Faulted> Trials::network(const Event& e, const Sky& sky, const Position& position) {
  const Kind* kind = find_kind(e.kind);
  if (!kind) return Failure{"events.no-such-event", e.id + " is of no kind that is known"};
  const auto base = sound(e.load, sky);
  if (!base) return base.failure();
  Faulted f = **base;
  for (const int p : position.open) {
    if (f.pole[p] >= 0) circuit::faults::cut(f.built, f.pole[p]);
    f.pole[p] = -1;
  }
  Position bonds = position;
  bonds.bond_open = position.bond_open || kind->bond_open;
  set_bonds(s_, bonds, f);
  auto applied = kind->apply(s_, e.place, f.built);
  if (!applied) return applied.failure();
  f.applied = *applied;
  return f;
}

Result<Faulted> Trials::sound_network(Load load, const Sky& sky) {
  const auto base = sound(load, sky);
  if (!base) return base.failure();
  return **base;
}

Result<Solved> Trials::solve(const Event& e, const Sky& sky, const Position& position) {
  auto faulted = network(e, sky, position);
  if (!faulted) return faulted.failure();
  ++solutions_;
  auto solution = circuit::solve(faulted->built.network);
  if (!solution) return solution.failure();
  return Solved{std::move(*faulted), std::move(*solution)};
}

Reading Trials::read(const Solved& x) const {
  Reading r;
  const auto& b = x.faulted.built;
  const auto& w = s_.w;
  for (std::size_t k = 0; k < s_.poles.size(); ++k) {
    const units::Current i = x.current(x.faulted.pole[k]);  // from line to load
    r.poles.push_back(s_.poles[k].pole == Pole::plus ? i : -i);
  }
  r.conductors.reserve(w.conductors.size());
  for (const int e : b.conductor) r.conductors.push_back(x.current(e));
  r.reverse.resize(w.strings.size());
  r.bypass.resize(w.strings.size());
  r.through.resize(w.strings.size());
  for (std::size_t k = 0; k < w.inputs.size(); ++k)
    r.residual.push_back(residual(s_, r.conductors, static_cast<int>(k)));
  for (const int bond : x.faulted.bond) r.bond = units::max(r.bond, units::abs(x.current(bond)));
  std::vector<int> string_of(w.devices.size(), -1);
  for (std::size_t s = 0; s < w.strings.size(); ++s)
    for (const int m : w.strings[s].modules) string_of[m] = static_cast<int>(s);
  // Parts of a parted module hang below its first element and belong to the same string.
  int last = -1;
  std::vector<int> owner(b.network.elements.size(), -1);
  for (std::size_t d = 0; d < b.module.size(); ++d)
    if (b.module[d] >= 0) owner[b.module[d]] = string_of[d];
  for (std::size_t e = 0; e < b.network.elements.size(); ++e) {
    const auto* group = cells(b, static_cast<int>(e));
    if (!group) continue;
    if (owner[e] < 0) {
      for (std::size_t up = 0; up < e; ++up)
        if (b.network.elements[up].minus == b.network.elements[e].plus && owner[up] >= 0)
          owner[e] = owner[up];
    }
    last = owner[e];
    if (last < 0) continue;
    const units::Current i = x.solution.current[e];
    r.reverse[last] = units::max(r.reverse[last], -i);
    r.through[last] = units::max(r.through[last], units::abs(i));
    const auto& bypass = group->curve.group().bypass;
    if (!bypass) continue;
    const auto& element = b.network.elements[e];
    const double v =
        (x.solution.potential[element.plus] - x.solution.potential[element.minus]).si() /
        (group->curve.in_series() * std::max(element.count, 1));
    if (v < 0) {
      const double through = bypass->i_s.si() * std::expm1(-v / bypass->a.si());
      r.bypass[last] = units::max(r.bypass[last], units::amps(through));
    }
  }
  r.fault = x.current(x.faulted.applied.fault);
  return r;
}

Result<units::Voltage> Trials::open_circuit(int string, const Sky& sky) {
  const auto base = sound(Load::idle, sky);
  if (!base) return base.failure();
  units::Voltage v;
  for (const int m : s_.w.strings[string].modules)
    if (const auto* group = cells((*base)->built, (*base)->built.module[m]))
      v += group->curve.v_oc();
  return v;
}

}  // namespace stringwright::events
