#pragma once

#include <string_view>
#include <utility>

namespace stringwright::job {

/// Names of an enumeration in the file, in order; ends with an empty name.
template <class E>
using Name = std::pair<std::string_view, E>;

}  // namespace stringwright::job
