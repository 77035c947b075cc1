#pragma once

#include <algorithm>
#include <cstddef>
#include <tuple>
#include <utility>
#include <vector>

#include "base/span.hpp"

namespace stringwright::job {

/// Whether `x` begins in front of `y` in the text.
inline bool is_before(const Span& x, const Span& y) {
  return std::pair(x.line, x.column) < std::pair(y.line, y.column);
}

/// Into the order of the text; what stands at one place stays as it was. (std::stable_sort of g++ 12
/// uses a deprecated function, which clang refuses.)
template <class T>
void sort_by_place(std::vector<T>& records) {
  std::vector<std::tuple<int, int, std::size_t>> order;
  order.reserve(records.size());
  for (std::size_t i = 0; i < records.size(); ++i)
    order.emplace_back(records[i].span.line, records[i].span.column, i);
  std::sort(order.begin(), order.end());
  std::vector<T> sorted;
  sorted.reserve(records.size());
  for (const auto& place : order) sorted.push_back(std::move(records[std::get<2>(place)]));
  records = std::move(sorted);
}

}  // namespace stringwright::job
