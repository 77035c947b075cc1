#include "pv/module_model.hpp"

#include <cmath>
#include <cstdint>
#include <random>
#include <string>

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include "pv/cell_temperature.hpp"

namespace stringwright::pv {
namespace {

using units::amps;
using units::celsius;
using units::kelvins;
using units::percent_per_kelvin;
using units::volts;
using units::watts_per_square_metre;

struct Sheet {
  double v_oc, i_sc, v_mp, i_mp;
  double b_voc, a_isc, g_pmp;  // %/K
  int cells = 60, bypass = 3;
};

template <units::Dimension D>
parts::Coefficient<D> relative(double percent) {
  return {.relative = percent_per_kelvin(percent), .absolute = std::nullopt};
}

parts::Module module_of(const Sheet& s) {
  parts::Module m;
  m.id = "M";
  m.v_oc = volts(s.v_oc);
  m.i_sc = amps(s.i_sc);
  m.v_mp = volts(s.v_mp);
  m.i_mp = amps(s.i_mp);
  m.b_voc = relative<units::dim::voltage>(s.b_voc);
  m.a_isc = relative<units::dim::current>(s.a_isc);
  m.g_pmp = relative<units::dim::power>(s.g_pmp);
  m.cells = s.cells;
  m.bypass = s.bypass;
  return m;
}

const Sheet cabin{40.9, 11.35, 34.1, 10.71, -0.28, 0.048, -0.36};

double coefficient(double hot, double cold, double step, double at_25) {
  return (hot - cold) / step / at_25;
}

/// Points and coefficients of a sheet, as the model gives them back.
void expect_reproduced(const Sheet& s, const ModuleModel& m, double points, double coefficients) {
  const Curve c = at(m, stc_irradiance, stc_temperature).value();
  const CurvePoint best = c.maximum_power();
  EXPECT_NEAR(c.v_oc().si() / s.v_oc, 1, points);
  EXPECT_NEAR(c.i_sc().si() / s.i_sc, 1, points);
  EXPECT_NEAR(best.v.si() / s.v_mp, 1, points);
  EXPECT_NEAR(best.i.si() / s.i_mp, 1, points);
  const Curve hot = at(m, stc_irradiance, celsius(25.5)).value(),
              cold = at(m, stc_irradiance, celsius(24.5)).value();
  EXPECT_NEAR(coefficient(hot.v_oc().si(), cold.v_oc().si(), 1, s.v_oc) * 100, s.b_voc,
              coefficients);
  // α scales the photocurrent; R_s(T) has its own small share in I_sc.
  EXPECT_NEAR(coefficient(hot.i_sc().si(), cold.i_sc().si(), 1, s.i_sc) * 100, s.a_isc,
              coefficients + 1e-3);
  const auto power = [](const CurvePoint& p) { return p.v.si() * p.i.si(); };
  EXPECT_NEAR(
      coefficient(power(hot.maximum_power()), power(cold.maximum_power()), 1, s.v_mp * s.i_mp) *
          100,
      s.g_pmp, coefficients);
}

// The bypass diodes' leak of 1e-6 A is what keeps the points from being exact.
TEST(Fit, ReproducesTheSheet) {
  const auto m = fit(module_of(cabin));
  ASSERT_TRUE(m) << m.failure().message;
  expect_reproduced(cabin, *m, 1e-6, 1e-4);
  EXPECT_FALSE(m->report.clipped);
  EXPECT_NEAR(*m->report.ideality, 0.97, 0.02);
  EXPECT_FALSE(m->report.cells_suggested);
  EXPECT_TRUE(m->report.missing.empty());
}

/// Fitted elsewhere from the same sheets; inputs were rounded there.
TEST(Fit, AgreesWithTypicalResults) {
  const auto small = fit(module_of({22.1, 8.68, 17.7, 7.91, -0.36, 0.06, -0.46, 36, 2}));
  ASSERT_TRUE(small);
  EXPECT_NEAR(*small->report.ideality, 0.993, 0.001);
  EXPECT_NEAR(small->stc.i_0.si(), 2.97e-10, 0.01e-10);
  EXPECT_NEAR(small->stc.r_s.si(), 0.2143, 0.0001);
  EXPECT_NEAR(1 / small->stc.g_sh.si(), 52.6, 0.1);
  const auto large = fit(module_of({38.4, 9.2, 31.2, 8.66, -0.31, 0.05, -0.41}));
  ASSERT_TRUE(large);
  EXPECT_NEAR(*large->report.ideality, 0.960, 0.001);
  EXPECT_NEAR(large->stc.i_0.si(), 4.84e-11, 0.01e-11);
  EXPECT_NEAR(large->stc.r_s.si(), 0.3163, 0.0001);
  EXPECT_NEAR(1 / large->stc.g_sh.si(), 329, 1);
}

/// The element values of cases/circuit were scaled from the second sheet by the same method elsewhere.
TEST(Scale, AgreesWithTheReferenceCircuits) {
  const auto m = fit(module_of({38.4, 9.2, 31.2, 8.66, -0.31, 0.05, -0.41}));
  ASSERT_TRUE(m);
  const Curve hot = at(*m, stc_irradiance, celsius(45)).value();
  EXPECT_NEAR(hot.group().cells.i_ph.si(), 9.3008512, 1e-6);
  EXPECT_NEAR(hot.group().cells.a.si(), 0.52617231, 1e-6);
  EXPECT_NEAR(hot.group().cells.i_0.si() / 1.1373514e-9, 1, 2e-5);
  EXPECT_NEAR(1 / hot.group().cells.g_sh.si(), 109.57773, 1e-2);
  EXPECT_NEAR(hot.group().bypass->a.si(), 0.028786848, 1e-8);
  const Curve dim = at(*m, watts_per_square_metre(400), celsius(45)).value();
  EXPECT_NEAR(dim.group().cells.i_ph.si(), 3.7203405, 1e-6);
  EXPECT_NEAR(1 / dim.group().cells.g_sh.si(), 273.94432, 1e-2);
}

TEST(At, GivesTheExpectedReadings) {
  const auto m = fit(module_of(cabin));
  ASSERT_TRUE(m);
  const Curve c = at(*m, watts_per_square_metre(820), celsius(29.6)).value();
  EXPECT_NEAR(3 * c.v_oc().si(), 120.2, 0.1);
  EXPECT_NEAR(c.i_sc().si(), 11.35 * 0.82 * (1 + 0.00048 * 4.6), 0.005);
  const Curve aged = at(*m, watts_per_square_metre(820), celsius(29.6), 0.9).value();
  EXPECT_NEAR(aged.i_sc() / c.i_sc(), 0.9, 1e-4);
  // A straight line with the sheet's coefficient lies a little above the junction's own curve.
  const double cold = at(*m, stc_irradiance, celsius(-31)).value().v_oc().si();
  EXPECT_LT(cold, 40.9 * (1 + 0.0028 * 56));
  EXPECT_GT(cold, 40.9 * (1 + 0.0027 * 56));
}

TEST(At, IsDarkAtNightAndRefusesNonsense) {
  const auto m = fit(module_of(cabin));
  ASSERT_TRUE(m);
  const Curve night = at(*m, watts_per_square_metre(0), celsius(5)).value();
  EXPECT_NEAR(night.v_oc().si(), 0, 1e-4);
  EXPECT_EQ(night.maximum_power().i.si(), night.i_sc().si());
  EXPECT_EQ(at(*m, watts_per_square_metre(-1), celsius(5)).failure().id, "pv.out-of-range");
  EXPECT_EQ(at(*m, watts_per_square_metre(NAN), celsius(5)).failure().id, "pv.out-of-range");
  EXPECT_EQ(at(*m, watts_per_square_metre(800), celsius(500)).failure().id, "pv.out-of-range");
}

TEST(Fit, WithoutCoefficientsKnowsTheCurveAt25AndSaysWhatItDoesNot) {
  for (const std::string left_out : {"b_voc", "a_isc"}) {
    parts::Module sheet = module_of(cabin);
    if (left_out == "b_voc") sheet.b_voc = {};
    if (left_out == "a_isc") sheet.a_isc = {};
    const auto m = fit(sheet);
    ASSERT_TRUE(m) << m.failure().message;
    EXPECT_FALSE(m->scales_with_temperature());
    ASSERT_EQ(m->report.missing.size(), 1u);
    EXPECT_EQ(m->report.missing[0], left_out);
    ASSERT_FALSE(m->report.unavailable.empty());
    EXPECT_NE(m->report.unavailable[0].find(left_out), std::string::npos);
    const auto c = at(*m, stc_irradiance, stc_temperature);
    ASSERT_TRUE(c);
    EXPECT_NEAR(c->v_oc().si(), 40.9, 1e-5);
    EXPECT_NEAR(c->maximum_power().i.si(), 10.71, 1e-4);
    EXPECT_EQ(at(*m, stc_irradiance, celsius(40)).failure().id, "pv.no-temperature-coefficient");
  }
  parts::Module bare = module_of(cabin);
  bare.b_voc = {};
  bare.a_isc = {};
  bare.g_pmp = {};
  bare.cells = {};
  bare.bypass = {};
  const auto m = fit(bare);
  ASSERT_TRUE(m);
  EXPECT_EQ(m->report.missing.size(), 5u);
  EXPECT_FALSE(m->report.ideality);
  EXPECT_EQ(m->groups, 1);
  EXPECT_FALSE(at(*m, stc_irradiance, stc_temperature).value().group().bypass);
}

TEST(Fit, RefusesAnImpossibleSheet) {
  const auto refused = [](const Sheet& s) {
    const auto m = fit(module_of(s));
    return m ? std::string("fitted") : m.failure().id;
  };
  EXPECT_EQ(refused({34.1, 11.35, 40.9, 10.71, -0.28, 0.048, -0.36}), "pv.impossible-sheet")
      << "Voc and Vmp swapped";
  EXPECT_EQ(refused({40.9, 10.71, 34.1, 11.35, -0.28, 0.048, -0.36}), "pv.impossible-sheet")
      << "Isc and Imp swapped";
  EXPECT_EQ(refused({40.9, 11.35, 40.7, 11.30, -0.28, 0.048, -0.36}), "pv.impossible-sheet")
      << "fill factor 0.99";
  EXPECT_EQ(refused({40.9, 11.35, 20.0, 10.71, -0.28, 0.048, -0.36}), "pv.impossible-sheet")
      << "fill factor too low";
  EXPECT_EQ(refused({40.9, 11.35, 34.1, 5.60, -0.28, 0.048, -0.36}), "pv.impossible-sheet")
      << "fill factor too low";
  EXPECT_EQ(refused({40.9, 11.35, 34.1, 10.71, 0.28, 0.048, -0.36}), "pv.impossible-sheet")
      << "lost sign";
  EXPECT_EQ(refused({40.9, 11.35, 34.1, 10.71, -0.28, 4.8, -0.36}), "pv.impossible-sheet")
      << "%/K taken for A/K";
  EXPECT_EQ(refused({40.9, 11.35, 34.1, 10.71, -0.28, 0.048, 0.36}), "pv.impossible-sheet")
      << "lost sign";
  EXPECT_EQ(refused({40.9, 11.35, -34.1, 10.71, -0.28, 0.048, -0.36}), "pv.impossible-sheet");
  EXPECT_EQ(refused({NAN, 11.35, 34.1, 10.71, -0.28, 0.048, -0.36}), "pv.impossible-sheet");
  parts::Module empty;
  empty.id = "M";
  empty.v_oc = volts(40);
  EXPECT_EQ(fit(empty).failure().id, "pv.missing-value");
  EXPECT_NE(fit(empty).failure().message.find("v_mp, i_sc, i_mp"), std::string::npos);
}

TEST(Fit, SuggestsAnotherCellCount) {
  Sheet halves{49.5, 11.5, 41.7, 10.9, -0.27, 0.05, -0.35, 144, 3};
  const auto m = fit(module_of(halves));
  ASSERT_TRUE(m);
  EXPECT_NEAR(*m->report.ideality, 0.48, 0.02);
  EXPECT_EQ(m->report.cells_suggested.value_or(0), 72);
  halves.cells = 36;
  EXPECT_EQ(fit(module_of(halves))->report.cells_suggested.value_or(0), 72);
  halves.cells = 72;
  EXPECT_FALSE(fit(module_of(halves))->report.cells_suggested);
}

/// A fill factor that leaves too steep a junction for the coefficient: the points stay exact, the gap is
/// moved so that V_oc follows the sheet, and the report says so.
TEST(Fit, ClipsWhatTheCoefficientCannotMeet) {
  const Sheet s{43.3, 9.0, 34.5, 8.67, -0.349, 0.05, -0.42};
  const auto m = fit(module_of(s));
  ASSERT_TRUE(m) << m.failure().message;
  EXPECT_TRUE(m->report.clipped);
  EXPECT_GT(m->report.b_voc_misfit->si(), 1e-4);
  expect_reproduced(s, *m, 1e-5, 2e-3);
}

/// A sheet as a maker prints it: from parameters of a plausible module, rounded.
Sheet plausible_sheet(std::uint32_t seed) {
  std::mt19937 engine(seed);
  const auto between = [&](double a, double b) {
    return std::uniform_real_distribution<>(a, b)(engine);
  };
  Sheet s{};
  s.cells = static_cast<int>(between(30, 97));
  const double thermal = si_2019.thermal_voltage(stc_temperature).si();
  const double a = between(0.9, 1.5) * s.cells * thermal;
  const double v_oc = s.cells * between(0.56, 0.745);
  const double i_sc = between(0.5, 19);
  const double ohm = v_oc / i_sc;
  FiveParameters p{.i_ph = amps(i_sc), .i_0 = amps(i_sc * std::exp(-v_oc / a)), .a = volts(a)};
  p.r_s = units::ohms(ohm * between(0.02, 0.10));
  p.g_sh = siemens(1 / (ohm * between(8, 400)));
  const Curve c(CellGroup{.cells = p});
  const auto rounded = [](double x, double to) { return std::round(x / to) * to; };
  const CurvePoint best = c.maximum_power();
  s.v_oc = rounded(c.v_oc().si(), 0.1);
  s.i_sc = rounded(c.i_sc().si(), 0.01);
  s.v_mp = rounded(best.v.si(), 0.1);
  s.i_mp = rounded(best.i.si(), 0.01);
  s.b_voc = rounded(between(-0.40, -0.23), 0.01);
  s.a_isc = rounded(between(0.01, 0.10), 0.01);
  s.g_pmp = rounded(between(-0.52, -0.28), 0.01);
  return s;
}

RC_GTEST_PROP(Fit, AlwaysSolvesAPlausibleSheet, (std::uint32_t seed)) {
  for (std::uint32_t k = 0; k < 50; ++k) {
    const Sheet s = plausible_sheet(seed * 50 + k);
    const auto m = fit(module_of(s));
    RC_ASSERT(m.ok());
    const Curve c = at(*m, stc_irradiance, stc_temperature).value();
    const CurvePoint best = c.maximum_power();
    RC_ASSERT(std::fabs(c.v_oc().si() / s.v_oc - 1) < 2e-5);
    RC_ASSERT(std::fabs(c.i_sc().si() / s.i_sc - 1) < 2e-5);
    RC_ASSERT(std::fabs(best.v.si() * best.i.si() / (s.v_mp * s.i_mp) - 1) < 2e-5);
    RC_ASSERT(m->stc.r_s.si() >= 0);
    RC_ASSERT(m->stc.g_sh.si() >= 0);
    // Everything a site can ask for has an answer.
    for (const double t : {-50.0, 0.0, 90.0}) {
      const Curve there = at(*m, watts_per_square_metre(600), celsius(t)).value();
      RC_ASSERT(there.v_oc().si() > 0);
      RC_ASSERT(there.maximum_power().i < there.i_sc());
    }
  }
}

TEST(CellTemperature, FollowsTheSun) {
  EXPECT_NEAR(cell_temperature(celsius(45), celsius(20), watts_per_square_metre(800)).celsius(), 45,
              1e-9);
  EXPECT_NEAR(cell_temperature(celsius(47), celsius(30), watts_per_square_metre(1000)).celsius(),
              63.75, 1e-9);
  EXPECT_NEAR(cell_temperature(kelvins(30), celsius(10), watts_per_square_metre(500)).celsius(), 25,
              1e-9);
}

}  // namespace
}  // namespace stringwright::pv
