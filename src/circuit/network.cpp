#include "circuit/network.hpp"

namespace stringwright::circuit {

int Network::add_law(const Law& law) {
  laws.push_back(law);
  return static_cast<int>(laws.size()) - 1;
}

int Network::add(int plus, int minus, int law, int count) {
  elements.push_back({plus, minus, law, count});
  return static_cast<int>(elements.size()) - 1;
}

int Network::add(int plus, int minus, const Law& law) { return add(plus, minus, add_law(law), 1); }

}  // namespace stringwright::circuit
