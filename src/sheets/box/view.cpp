#include "sheets/box/view.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "job/find.hpp"

namespace stringwright::sheets::box {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

Bar bar_of(const wiring::Wiring& w, int device) {
  Bar b;
  b.device = device;
  b.letter = w.devices[at(device)].label;
  for (int t : w.devices[at(device)].terminals) {
    b.pole = w.terminals[at(t)].pole;
    if (!w.terminals[at(t)].label.empty()) b.holes.push_back(t);
  }
  std::sort(b.holes.begin(), b.holes.end(), [&](int x, int y) {
    const int m = w.terminals[at(x)].number, n = w.terminals[at(y)].number;
    return m != n ? m < n : x < y;
  });
  return b;
}

}  // namespace

std::vector<int> View::on(int terminal) const {
  std::vector<int> found;
  for (const auto& wire : wires)
    if (std::find(wire.inside.begin(), wire.inside.end(), terminal) != wire.inside.end())
      found.push_back(wire.conductor);
  return found;
}

std::vector<std::string> View::labels(bool of_fuses) const {
  std::vector<std::string> all;
  for (const auto& p : places)
    if (!p.spare && is_fuse(p) == of_fuses) all.push_back(device(p.device).label);
  return all;
}

std::vector<const parts::Part*> View::kinds() const {
  std::vector<const parts::Part*> all;
  for (const auto& p : places)
    if (const auto* own = wiring.part_of(p.device);
        !p.spare && std::find(all.begin(), all.end(), own) == all.end())
      all.push_back(own);
  return all;
}

std::string number_in(const std::string& label, const std::string& letter) {
  return text::starts_with(label, letter) ? label.substr(letter.size()) : label;
}

View view(const wiring::Wiring& w, int box) {
  const auto& circuit = w.boxes[at(box)];
  View v{w, box, job::find(w.job.part, circuit.part), nullptr, {}, {}, {}, circuit.arrester, {}};

  std::vector<bool> here(w.terminals.size(), false);
  const auto take = [&](int device) {
    if (device < 0) return;
    for (int t : w.devices[at(device)].terminals) here[at(t)] = true;
  };
  for (int d : circuit.devices) {
    take(d);
    const auto& device = w.devices[at(d)];
    Place p{d, device.number, device.spare, {}};
    for (int t : device.terminals) {
      const auto& terminal = w.terminals[at(t)];
      auto ends = std::find_if(p.ends.begin(), p.ends.end(),
                               [&](const PoleEnds& e) { return e.pole == terminal.pole; });
      if (ends == p.ends.end()) ends = p.ends.insert(p.ends.end(), {terminal.pole, -1, -1});
      // The line side is named first, as in the graph.
      (ends->line < 0 ? ends->line : ends->load) = t;
    }
    std::sort(p.ends.begin(), p.ends.end(),
              [](const PoleEnds& x, const PoleEnds& y) { return x.pole < y.pole; });
    if (!v.device_part && !device.spare) v.device_part = w.part_of(d);
    v.places.push_back(std::move(p));
  }
  for (int d : {circuit.bus_plus, circuit.bus_minus, circuit.bar_ground, circuit.arrester}) take(d);

  // A bar that fingers reach is a bus; where no place is used yet, the poles of the devices decide.
  const auto fingered = [&](int bar) {
    return std::any_of(w.conductors.begin(), w.conductors.end(), [&](const auto& c) {
      return c.kind == wiring::ConductorKind::finger && c.to >= 0 &&
             w.terminals[at(c.to)].device == bar;
    });
  };
  const bool any = fingered(circuit.bus_plus) || fingered(circuit.bus_minus);
  const auto devices_in = w.job.grounding.devices_in.value_or(job::DevicesIn::plus);
  const auto is_bus = [&](int bar) {
    if (bar == circuit.bar_ground) return false;
    if (any) return fingered(bar);
    return devices_in == job::DevicesIn::both ||
           (devices_in == job::DevicesIn::plus) == (bar == circuit.bus_plus);
  };
  for (int bar : {circuit.bus_plus, circuit.bus_minus, circuit.bar_ground})
    if (bar >= 0) (is_bus(bar) ? v.buses : v.bars).push_back(bar_of(w, bar));

  for (std::size_t i = 0; i < w.conductors.size(); ++i) {
    const auto& c = w.conductors[i];
    if (c.kind == wiring::ConductorKind::finger) continue;
    BoxWire wire{static_cast<int>(i), {}};
    for (int t : {c.from, c.to})
      if (t >= 0 && here[at(t)]) wire.inside.push_back(t);
    if (!wire.inside.empty()) v.wires.push_back(std::move(wire));
  }
  return v;
}

}  // namespace stringwright::sheets::box
