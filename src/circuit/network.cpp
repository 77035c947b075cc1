#include "circuit/network.hpp"

#include <utility>

namespace stringwright::circuit {

int Network::add_law(Law law) {
  laws.push_back(std::move(law));
  return static_cast<int>(laws.size()) - 1;
}

int Network::add(int plus, int minus, int law, int count) {
  elements.push_back({plus, minus, law, count});
  return static_cast<int>(elements.size()) - 1;
}

int Network::add(int plus, int minus, Law law) {
  return add(plus, minus, add_law(std::move(law)), 1);
}

}  // namespace stringwright::circuit
