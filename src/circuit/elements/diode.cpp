#include "circuit/elements/diode.hpp"

#include <cmath>

namespace stringwright::circuit {

Drop at_current(const Diode& e, units::Current i) {
  // With x = −v/a: i + i_s = i_s·e^x + leak·a·x, closed by λ + e^λ = y.
  const double leak_a = e.leak.si() * e.a.si();
  const double shift = std::log(e.i_s.si()) - std::log(leak_a);
  const double x = pv::log_wright_omega((i.si() + e.i_s.si()) / leak_a + shift) - shift;
  const double slope = (e.i_s.si() * std::exp(x)) / e.a.si() + e.leak.si();
  return {-x * e.a, units::ohms(-1 / slope)};
}

Flow at_voltage(const Diode& e, units::Voltage v) {
  constexpr double cap = 300;  // from there on a straight line
  const double x = -(v / e.a);
  const double exp = std::exp(std::fmin(x, cap));
  const double i = x > cap ? e.i_s.si() * exp * (1 + x - cap) : e.i_s.si() * std::expm1(x);
  return {units::amps(i) - e.leak * v, pv::siemens(-e.i_s.si() * exp / e.a.si()) - e.leak};
}

}  // namespace stringwright::circuit
