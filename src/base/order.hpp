#pragma once

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <utility>
#include <vector>

namespace stringwright {

/// Sorts by `before`; what is equal stays in its order. (std::stable_sort of g++ 12 uses a deprecated
/// function, which clang refuses.)
template <class T, class Before>
void sort_keeping_order(std::vector<T>& all, Before before) {
  std::vector<std::size_t> order(all.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::sort(order.begin(), order.end(), [&](std::size_t x, std::size_t y) {
    if (before(all[x], all[y])) return true;
    return !before(all[y], all[x]) && x < y;
  });
  std::vector<T> sorted;
  sorted.reserve(all.size());
  for (const std::size_t k : order) sorted.push_back(std::move(all[k]));
  all = std::move(sorted);
}

}  // namespace stringwright
