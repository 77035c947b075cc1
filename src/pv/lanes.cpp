#include "pv/lanes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>

// Compiled once for each kind of processor; the best one that is there is taken at run time.
#undef HWY_TARGET_INCLUDE
#define HWY_TARGET_INCLUDE "pv/lanes.cpp"
#include <hwy/foreach_target.h>  // must come before highway.h
#include <hwy/highway.h>

HWY_BEFORE_NAMESPACE();
namespace stringwright::pv::HWY_NAMESPACE {
namespace {

namespace hn = hwy::HWY_NAMESPACE;

using D = hn::CappedTag<double, Lanes::block>;
using V = hn::Vec<D>;
using M = hn::Mask<D>;

HWY_INLINE V number(double x) { return hn::Set(D(), x); }

/// a·b + c in two roundings, as every processor can.
HWY_INLINE V twice(V a, V b, V c) { return hn::Add(hn::Mul(a, b), c); }

/// e^x to about one unit in the last place; x is held within what a number can be.
HWY_INLINE V exponential(V x) {
  const hn::RebindToUnsigned<D> bits;
  x = hn::Min(hn::Max(x, number(-708)), number(709));
  const V magic = number(6755399441055744.0);  // 1.5 · 2^52: adding it rounds to a whole number
  const V shifted = twice(x, number(1.4426950408889634), magic);
  const V k = hn::Sub(shifted, magic);
  // ln 2 in two parts, the first short enough for k times it to be exact.
  const V r = hn::Sub(hn::Sub(x, hn::Mul(k, number(6.93145751953125e-1))),
                      hn::Mul(k, number(1.42860682030941723212e-6)));
  const V r2 = hn::Mul(r, r), r4 = hn::Mul(r2, r2), r8 = hn::Mul(r4, r4);
  const auto pair = [&](double a, double b) { return twice(r, number(b), number(a)); };
  const V low = twice(r2, pair(0.5, 1.0 / 6), hn::Add(r, number(1)));
  const V middle = twice(r2, pair(1.0 / 720, 1.0 / 5040), pair(1.0 / 24, 1.0 / 120));
  const V high =
      twice(r4, pair(1.0 / 479001600, 1.0 / 6227020800.0),
            twice(r2, pair(1.0 / 3628800, 1.0 / 39916800), pair(1.0 / 40320, 1.0 / 362880)));
  const V power =
      hn::BitCast(D(), hn::ShiftLeft<52>(hn::Add(hn::BitCast(bits, shifted), hn::Set(bits, 1023))));
  return hn::Mul(twice(r8, high, twice(r4, middle, low)), power);
}

/// ln x to 1e-4, for x > 0: a place to begin.
HWY_INLINE V rough_log(V x) {
  const hn::RebindToUnsigned<D> bits;
  const auto b = hn::BitCast(bits, x);
  const V exponent =
      hn::Sub(hn::BitCast(D(), hn::Or(hn::ShiftRight<52>(b), hn::Set(bits, 0x4330000000000000u))),
              number(4503599627370496.0 + 1023));
  const V m = hn::BitCast(D(), hn::Or(hn::And(b, hn::Set(bits, 0x000FFFFFFFFFFFFFu)),
                                      hn::Set(bits, 0x3FF0000000000000u)));
  V p = twice(m, number(-0.056570851), number(0.44717955));
  p = twice(m, p, number(-1.4699568));
  p = twice(m, p, number(2.8212026));
  p = twice(m, p, number(-1.7417939));
  return twice(exponent, number(0.6931471805599453), p);
}

/// Where λ + e^λ = y lies, to some percent.
HWY_INLINE V cold_start(V y) {
  const V t = hn::Sub(y, number(1));
  const V middle = hn::Mul(t, twice(t, number(-1.0 / 16), number(0.5)));
  const V log_y = rough_log(hn::Max(y, number(3)));
  const V high = hn::Sub(log_y, hn::Div(log_y, hn::Max(y, number(3))));
  return hn::IfThenElse(hn::Lt(y, number(-2)), y,
                        hn::IfThenElse(hn::Lt(y, number(3)), middle, high));
}

/// Where a lane stands: λ, e^λ, 1/(1 + e^λ).
struct Stand {
  V lambda, omega, share;
};

/// λ + e^λ = y, from where the lane stood. Lanes outside of `live` may give anything.
HWY_INLINE Stand go_to(V y, const Stand& from, M live) {
  // Taylor's polynomial of third degree from there: no exponential, no division. From far off, or from
  // nowhere, begin anew.
  const V one = number(1);
  const V t = hn::Mul(hn::Sub(y, hn::Add(from.lambda, from.omega)), from.share);
  const V p = hn::Mul(from.omega, from.share);
  const V bend = hn::Mul(hn::Mul(t, hn::Sub(hn::Mul(p, number(3)), one)), number(1.0 / 3));
  const V half = hn::Mul(hn::Mul(t, p), number(0.5));
  V x = hn::Add(from.lambda, hn::Mul(t, hn::Sub(one, hn::Mul(half, hn::Sub(one, bend)))));
  const M far = hn::Not(hn::Le(hn::Abs(t), number(0.5)));
  if (!hn::AllFalse(D(), hn::And(live, far))) x = hn::IfThenElse(far, cold_start(y), x);
  // So near that nothing is left of the fourth power of the step: there already.
  V e = from.omega, last = hn::Sub(from.lambda, x);
  M active = hn::And(live, hn::Not(hn::Le(hn::Abs(t), number(1e-4))));
  const bool near = hn::AllFalse(D(), active);
  for (int step = 0; step < 9 && !near; ++step) {
    const V fresh = exponential(x);
    // Householder's step of fourth order with one division: N = x + e − y, D = 1 + e,
    //   N·(D² − N·e/2) / (D³ − N·e·D + N²·e/6)
    const V n = hn::Sub(hn::Add(x, fresh), y);
    const V d = hn::Add(fresh, one);
    const V ne = hn::Mul(n, fresh);
    const V d2 = hn::Mul(d, d);
    const V top = hn::Mul(n, hn::Sub(d2, hn::Mul(ne, number(0.5))));
    const V bottom = twice(hn::Mul(n, ne), number(1.0 / 6), hn::Mul(d, hn::Sub(d2, ne)));
    const V change = hn::Div(top, bottom);
    const V next = hn::Sub(x, change);
    e = hn::IfThenElse(active, fresh, e);
    last = hn::IfThenElse(active, change, last);
    x = hn::IfThenElse(active, next, x);
    active = hn::And(
        active, hn::Not(hn::Lt(hn::Abs(change), twice(hn::Abs(x), number(1e-4), number(1e-4)))));
    if (hn::AllFalse(D(), active)) break;
  }
  // e^λ by the equation where it is the larger part, else carried along over the last, small step.
  V carried = twice(last, number(-1.0 / 4), one);
  carried = twice(hn::Mul(last, carried), number(-1.0 / 3), one);
  carried = twice(hn::Mul(last, carried), number(-1.0 / 2), one);
  carried = hn::Sub(one, hn::Mul(last, carried));
  e = hn::IfThenElse(hn::Gt(x, number(0.5)), hn::Sub(y, x), hn::Mul(e, carried));
  return {x, e, hn::Div(one, hn::Add(e, one))};
}

/// Lanes whose bypass diode carries something: Halley's steps in the junction's voltage x.
/// Returns those that did not get there.
HWY_NOINLINE M with_bypass(const Lanes::Bypassed& c, std::size_t k, V i, V x_cells, M live, V& v,
                           V& dv, V& d2v, V& d3v) {
  const D d;
  const V i_s = hn::LoadU(d, c.bypass_i_s + k), a_b = hn::LoadU(d, c.bypass_a + k);
  const V a = hn::LoadU(d, c.ideality + k), r_s = hn::LoadU(d, c.series + k);
  const V g = hn::LoadU(d, c.shunt + k), i_0 = hn::LoadU(d, c.saturation + k);
  const V i_max = hn::Add(hn::LoadU(d, c.photo + k), i_0);
  const V i_sc = hn::LoadU(d, c.short_circuit + k);
  const V zero = number(0), one = number(1);

  // Two lower bounds of the voltage: the cells alone with what the diode can give at most, and the
  // diode alone with what the cells can. Beyond short circuit the voltage is negative, else not.
  const V beyond = hn::Max(hn::Sub(i, i_sc), zero);
  const V diode =
      hn::Neg(hn::Mul(a_b, hn::Max(rough_log(twice(beyond, hn::Div(one, i_s), one)), zero)));
  const V linear = hn::Sub(i_sc, hn::Div(hn::Mul(g, diode), twice(g, r_s, one)));
  V x = hn::IfThenElse(hn::Ge(v, diode), x_cells, twice(r_s, linear, diode));

  const V per_a = hn::Div(one, a), per_a_b = hn::Div(one, a_b);
  const V least = hn::Mul(hn::Min(a, a_b), number(1e-5));
  M active = live;
  for (int step = 0; step < 24; ++step) {
    const V junction = hn::Mul(i_0, exponential(hn::Mul(x, per_a)));
    const V i_c = hn::Sub(hn::Sub(i_max, junction), hn::Mul(g, x));
    const V gamma = twice(junction, per_a, g);
    const V gamma_1 = hn::Mul(hn::Mul(junction, per_a), per_a);
    const V here = hn::Sub(x, hn::Mul(r_s, i_c));
    const V v_1 = twice(r_s, gamma, one), v_2 = hn::Mul(r_s, gamma_1);
    const V b = hn::Mul(i_s, exponential(hn::Neg(hn::Mul(here, per_a_b))));
    const V b_1 = hn::Mul(b, per_a_b);
    const V f = hn::Sub(hn::Add(hn::Sub(i_c, i_s), b), i);
    const V f_1 = hn::Neg(twice(b_1, v_1, gamma));
    const V f_2 = hn::Sub(hn::Mul(b_1, hn::Sub(hn::Mul(hn::Mul(v_1, v_1), per_a_b), v_2)), gamma_1);
    const V newton = hn::Div(f, f_1);
    const V bend = hn::Mul(hn::Mul(newton, hn::Div(f_2, f_1)), number(0.5));
    const V change = hn::Div(newton, hn::Max(hn::Sub(one, bend), number(0.1)));
    const V slope = hn::Div(v_1, f_1);
    // Small enough a step is taken along the derivatives of what stands here.
    const V v_next =
        hn::Sub(here, hn::Mul(change, hn::Sub(v_1, hn::Mul(hn::Mul(change, v_2), number(0.5)))));
    const V d2 =
        hn::Div(hn::Sub(hn::Mul(v_2, f_1), hn::Mul(v_1, f_2)), hn::Mul(f_1, hn::Mul(f_1, f_1)));
    const V noise = hn::Mul(hn::Add(hn::Add(hn::Abs(i_c), hn::Abs(i)), b), number(4.5e-16));
    const M done =
        hn::And(active, hn::Or(hn::Le(hn::Abs(change), least), hn::Le(hn::Abs(f), noise)));
    v = hn::IfThenElse(done, v_next, v);
    // d slope / d x = d2 · f_1: the same small step for the slope.
    dv = hn::IfThenElse(done, hn::Sub(slope, hn::Mul(change, hn::Mul(d2, f_1))), dv);
    d2v = hn::IfThenElse(done, d2, d2v);
    if (!hn::AllFalse(d, done)) {
      // Every further derivative of an exponential brings at most 1/a or v_1/a_b.
      const V bent = twice(b_1, v_1, hn::Mul(junction, per_a));
      const V sharp = hn::Max(per_a, hn::Mul(v_1, per_a_b));
      const V flow = hn::Div(one, hn::Abs(f_1));
      const V f_3 = hn::Mul(bent, hn::Mul(sharp, sharp));
      const V v_3 = hn::Mul(v_2, per_a);
      const V most =
          hn::Mul(hn::Mul(flow, flow), twice(hn::Mul(number(3), hn::Abs(f_2)), hn::Abs(d2),
                                             hn::Mul(flow, twice(hn::Mul(v_1, f_3), flow, v_3))));
      d3v = hn::IfThenElse(done, most, d3v);
    }
    active = hn::AndNot(done, active);
    if (hn::AllFalse(d, active)) break;
    x = hn::IfThenElse(active, hn::Sub(x, change), x);
  }
  return active;
}

/// Blocks from `data` on: lanes [begin, end) counted from the first of them. Returns how many lanes are
/// left over; their numbers stand in `left`.
std::size_t at_currents(const Lanes& lanes, std::size_t first_lane, double* data, std::size_t begin,
                        std::size_t end, const double* i_of, const Lanes::Answers& out,
                        std::size_t* left) {
  const D d;
  const std::size_t width = hn::Lanes(d);
  std::size_t lefts = 0;
  for (std::size_t k = 0; k < end; k += width) {
    if (k + width <= begin) continue;
    double* const b = data + k / Lanes::block * (Lanes::columns * Lanes::block) + k % Lanes::block;
    const auto at = [&](Lanes::Column c) { return b + c * Lanes::block; };
    M live = hn::FirstN(d, end - k);
    if (k < begin) live = hn::AndNot(hn::FirstN(d, begin - k), live);
    const V i = hn::IfThenElseZero(live, hn::LoadU(d, i_of + k));
    const V per_amp = hn::LoadU(d, at(Lanes::per_amp)), a = hn::LoadU(d, at(Lanes::ideality));
    const V y =
        twice(hn::Sub(hn::LoadU(d, at(Lanes::offset)), i), per_amp, hn::LoadU(d, at(Lanes::log_i)));
    const Stand before{hn::LoadU(d, at(Lanes::lambda)), hn::LoadU(d, at(Lanes::omega)),
                       hn::LoadU(d, at(Lanes::share))};
    const Stand here = go_to(y, before, live);
    hn::StoreU(hn::IfThenElse(live, here.lambda, before.lambda), d, at(Lanes::lambda));
    hn::StoreU(hn::IfThenElse(live, here.omega, before.omega), d, at(Lanes::omega));
    hn::StoreU(hn::IfThenElse(live, here.share, before.share), d, at(Lanes::share));
    const V r_s = hn::LoadU(d, at(Lanes::series));
    const V q = here.share, r_sh = hn::Mul(a, per_amp), inner = hn::Mul(per_amp, q);
    V v =
        hn::Sub(hn::Sub(hn::Mul(a, here.lambda), hn::LoadU(d, at(Lanes::log_v))), hn::Mul(i, r_s));
    V dv = hn::Neg(twice(r_sh, q, r_s));
    V d2v = hn::Neg(hn::Mul(hn::Mul(r_sh, inner), hn::Mul(hn::Mul(here.omega, q), q)));
    V d3v = hn::Mul(hn::Mul(number(-2), d2v), inner);
    const M conducts = hn::And(live, hn::Lt(v, hn::LoadU(d, at(Lanes::blocks_above))));
    if (!hn::AllFalse(d, conducts)) {
      Lanes::Bypassed c;
      lanes.bypassed(first_lane + k / Lanes::block * Lanes::block, c);
      const V x = hn::Mul(a, hn::Sub(here.lambda, hn::LoadU(d, at(Lanes::log_i))));
      const M missed = with_bypass(c, k % Lanes::block, i, x, conducts, v, dv, d2v, d3v);
      if (!hn::AllFalse(d, missed)) {
        double which[Lanes::block] = {};
        hn::StoreU(hn::IfThenElseZero(missed, number(1)), d, which);
        for (std::size_t j = 0; j < width; ++j)
          if (which[j] != 0) left[lefts++] = k + j;
      }
    }
    hn::StoreU(v, d, out.v + k);
    hn::StoreU(dv, d, out.dv + k);
    hn::StoreU(d2v, d, out.d2v + k);
    hn::StoreU(d3v, d, out.d3v + k);
  }
  return lefts;
}

}  // namespace
}  // namespace stringwright::pv::HWY_NAMESPACE
HWY_AFTER_NAMESPACE();

#if HWY_ONCE
namespace stringwright::pv {
namespace {

HWY_EXPORT(at_currents);

/// So many lanes are handed over at once.
constexpr std::size_t at_once = 256;

}  // namespace

void Lanes::reserve(std::size_t lanes) {
  data_.reserve((lanes + block - 1) / block * block * columns);
  curve_.reserve(lanes);
  groups_.reserve(lanes);
}

Lanes::Added Lanes::add(const Curve& curve, double count) {
  const std::size_t lane = size();
  if (lane % block == 0) {
    data_.resize(data_.size() + block * columns, 1.0);
    double* const b = &data_[data_.size() - block * columns];
    std::fill_n(b + lambda * block, block, std::numeric_limits<double>::quiet_NaN());
  }
  const auto& c = curve.c_;
  const double n = count * curve.in_series_;
  const Added added{c.i_sc, c.r_s * n, (c.i_s > 0 && c.a_b < c.a ? c.a_b : c.a) * n};
  double* const b = data_.data() + lane / block * columns * block + lane % block;
  b[offset * block] = c.i_ph + c.i_0 - c.i_s;
  b[per_amp * block] = c.per_amp;
  b[log_i * block] = c.log_i;
  b[ideality * block] = c.a * n;
  b[log_v * block] = n * (c.a * c.log_i + c.i_s * c.r_s);
  b[series * block] = added.r_s;
  b[blocks_above * block] = c.i_s > 0 ? 40 * c.a_b * n : -std::numeric_limits<double>::infinity();
  curve_.push_back(&curve);
  groups_.push_back(n);
  return added;
}

void Lanes::bypassed(std::size_t first_lane, Bypassed& out) const {
  for (std::size_t k = 0; k < block; ++k) {
    // Lanes that are not there are like the last one.
    const std::size_t lane = first_lane + k < size() ? first_lane + k : size() - 1;
    const Curve::Cells& c = curve_[lane]->c_;
    const double n = groups_[lane];
    out.photo[k] = c.i_ph;
    out.saturation[k] = c.i_0;
    out.ideality[k] = c.a * n;
    out.series[k] = c.r_s * n;
    out.shunt[k] = c.g / n;
    out.bypass_i_s[k] = c.i_s > 0 ? c.i_s : 1;  // lanes without are not asked
    out.bypass_a[k] = c.a_b * n;
    out.short_circuit[k] = c.i_sc;
  }
}

void Lanes::at_currents(std::size_t first, std::size_t n, const double* i, const Answers& out) {
  std::size_t left[at_once];
  const std::size_t start = first - lead(first), stop = first + n;
  for (std::size_t from = start; from < stop; from += at_once) {
    const std::size_t begin = from < first ? first - from : 0;
    const std::size_t end = stop - from < at_once ? stop - from : at_once, k = from - start;
    const Answers here{out.v + k, out.dv + k, out.d2v + k, out.d3v + k};
    const std::size_t lefts = HWY_DYNAMIC_DISPATCH(at_currents)(
        *this, from, data_.data() + from * columns, begin, end, i + k, here, left);
    for (std::size_t j = 0; j < lefts; ++j) one(from + left[j], i[k + left[j]], here, left[j]);
  }
}

void Lanes::at_currents_one_by_one(std::size_t first, std::size_t n, const double* i,
                                   const Answers& out) const {
  for (std::size_t k = 0; k < n; ++k) one(first + k, i[lead(first) + k], out, lead(first) + k);
}

/// By Curve's functions; higher derivatives from the junction's voltage at the point they give.
void Lanes::one(std::size_t lane, double i, const Answers& out, std::size_t k) const {
  const double n = groups_[lane];
  const Curve::Cells& c = curve_[lane]->c_;
  const Curve::Point p = Curve::group_at_current(c, i);
  out.v[k] = n * p.v;
  out.dv[k] = n * p.dv_di;

  const double b = c.i_s > 0 ? c.i_s * std::exp(std::fmin(-p.v / c.a_b, 700)) : 0;
  const double x = p.v + c.r_s * (i - (b - c.i_s));
  const double junction = c.i_0 * std::exp(std::fmin(x / c.a, 700));
  const double gamma = junction / c.a + c.g, gamma_1 = junction / (c.a * c.a);
  const double v_1 = 1 + c.r_s * gamma, v_2 = c.r_s * gamma_1;
  const double b_1 = b / c.a_b, b_2 = b_1 / c.a_b;
  const double f_1 = -gamma - b_1 * v_1;
  const double f_2 = -gamma_1 + b_2 * v_1 * v_1 - b_1 * v_2;
  const double d2 = (v_2 * f_1 - v_1 * f_2) / (f_1 * f_1 * f_1);
  out.d2v[k] = n * d2;
  const double sharp = c.i_s > 0 ? std::fmax(1 / c.a, v_1 / c.a_b) : 1 / c.a;
  const double f_3 = (junction / c.a + b_1 * v_1) * sharp * sharp;
  out.d3v[k] = n * (v_2 / c.a - v_1 * f_3 / f_1 - 3 * std::fabs(f_2 * d2) * f_1) /
               std::fabs(f_1 * f_1 * f_1);
}

}  // namespace stringwright::pv
#endif
