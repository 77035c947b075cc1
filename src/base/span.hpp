#pragma once

#include <optional>
#include <utility>

namespace stringwright {

/// A stretch of a text file. Lines and columns count from 1, columns count code points; the end is
/// exclusive. `line == 0` means: stands nowhere in the text (a default, a thing computed).
struct Span {
  int line = 0;
  int column = 0;
  int end_line = 0;
  int end_column = 0;

  bool known() const { return line > 0; }
  friend bool operator==(const Span&, const Span&) = default;
};

/// A value of a job or parts file: what was written, where, or that it was left open.
///
/// Three states: given (`value` set), left open for the design search (`choose`: written as
/// "choose"), or left out (unknown). What depends on an unknown ends as cannot-tell.
template <class T>
struct Given {
  std::optional<T> value;
  bool choose = false;
  Span span;  ///< of the value in the file; of the record where a value is left out

  Given() = default;
  Given(T v, Span s = {}) : value(std::move(v)), span(s) {}

  bool known() const { return value.has_value(); }
  explicit operator bool() const { return value.has_value(); }
  const T& operator*() const { return *value; }
  T& operator*() { return *value; }
  const T* operator->() const { return &*value; }
  T value_or(T other) const { return value.value_or(std::move(other)); }
};

}  // namespace stringwright
