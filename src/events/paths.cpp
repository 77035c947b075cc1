#include "events/paths.hpp"

#include <algorithm>

namespace stringwright::events {
namespace {

/// A terminal at a node; where the node is a tap inside a module, the module's plus terminal.
int terminal_at(const Site& s, const Faulted& f, int node) {
  const auto& nodes = f.built.node;
  const auto here = std::find(nodes.begin(), nodes.end(), node);
  if (here != nodes.end()) return static_cast<int>(here - nodes.begin());
  for (std::size_t d = 0; d < f.built.module.size(); ++d) {
    const int e = f.built.module[d];
    if (e < 0) continue;
    const auto& element = f.built.network.elements[e];
    if (element.minus == node || element.plus == node) return s.w.devices[d].terminals.back();
  }
  return -1;
}

}  // namespace

Result<Paths> paths(Trials& trials, const Event& e, const Sky& sky) {
  const auto solved = trials.solve(e, sky);
  if (!solved) return solved.failure();
  const Site& s = trials.site();
  const auto& f = solved->faulted;
  const Reading r = trials.read(*solved);
  Paths p;
  p.event = e;
  p.sky = sky;
  p.poles = r.poles;
  p.conductors = r.conductors;
  for (const auto& string : s.w.strings) {
    p.strings.push_back(string.modules.empty()
                            ? units::Current{}
                            : solved->current(f.built.module[string.modules.back()]));
    bool reversed = false;
    if (!string.plus_path.empty() && !string.minus_path.empty()) {
      const int element = f.built.conductor[string.plus_path.back()];
      const int minus = s.w.conductors[string.minus_path.back()].to;
      reversed = element >= 0 && f.built.network.elements[element].plus == f.built.node[minus];
    }
    p.reversed.push_back(reversed);
  }
  const auto& a = f.applied;
  if (a.fault >= 0 && a.hot_spot.si() == 0) {
    const auto& element = f.built.network.elements[a.fault];
    p.fault = solved->current(a.fault);
    p.fault_from = terminal_at(s, f, element.minus);
    p.fault_to = terminal_at(s, f, element.plus);
    if (p.fault.si() < 0) {
      std::swap(p.fault_from, p.fault_to);
      p.fault = -p.fault;
    }
  } else if (a.fault >= 0) {
    p.fault = units::abs(solved->current(a.fault));
    p.fault_from = p.fault_to = terminal_at(s, f, f.built.network.elements[a.fault].plus);
  }
  if (a.gap_plus >= 0) {
    p.gap_one = terminal_at(s, f, a.gap_minus);
    p.gap_other = terminal_at(s, f, a.gap_plus);
  }
  return p;
}

}  // namespace stringwright::events
