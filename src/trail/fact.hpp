#pragma once

#include <optional>
#include <string>
#include <utility>

#include "base/span.hpp"
#include "units/quantity.hpp"

namespace stringwright::trail {

/// What is known of one quantity, and from where. `from` is what the trail prints beside the value:
/// "module.M365", "job", "Table 310.16". `status` says who has seen it: "given" (the job or a data
/// sheet says so), "verified: ...", "memory", "computed", "common practice, no source".
template <class T>
struct Fact {
  std::optional<T> value;
  std::string from;
  std::string status = "given";
  Span span;  ///< in the job file, where it stands there

  Fact() = default;
  Fact(T v, std::string where = {}, Span s = {})
      : value(std::move(v)), from(std::move(where)), span(s) {}
  Fact(const Given<T>& g, std::string where)
      : value(g.value), from(std::move(where)), span(g.span) {}

  bool known() const { return value.has_value(); }
  const T& operator*() const { return *value; }
  const T* operator->() const { return &*value; }
};

}  // namespace stringwright::trail
