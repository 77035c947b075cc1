#include "pv/single_diode.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include <boost/math/special_functions/lambert_w.hpp>
#include <boost/multiprecision/cpp_bin_float.hpp>

namespace stringwright::pv {
namespace {

using boost::math::lambert_w0;
using units::amps;
using units::ohms;
using units::volts;
using Exact = boost::multiprecision::cpp_bin_float_50;

/// Random numbers that a generated seed repeats.
class Draw {
 public:
  explicit Draw(std::uint32_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return std::uniform_real_distribution<>(low, high)(engine_);
  }
  double between_log(double low, double high) {
    return std::exp(between(std::log(low), std::log(high)));
  }
  bool coin() { return between(0, 1) < 0.5; }
  int among(int n) { return std::uniform_int_distribution<>(0, n - 1)(engine_); }

 private:
  std::mt19937 engine_;
};

constexpr int draws = 40;  // for each of RapidCheck's hundred seeds

FiveParameters any_cells(Draw& d) {
  return {.i_ph = amps(d.between(0, 20)),
          .i_0 = amps(d.between_log(1e-16, 1e-4)),
          .a = volts(d.between_log(0.02, 6)),
          .r_s = ohms(d.between_log(1e-5, 3)),
          .g_sh = siemens(d.between_log(1e-6, 1))};
}

/// Current at a voltage by the Lambert W function, in 50 digits: no overflow, no cancellation.
double lambert_current(const FiveParameters& p, double v) {
  const Exact i_ph = p.i_ph.si(), i_0 = p.i_0.si(), a = p.a.si(), r = p.r_s.si(), g = p.g_sh.si();
  const Exact d = 1 + g * r;
  const Exact argument = r * i_0 / (a * d) * exp((r * (i_ph + i_0) + v) / (a * d));
  return static_cast<double>((i_ph + i_0 - g * Exact(v)) / d - a / r * lambert_w0(argument));
}

double lambert_voltage(const FiveParameters& p, double i) {
  const Exact i_ph = p.i_ph.si(), i_0 = p.i_0.si(), a = p.a.si(), r = p.r_s.si(), g = p.g_sh.si();
  const Exact argument = i_0 / (a * g) * exp((i_ph + i_0 - Exact(i)) / (a * g));
  return static_cast<double>((i_ph + i_0 - Exact(i)) / g - i * r - a * lambert_w0(argument));
}

/// What is given is itself uncertain by one part in 2^52, and the answer with it by the slope.
double slack(double value, double given, double slope, double size) {
  return 1e-12 * std::fabs(value) + 2e-15 * std::fabs(given * slope) + 1e-13 * size;
}

TEST(LogWrightOmega, MeetsItsEquationForEveryArgument) {
  for (int k = 0; k < 1854; ++k) {
    const double y = -700 + 0.917 * k;
    Exact x = log_wright_omega(y);
    const Exact start = x;
    for (int step = 0; step < 4; ++step) x -= (x + exp(x) - y) / (1 + exp(x));
    const double miss = static_cast<double>(abs(x - start));
    ASSERT_LE(miss, 1e-15 * std::fmax(1, std::fabs(static_cast<double>(x)))) << y;
  }
  for (const double y : {1e10, 1e100, 1e300, std::numeric_limits<double>::max()}) {
    EXPECT_NEAR(log_wright_omega(y) / std::log(y), 1, 1e-8) << y;
  }
  EXPECT_EQ(log_wright_omega(1), 0);
  EXPECT_EQ(log_wright_omega(-1e300), -1e300);
}

RC_GTEST_PROP(Curve, AgreesWithTheLambertWFunction, (std::uint32_t seed)) {
  Draw d(seed);
  for (int k = 0; k < 5; ++k) {
    const FiveParameters p = any_cells(d);
    const Curve curve(CellGroup{.cells = p});
    const double v = d.between(-2, 1.5) * (curve.v_oc().si() + p.a.si());
    const CurvePoint at = curve.at_voltage(volts(v));
    RC_ASSERT(std::fabs(at.i.si() - lambert_current(p, v)) <=
              slack(at.i.si(), v, 1 / at.dv_di.si(), p.i_ph.si()));
    const double i = d.between(-2, 1.2) * (p.i_ph.si() + 0.1);
    if (p.i_ph / (p.a * p.g_sh) > 1e6) continue;  // e^that is too much for the reference
    const CurvePoint back = curve.at_current(amps(i));
    RC_ASSERT(std::fabs(back.v.si() - lambert_voltage(p, i)) <=
              slack(back.v.si(), std::fabs(i) + p.i_ph.si(), back.dv_di.si(), p.a.si()));
  }
}

TEST(Curve, HoldsAtExtremeValues) {
  const FiveParameters p{.i_ph = amps(9),
                         .i_0 = amps(1e-12),
                         .a = volts(1.5),
                         .r_s = ohms(0.3),
                         .g_sh = siemens(0.002)};
  const Curve curve(CellGroup{.cells = p, .bypass = BypassDiode{.a = volts(0.027)}}, 3);
  for (const double v : {-1e300, -1e9, -1e3, 0.0, 1e3, 1e9, 1e300}) {
    EXPECT_TRUE(std::isfinite(Curve(CellGroup{.cells = p}).current(volts(v)).si())) << v;
  }
  for (const double v : {-1e30, -1e3, 0.0, 1e3, 1e30})
    EXPECT_TRUE(std::isfinite(curve.current(volts(v)).si())) << v;
  for (const double i : {-1e30, -1e6, -1e3, 0.0, 9.0, 1e3, 1e6, 1e30}) {
    EXPECT_TRUE(std::isfinite(curve.voltage(amps(i)).si())) << i;
    EXPECT_LE(curve.at_current(amps(i)).dv_di.si(), 0) << i;
  }
  // No shunt, no bypass: a leak keeps the voltage finite.
  FiveParameters blocked = p;
  blocked.g_sh = siemens(0);
  EXPECT_LT(Curve(CellGroup{.cells = blocked}).voltage(amps(10)).si(), -1e11);
  EXPECT_NEAR(Curve(CellGroup{.cells = blocked}).current(volts(0)).si(), 9, 1e-9);
}

TEST(Curve, WithoutSeriesResistanceIsTheFormulaItself) {
  const FiveParameters p{
      .i_ph = amps(9), .i_0 = amps(1e-10), .a = volts(1.6), .r_s = ohms(0), .g_sh = siemens(0.003)};
  const Curve curve(CellGroup{.cells = p});
  for (int k = 0; k < 79; ++k) {
    const double v = -10 + 0.7 * k;
    const double i = 9 - 1e-10 * std::expm1(v / 1.6) - 0.003 * v;
    EXPECT_NEAR(curve.current(volts(v)).si(), i, 1e-12 * (1 + std::fabs(i))) << v;
    EXPECT_NEAR(curve.voltage(amps(i)).si(), v, 1e-11) << v;
  }
}

/// Ideal junction: V_oc = a · ln(1 + I_ph/I_0), I_sc = I_ph.
TEST(Curve, OfAnIdealJunctionHasItsClosedForm) {
  const FiveParameters p{
      .i_ph = amps(5), .i_0 = amps(2e-9), .a = volts(0.9), .r_s = ohms(0), .g_sh = siemens(0)};
  const Curve curve(CellGroup{.cells = p});
  EXPECT_NEAR(curve.v_oc().si(), 0.9 * std::log1p(5 / 2e-9), 1e-11);
  EXPECT_NEAR(curve.i_sc().si(), 5, 1e-14);
}

CellGroup any_group(Draw& d) {
  CellGroup g{.cells = any_cells(d)};
  g.cells.g_sh = siemens(d.between_log(1e-4, 0.05));
  if (d.coin())
    g.bypass =
        BypassDiode{.i_s = amps(d.between_log(1e-9, 1e-4)), .a = volts(d.between(0.02, 0.05))};
  if (d.coin()) {
    g.breakdown = Breakdown{.share = d.between(0.001, 0.3),
                            .v = volts(-d.between(5, 400)),
                            .exponent = d.between(2, 5)};
  }
  return g;
}

RC_GTEST_PROP(Curve, BothDirectionsAreOneCurveAndItFalls, (std::uint32_t seed)) {
  Draw d(seed);
  for (int k = 0; k < draws; ++k) {
    const Curve curve(any_group(d), 1 + d.among(4));
    const double i = d.between(-3, 3) * (curve.group().cells.i_ph.si() + 0.01);
    const CurvePoint at = curve.at_current(amps(i));
    RC_ASSERT(std::isfinite(at.v.si()));
    RC_ASSERT(at.dv_di.si() <= 0);
    const CurvePoint back = curve.at_voltage(at.v);
    RC_ASSERT(std::fabs(back.i.si() - i) <=
              1e-12 * (std::fabs(i) + 1) + 1e-13 * std::fabs(at.v.si() / at.dv_di.si()));
    RC_ASSERT(curve.voltage(amps(i + 0.01)) <= at.v);
    // The slope is that of the chord, as far as the curve does not bend in between.
    const double di = 1e-6 * (std::fabs(i) + 1e-2);
    const double low = curve.at_current(amps(i - di)).dv_di.si(),
                 high = curve.at_current(amps(i + di)).dv_di.si();
    const double chord =
        (curve.voltage(amps(i + di)) - curve.voltage(amps(i - di))).si() / (2 * di);
    RC_ASSERT(chord <= std::max({low, high, at.dv_di.si()}) + 1e-5 * std::fabs(chord) + 1e-7);
    RC_ASSERT(chord >= std::min({low, high, at.dv_di.si()}) - 1e-5 * std::fabs(chord) - 1e-7);
  }
}

RC_GTEST_PROP(Curve, MaximumPowerIsAboveEveryOtherPoint, (std::uint32_t seed)) {
  Draw d(seed);
  CellGroup g = any_group(d);
  g.cells.i_ph = amps(d.between(0.1, 20));
  const Curve curve(g, 1 + d.among(4));
  const CurvePoint best = curve.maximum_power();
  const double most = best.v.si() * best.i.si();
  for (int k = 0; k <= 50; ++k) {
    const double v = curve.v_oc().si() * k / 50;
    RC_ASSERT(v * curve.current(volts(v)).si() <= most * (1 + 1e-9));
  }
}

/// (V, a, R)·λ leaves I; (I, I_ph, I_0)·μ with R/μ leaves V.
RC_GTEST_PROP(Curve, Scales, (std::uint32_t seed)) {
  Draw d(seed);
  for (int k = 0; k < draws; ++k) {
    const FiveParameters p = any_cells(d);
    const Curve curve(CellGroup{.cells = p});
    const double lambda = d.between_log(0.1, 10), mu = d.between_log(0.1, 10);
    const Curve taller(
        CellGroup{.cells = {p.i_ph, p.i_0, lambda * p.a, lambda * p.r_s, p.g_sh / lambda}});
    const Curve wider(CellGroup{.cells = {mu * p.i_ph, mu * p.i_0, p.a, p.r_s / mu, mu * p.g_sh}});
    const double v = d.between(-0.5, 1.1) * (curve.v_oc().si() + 0.1);
    const CurvePoint at = curve.at_voltage(volts(v));
    const double off = slack(at.i.si(), v, 1 / at.dv_di.si(), p.i_ph.si()) + 1e-14;
    RC_ASSERT(std::fabs(taller.current(volts(lambda * v)).si() - at.i.si()) <= off);
    RC_ASSERT(std::fabs(wider.current(volts(v)).si() / mu - at.i.si()) <= off);
  }
}

TEST(Curve, InTheDarkHasNoPower) {
  const FiveParameters p{.i_ph = amps(0),
                         .i_0 = amps(1e-10),
                         .a = volts(1.5),
                         .r_s = ohms(0.3),
                         .g_sh = siemens(3e-9)};
  const Curve curve(CellGroup{.cells = p, .bypass = BypassDiode{.a = volts(0.027)}}, 3);
  EXPECT_NEAR(curve.v_oc().si(), 0, 1e-6);
  EXPECT_EQ(curve.maximum_power().v.si(), 0);
  EXPECT_LT(curve.voltage(amps(-5)).si(), 200);  // driven backwards it conducts like any diode
}

TEST(Curve, BypassDiodeCarriesWhatTheCellsDoNot) {
  const FiveParameters p{.i_ph = amps(3),
                         .i_0 = amps(1e-10),
                         .a = volts(0.5),
                         .r_s = ohms(0.1),
                         .g_sh = siemens(0.01)};
  const BypassDiode diode{.i_s = amps(1e-6), .a = volts(0.027)};
  const Curve curve(CellGroup{.cells = p, .bypass = diode});
  const double v = curve.voltage(amps(9)).si();
  const double cells = Curve(CellGroup{.cells = p}).current(volts(v)).si();
  EXPECT_NEAR(cells + 1e-6 * std::expm1(-v / 0.027), 9, 1e-11);
  EXPECT_GT(v, -0.5);
  EXPECT_LT(v, -0.4);
}

}  // namespace
}  // namespace stringwright::pv
