#include "events/live.hpp"

#include <algorithm>
#include <map>
#include <numeric>
#include <variant>

#include "circuit/elements/all.hpp"

namespace stringwright::events {
namespace {

/// Nodes that hang together.
class Groups {
 public:
  explicit Groups(int nodes) : parent_(static_cast<std::size_t>(nodes)) {
    std::iota(parent_.begin(), parent_.end(), 0);
  }
  int find(int node) {
    while (parent_[static_cast<std::size_t>(node)] != node)
      node = parent_[static_cast<std::size_t>(node)] =
          parent_[static_cast<std::size_t>(parent_[static_cast<std::size_t>(node)])];
    return node;
  }
  void join(int a, int b) { parent_[static_cast<std::size_t>(find(a))] = find(b); }

 private:
  std::vector<int> parent_;
};

bool is_source(const circuit::Law& law) {
  if (const auto* cells = std::get_if<circuit::CellGroup>(&law))
    return cells->curve.group().cells.i_ph.si() > 0;
  const auto* source = std::get_if<circuit::Source>(&law);
  return source && source->e.si() != 0;
}

bool is_wire(const circuit::Law& law) {
  return std::holds_alternative<circuit::Resistor>(law) ||
         std::holds_alternative<circuit::Joint>(law);
}

}  // namespace

std::string_view word(Touch t) {
  switch (t) {
    case Touch::live:
      return "LIVE";
    case Touch::floating:
      return "FLOAT";
    case Touch::ground:
      return "GROUND";
    case Touch::dead:
      return "DEAD";
  }
  return "";
}

std::vector<LiveAt> live(const Site& s, const Solved& x) {
  const auto& b = x.faulted.built;
  const auto& n = b.network;
  Groups joined(n.nodes), wired(n.nodes);
  for (std::size_t e = 0; e < n.elements.size(); ++e) {
    const auto& element = n.elements[e];
    const auto& leaks = x.faulted.leaks;
    if (std::find(leaks.begin(), leaks.end(), static_cast<int>(e)) != leaks.end()) continue;
    joined.join(element.plus, element.minus);
    if (is_wire(n.laws[element.law])) wired.join(element.plus, element.minus);
  }
  std::vector<bool> driven(static_cast<std::size_t>(n.nodes), false);
  for (const auto& element : n.elements)
    if (is_source(n.laws[element.law])) driven[joined.find(element.plus)] = true;

  const bool solid = s.w.job.grounding.scheme && *s.w.job.grounding.scheme == job::Scheme::solid;
  std::vector<LiveAt> all;
  std::map<int, std::size_t> known;  // by node
  for (std::size_t t = 0; t < s.w.terminals.size(); ++t) {
    const auto& terminal = s.w.terminals[t];
    const auto& device = s.w.devices[terminal.device];
    if (device.spare || device.kind == wiring::DeviceKind::module ||
        device.kind == wiring::DeviceKind::bond || terminal.pole == wiring::Pole::ground)
      continue;
    const int node = b.node[t];
    const auto [at, fresh] = known.emplace(node, all.size());
    if (!fresh) {
      all[at->second].terminals.push_back(terminal.id);
      continue;
    }
    LiveAt here;
    here.terminals = {terminal.id};
    const bool grounded = b.earth >= 0 && joined.find(node) == joined.find(b.earth);
    if (grounded) here.to_ground = x.solution.potential[node] - x.solution.potential[b.earth];
    for (const auto& in : s.w.inputs)
      for (const int other : s.w.devices[in.device].terminals)
        if (!here.to_minus && s.w.terminals[other].pole == wiring::Pole::minus &&
            joined.find(b.node[other]) == joined.find(node))
          here.to_minus = x.solution.potential[node] - x.solution.potential[b.node[other]];
    const bool held = grounded && wired.find(node) == wired.find(b.earth);
    here.touch = !driven[joined.find(node)] ? Touch::dead
                 : held                     ? (solid ? Touch::ground : Touch::floating)
                 : grounded                 ? Touch::live
                                            : Touch::floating;
    all.push_back(std::move(here));
  }
  return all;
}

const LiveAt* live_at(const std::vector<LiveAt>& all, const std::string& terminal) {
  for (const LiveAt& here : all)
    if (std::find(here.terminals.begin(), here.terminals.end(), terminal) != here.terminals.end())
      return &here;
  return nullptr;
}

}  // namespace stringwright::events
