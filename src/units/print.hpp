#pragma once

#include <string>
#include <string_view>
#include <utility>

#include "units/quantity.hpp"

namespace stringwright::units {

/// A quantity whose dimension is known only when the program runs: what a trail, a fact or a reply
/// carries. `point` marks a temperature on the scale (si is then in kelvin).
struct AnyQuantity {
  double si = 0;
  Dimension dimension;
  bool point = false;

  AnyQuantity() = default;
  template <Dimension D>
  AnyQuantity(Quantity<D> q) : si(q.si()), dimension(D) {}
  AnyQuantity(Temperature t) : si(t.kelvin()), dimension(dim::kelvin), point(true) {}
};

/// The unit a quantity is shown in (V, A, Ω, Ω/km, m, mm², K, °C, %/K, W, Wh, W/m², N·m, °, none for a
/// plain number; a length under 0.1 m in mm, a resistance from 1 kΩ in kΩ or MΩ) and the number of
/// decimals that is honest by default: V 1, A 2, Ω 4, kΩ and MΩ 2, Ω/km 3, m 2, mm 1, mm² 2, K 1,
/// °C 0 where that is whole and else 1, %/K 3, W and Wh 0 from 100 and 2 below, plain numbers up to 4
/// significant.
struct Shown {
  std::string_view unit;
  double factor = 1;  ///< SI value of one shown unit
  int decimals = 2;
};
Shown shown(const AnyQuantity& q);

/// The number in its shown unit, e.g. 0.0028 /K -> 0.28 (%/K), 242.15 K point -> −31 (°C).
double shown_number(const AnyQuantity& q);

/// "141.9 V", "28.38 A", "−31 °C", "1.157". Trailing zeros of a whole temperature are dropped.
std::string print(const AnyQuantity& q);
std::string print(const AnyQuantity& q, int decimals);

/// A share as percent, "2.56 %".
std::string print_percent(Ratio r, int decimals = 2);

/// Both printed with as many decimals as it takes (at least the default, at most 9) for the printed
/// numbers to stand in the same order as the true ones; equal within the guard prints equal. Both in
/// the unit of the larger.
std::pair<std::string, std::string> print_pair(const AnyQuantity& x, const AnyQuantity& y);

/// Metres and feet together: "38.0 m (124.7 ft)"; used on papers.
std::string print_length_both(Length l);

}  // namespace stringwright::units
