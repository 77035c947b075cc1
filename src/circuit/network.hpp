#pragma once

#include <vector>

#include "circuit/elements/all.hpp"

namespace stringwright::circuit {

/// One element between two nodes, or `count` alike ones in series. Its current is positive where it
/// leaves at plus.
struct Element {
  int plus = -1, minus = -1;  ///< nodes
  int law = -1;               ///< index into Network::laws; alike elements share one
  int count = 1;
};

/// Any circuit of two-terminal elements. Faults are further elements, or the same with other nodes:
/// a short is a resistor or a joint, a reversed string has its ends swapped, an open conductor is left
/// out, a ground fault is a resistor to the earth node.
struct Network {
  int nodes = 0;
  std::vector<Law> laws;
  std::vector<Element> elements;
  /// Nodes that stand at 0 V, in order of preference: the first one in each connected part counts. A
  /// part without any floats.
  std::vector<int> references;

  int add_node() { return nodes++; }
  int add_law(const Law& law);
  /// Returns the element's index.
  int add(int plus, int minus, int law, int count = 1);
  int add(int plus, int minus, const Law& law);
};

}  // namespace stringwright::circuit
