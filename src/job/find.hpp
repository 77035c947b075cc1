#pragma once

#include <string_view>

#include "job/job.hpp"

namespace stringwright::job {

/// The record of that id in a list, or null.
template <class T>
const T* find(const std::vector<T>& list, std::string_view id) {
  for (const auto& item : list)
    if (item.id == id) return &item;
  return nullptr;
}

}  // namespace stringwright::job
