#include "pv/single_diode.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>

#include <boost/math/tools/toms748_solve.hpp>

namespace stringwright::pv {
namespace {

/// Below this conductance a current that is forced through has no voltage that could be written down.
constexpr double least_conductance = 1e-12;

/// λ and e^λ; the second is more exact than exp(λ) where λ is large.
struct Omega {
  double log, value;
};

Omega omega(double y) {
  double x;
  if (y < -2) {
    x = y;
  } else if (y < 3) {
    const double t = y - 1;
    x = t * (0.5 - t / 16);
  } else {
    const double log_y = std::log(y);
    x = log_y - log_y / y;
  }
  // Householder's step of fourth order, written so that no power of e^λ can overflow.
  double e = std::exp(x);
  for (int step = 0; step < 5; ++step) {
    const double inverse = 1 / (1 + e);
    const double p = e * inverse;
    const double u = (x + e - y) * inverse;
    const double change = u * (1 - u * p / 2) / (1 - u * p + u * u * p / 6);
    x -= change;
    if (std::fabs(change) < 1e-4 * (1 + std::fabs(x))) {
      // One more step would not move x; e follows from the equation where it is the larger part.
      e = x > 0.5 ? y - x : std::exp(x);
      break;
    }
    e = std::exp(x);
  }
  return {x, e};
}

/// e^x − 1 that goes on as a straight line where it would overflow.
double exp_minus_1(double x, double* slope) {
  constexpr double cap = 300;
  if (x > cap) {
    const double e = std::exp(cap);
    *slope = e;
    return e * (1 + x - cap);
  }
  const double m = std::expm1(x);
  *slope = m + 1;
  return m;
}

/// Root of a falling function within [lo, hi], f(lo) >= 0 >= f(hi): Newton, halved where it leaves the
/// bracket or creeps.
template <class F>  // F: x, slope out -> value
double falling_root(F f, double lo, double hi, double start) {
  double x = std::clamp(start, lo, hi);
  double width_before = hi - lo;
  for (int i = 0; i < 200; ++i) {
    double slope = 0;
    const double y = f(x, &slope);
    if (y == 0) return x;
    (y > 0 ? lo : hi) = x;
    const double step = slope < 0 ? -y / slope : 0;
    // What is left after so small a step is its square: rounding.
    if (slope < 0 && std::fabs(step) <= 1e-9 * std::fabs(x)) return std::clamp(x + step, lo, hi);
    const bool creeps = i % 4 == 3 && hi - lo > 0.5 * width_before;
    if (i % 4 == 3) width_before = hi - lo;
    double next = x + step;
    if (!(next > lo && next < hi) || creeps) next = lo + (hi - lo) / 2;
    if (next == x) return x;
    x = next;
  }
  return x;
}

}  // namespace

double log_wright_omega(double y) { return omega(y).log; }

Curve::Curve(const CellGroup& group, int in_series) : group_(group), in_series_(in_series) {
  const FiveParameters& p = group.cells;
  c_.i_ph = p.i_ph.si();
  c_.i_0 = p.i_0.si();
  c_.a = p.a.si();
  c_.r_s = p.r_s.si();
  c_.g = std::fmax(p.g_sh.si(), least_conductance);
  if (group.breakdown) {
    c_.b = group.breakdown->share;
    c_.v_br = group.breakdown->v.si();
    c_.m = group.breakdown->exponent;
  }
  if (group.bypass) {
    c_.i_s = group.bypass->i_s.si();
    c_.a_b = group.bypass->a.si();
  }
  c_.per_amp = 1 / (c_.g * c_.a);
  c_.rho = c_.r_s / (1 + c_.g * c_.r_s);
  if (c_.r_s > 0) c_.log_v = std::log(c_.rho) + std::log(c_.i_0) - std::log(c_.a);
  c_.log_i = std::log(c_.i_0) - std::log(c_.g) - std::log(c_.a);
  c_.i_sc = cells_at_voltage(c_, 0).i;  // a bypass diode adds nothing to it
}

/// Current of the junction and its shunt, and its slope, at junction voltage `v_d`.
double Curve::junction(const Cells& c, double v_d, double* slope) {
  double e = 0;
  const double diode = c.i_0 * exp_minus_1(v_d / c.a, &e);
  double shunt = c.g * v_d;
  double g = c.g;
  if (c.v_br < 0) {
    const double s = 1 - v_d / c.v_br;  // 1 at no voltage, 0 at breakdown
    const double extra = c.b * std::pow(s, -c.m);
    g += c.g * extra * (1 + c.m * v_d / (c.v_br * s));
    shunt += c.g * v_d * extra;
  }
  *slope = -(c.i_0 * e / c.a + g);
  return c.i_ph - diode - shunt;
}

Curve::Point Curve::cells_at_voltage(const Cells& c, double v) {
  double v_d = v;
  if (c.r_s > 0) {
    const double y = (c.rho * (c.i_ph + c.i_0) + v / (1 + c.g * c.r_s)) / c.a + c.log_v;
    const Omega w = omega(y);
    v_d = c.a * (w.log - c.log_v);
    if (c.v_br == 0) {
      const double g_d = w.value / c.rho + c.g;
      return {v, c.i_ph + c.i_0 - c.a * w.value / c.rho - c.g * v_d, -(1 / g_d + c.r_s)};
    }
    // The breakdown term has the sign of v_d and pulls the root towards zero.
    const auto f = [&](double x, double* slope) {
      const double i = junction(c, x, slope);
      *slope = c.r_s * *slope - 1;
      return v + c.r_s * i - x;
    };
    const double edge = std::fmax(v_d, c.v_br * (1 - 1e-12));
    v_d = falling_root(f, std::fmin(edge, 0), std::fmax(edge, 0), edge > 0 ? edge : edge / 2);
  } else if (c.v_br < 0) {
    v_d = std::fmax(v_d, c.v_br * (1 - 1e-12));
  }
  double slope = 0;
  const double i = junction(c, v_d, &slope);
  return {v, i, 1 / slope - c.r_s};
}

Curve::Point Curve::cells_at_current(const Cells& c, double i) {
  const double y = (c.i_ph + c.i_0 - i) / (c.g * c.a) + c.log_i;
  const Omega w = omega(y);
  double v_d = c.a * (w.log - c.log_i);
  double g_d = c.g * (1 + w.value);
  if (c.v_br < 0) {
    const auto f = [&](double x, double* slope) { return junction(c, x, slope) - i; };
    const double edge = std::fmax(v_d, c.v_br * (1 - 1e-12));
    v_d = falling_root(f, std::fmin(edge, 0), std::fmax(edge, 0), edge > 0 ? edge : edge / 2);
    double slope = 0;
    junction(c, v_d, &slope);
    g_d = -slope;
  }
  return {v_d - i * c.r_s, i, -(1 / g_d + c.r_s)};
}

Curve::Point Curve::group_at_voltage(const Cells& c, double v) {
  Point p = cells_at_voltage(c, v);
  if (c.i_s > 0) {
    double e = 0;
    p.i += c.i_s * exp_minus_1(-v / c.a_b, &e);
    p.dv_di = 1 / (1 / p.dv_di - c.i_s * e / c.a_b);
  }
  return p;
}

Curve::Point Curve::group_at_current(const Cells& c, double i) {
  if (c.i_s == 0) return cells_at_current(c, i);
  // The diode gives at least −i_s, so the cells carry at most i + i_s: a lower bound of the voltage,
  // and the answer itself wherever the diode blocks.
  Point p = cells_at_current(c, i + c.i_s);
  if (p.v > 40 * c.a_b) return {p.v, i, p.dv_di};

  double lo = p.v;
  double hi = 0;
  if (i > c.i_sc) {
    lo = std::fmax(lo, -c.a_b * std::log1p((i - c.i_sc) / c.i_s));
  } else {
    hi = cells_at_current(c, i).v;
  }
  const auto f = [&](double v, double* slope) {
    const Point q = group_at_voltage(c, v);
    *slope = 1 / q.dv_di;
    return q.i - i;
  };
  const double v = falling_root(f, std::fmin(lo, hi), std::fmax(lo, hi), lo);
  return {v, i, group_at_voltage(c, v).dv_di};
}

CurvePoint Curve::at_current(units::Current i) const {
  const Point p = group_at_current(c_, i.si());
  return {units::volts(p.v * in_series_), i, units::ohms(p.dv_di * in_series_)};
}

CurvePoint Curve::at_voltage(units::Voltage v) const {
  const Point p = group_at_voltage(c_, v.si() / in_series_);
  return {v, units::amps(p.i), units::ohms(p.dv_di * in_series_)};
}

CurvePoint Curve::maximum_power() const {
  const double v_oc = group_at_current(c_, 0).v;
  if (!(v_oc > 0) || !(group_at_voltage(c_, 0).i > 0)) return at_voltage(units::volts(0));
  const auto slope_of_power = [&](double v) {
    const Point p = group_at_voltage(c_, v);
    return p.i + v / p.dv_di;
  };
  std::uintmax_t steps = 100;
  const auto [lo, hi] = boost::math::tools::toms748_solve(
      slope_of_power, 0.0, v_oc, boost::math::tools::eps_tolerance<double>(50), steps);
  return at_voltage(units::volts((lo + (hi - lo) / 2) * in_series_));
}

}  // namespace stringwright::pv
