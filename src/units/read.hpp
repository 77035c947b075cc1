#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "units/quantity.hpp"

namespace stringwright::units {

/// A number with its unit as a person writes it, any dimension. '-' and '−' both mean minus,
/// fractions ("3/4 in", "1 1/2 ft") are read, "1.5e3" too; a decimal comma, `inf`, `nan`, a missing
/// or unknown unit are failures with advice in the message.
struct Reading {
  double si = 0;  ///< for temperature points: kelvin
  Dimension dimension;
  bool point = false;  ///< °C, C, degC, °F: a point on the scale, not a difference
};
Result<Reading> read_any(std::string_view text);

/// The same, where one dimension is asked for. The failure says what was found ("a length, 85 ft"),
/// what is needed ("a voltage") and which units are allowed ("V, mV, kV").
template <Dimension D>
Result<Quantity<D>> read(std::string_view text);

/// A temperature point: "-31 °C", "-24 °F", "12 C", "12 degC".
Result<Temperature> read_temperature(std::string_view text);

/// The name of a dimension in words ("voltage", "length") and its units in a line ("V, mV, kV").
std::string_view dimension_name(Dimension d, bool point = false);
std::string unit_list(Dimension d, bool point = false);

namespace detail {
Result<double> read_as(std::string_view text, Dimension d);
}
template <Dimension D>
Result<Quantity<D>> read(std::string_view text) {
  auto r = detail::read_as(text, D);
  if (!r) return r.failure();
  return Quantity<D>::from_si(*r);
}

}  // namespace stringwright::units
