#include "units/print.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"

namespace stringwright::units {
namespace {

struct Row {
  Dimension dimension;
  Shown shown;
};

constexpr Dimension ampere_squared_second{.s = 1, .a = 2};

constexpr std::array rows{
    Row{dim::length, {"m", 1, 2}},
    Row{dim::area, {"mm²", square_millimetres.factor, 2}},
    Row{dim::time, {"s", 1, 2}},
    Row{dim::current, {"A", 1, 2}},
    Row{dim::voltage, {"V", 1, 1}},
    Row{dim::resistance, {"Ω", 1, 4}},
    Row{dim::conductance, {"S", 1, 4}},
    Row{dim::resistance_per_length, {"Ω/km", ohms_per_kilometre.factor, 3}},
    Row{dim::resistivity, {"Ω·mm²/m", 1e-6, 5}},
    Row{dim::power, {"W", 1, 2}},
    Row{dim::energy, {"Wh", watt_hours.factor, 2}},
    Row{dim::kelvin, {"K", 1, 1}},
    Row{dim::per_kelvin, {"%/K", percent_per_kelvin.factor, 3}},
    Row{dim::voltage_per_kelvin, {"V/K", 1, 3}},
    Row{dim::current_per_kelvin, {"mA/K", milliamps_per_kelvin.factor, 2}},
    Row{dim::power_per_kelvin, {"W/K", 1, 3}},
    Row{dim::irradiance, {"W/m²", 1, 0}},
    Row{dim::torque, {"N·m", 1, 2}},
    Row{dim::angle, {"°", degrees.factor, 1}},
    Row{ampere_squared_second, {"A²·s", 1, 0}},
};

constexpr int most_decimals = 9;

/// Decimals that a plain number needs for 4 significant digits, trailing zeros off.
int decimals_of_plain(double value) {
  const std::string digits = text::shortest(value, 4);
  const auto point = digits.find('.');
  if (digits.find('e') != std::string::npos) return most_decimals;
  return point == std::string::npos ? 0 : static_cast<int>(digits.size() - point) - 1;
}

std::string with_unit(std::string number, std::string_view unit) {
  return unit.empty() ? number : std::move(number) + " " + std::string(unit);
}

double number_in(const AnyQuantity& q, const Shown& s) {
  return q.point ? Temperature::from_kelvin(q.si).celsius() : q.si / s.factor;
}

/// The number a reader sees, to compare with another one.
double rounded(double number, int decimals) {
  const double scale = std::pow(10.0, decimals);
  return std::round(number * (1 + 1e-13) * scale) / scale;
}

/// Whether what is printed stands in the same order as what is true; `x` and `y` are not equal.
bool reads_true(double x, int x_decimals, double y, int y_decimals) {
  const double seen_x = rounded(x, x_decimals);
  const double seen_y = rounded(y, y_decimals);
  return x < y ? seen_x < seen_y : seen_x > seen_y;
}

bool equal_within_guard(double x, double y) {
  return std::fabs(x - y) <= guard * std::max(std::fabs(x), std::fabs(y));
}

}  // namespace

Shown shown(const AnyQuantity& q) {
  if (q.point) {
    const double c = Temperature::from_kelvin(q.si).celsius();
    return {"°C", 1, text::ends_with(text::fixed(c, 1), ".0") ? 0 : 1};
  }
  if (q.dimension == dim::one) return {"", 1, decimals_of_plain(q.si)};
  const double magnitude = std::fabs(q.si);
  if (q.dimension == dim::length && magnitude > 0 && magnitude < 0.1) return {"mm", 1e-3, 1};
  if (q.dimension == dim::resistance && magnitude >= 1e6) return {"MΩ", 1e6, 2};
  if (q.dimension == dim::resistance && magnitude >= 1e3) return {"kΩ", 1e3, 2};
  for (const auto& row : rows)
    if (row.dimension == q.dimension) {
      Shown s = row.shown;
      const bool whole_from_100 = q.dimension == dim::power || q.dimension == dim::energy;
      if (whole_from_100 && magnitude / s.factor >= 100) s.decimals = 0;
      return s;
    }
  return {"(SI)", 1, 4};
}

double shown_number(const AnyQuantity& q) { return number_in(q, shown(q)); }

std::string print(const AnyQuantity& q) {
  if (q.dimension == dim::one) return text::shortest(q.si, 4);
  return print(q, shown(q).decimals);
}

std::string print(const AnyQuantity& q, int decimals) {
  const Shown s = shown(q);
  return with_unit(text::fixed(number_in(q, s), decimals), s.unit);
}

std::string print_percent(Ratio r, int decimals) {
  return text::fixed(r.in(percent), decimals) + " %";
}

std::pair<std::string, std::string> print_pair(const AnyQuantity& x, const AnyQuantity& y) {
  if (!(x.dimension == y.dimension && x.point == y.point)) return {print(x), print(y)};
  // One unit for both: that of the larger.
  const Shown s = shown(std::fabs(x.si) > std::fabs(y.si) ? x : y);
  const double nx = number_in(x, s);
  const double ny = number_in(y, s);
  if (equal_within_guard(x.si, y.si)) return {print(y), print(y)};
  if (shown(x).unit == s.unit && shown(y).unit == s.unit &&
      reads_true(nx, shown(x).decimals, ny, shown(y).decimals))
    return {print(x), print(y)};
  int decimals = std::max(shown(x).decimals, shown(y).decimals);
  while (decimals < most_decimals && !reads_true(nx, decimals, ny, decimals)) ++decimals;
  return {with_unit(text::fixed(nx, decimals), s.unit),
          with_unit(text::fixed(ny, decimals), s.unit)};
}

std::string print_length_both(Length l) {
  return text::fixed(l.in(metres), 1) + " m (" + text::fixed(l.in(feet), 1) + " ft)";
}

}  // namespace stringwright::units
