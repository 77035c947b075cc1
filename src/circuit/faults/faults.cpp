#include "circuit/faults/faults.hpp"

#include <algorithm>
#include <utility>
#include <variant>
#include <vector>

#include "circuit/elements/all.hpp"

namespace stringwright::circuit::faults {
namespace {

const pv::Curve& curve(const Built& b, int element) {
  return std::get<CellGroup>(b.network.laws[b.network.elements[element].law]).curve;
}

/// Elements of a module from its plus end down: one, or more where it has been parted.
std::vector<int> parts_of(const Built& b, const wiring::Wiring& w, int device) {
  std::vector<int> parts{b.module[device]};
  const int minus = b.node[w.devices[device].terminals.front()];
  while (b.network.elements[parts.back()].minus != minus) {
    const int node = b.network.elements[parts.back()].minus;
    const auto below =
        std::find_if(b.network.elements.rbegin(), b.network.elements.rend(), [&](const Element& e) {
          return e.plus == node && std::holds_alternative<CellGroup>(b.network.laws[e.law]);
        });
    if (below == b.network.elements.rend()) break;
    parts.push_back(static_cast<int>(below.base() - b.network.elements.begin()) - 1);
  }
  return parts;
}

}  // namespace

int groups_of(const Built& b, const wiring::Wiring& w, int device) {
  int groups = 0;
  for (const int part : parts_of(b, w, device)) groups += curve(b, part).in_series();
  return groups;
}

int tap(Built& b, const wiring::Wiring& w, int device, int groups) {
  b.one_maximum = false;
  const auto& terminals = w.devices[device].terminals;
  if (groups <= 0) return b.node[terminals.front()];
  int above =
      groups_of(b, w, device) - groups;  // groups that stay between the place and the plus end
  if (above <= 0) return b.node[terminals.back()];
  for (const int part : parts_of(b, w, device)) {
    const pv::Curve whole = curve(b, part);
    if (above == whole.in_series()) return b.network.elements[part].minus;
    if (above > whole.in_series()) {
      above -= whole.in_series();
      continue;
    }
    const int node = b.network.add_node();
    const int minus = b.network.elements[part].minus;
    b.network.elements[part].minus = node;
    b.network.elements[part].law = b.network.add_law(CellGroup{pv::Curve(whole.group(), above)});
    b.network.add(node, minus, CellGroup{pv::Curve(whole.group(), whole.in_series() - above)});
    return node;
  }
  return b.node[terminals.front()];
}

int bridge(Built& b, int a, int c, units::Resistance r) {
  b.one_maximum = false;
  return r.si() > 0 ? b.network.add(a, c, Resistor{r}) : b.network.add(a, c, Joint{});
}

int battery(Built& b, int plus, int minus, units::Voltage e, units::Resistance r) {
  b.one_maximum = false;
  const int inner = b.network.add_node();
  b.network.add(inner, minus, Source{e});
  return b.network.add(plus, inner, Resistor{r});
}

int cut(Built& b, int element) {
  b.one_maximum = false;
  return b.network.elements[element].plus = b.network.add_node();
}

int in_series(Built& b, int element, units::Resistance r) {
  const int plus = b.network.elements[element].plus;
  const int between = cut(b, element);
  return b.network.add(plus, between, Resistor{r});
}

void land(Built& b, int conductor, int terminal) {
  b.one_maximum = false;
  b.network.elements[b.conductor[conductor]].plus = b.node[terminal];
}

void reverse(Built& b, const wiring::Wiring& w, int string) {
  const int plus = w.strings[string].plus_path.back(), minus = w.strings[string].minus_path.back();
  const int at_plus = w.conductors[plus].to, at_minus = w.conductors[minus].to;
  land(b, plus, at_minus);
  land(b, minus, at_plus);
}

void set_modules(Built& b, int device, int count) {
  b.one_maximum = false;
  Element& e = b.network.elements[b.module[device]];
  if (count > 0) {
    e.count = count;
    return;
  }
  // The law goes; the element stays, so that nothing else changes its index.
  const int joint = b.network.add_law(Joint{});
  b.network.elements[b.module[device]].law = joint;
}

}  // namespace stringwright::circuit::faults
