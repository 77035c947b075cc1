#include "pv/lanes.hpp"

#include <array>
#include <cmath>
#include <cstdint>
#include <random>
#include <vector>

#include <gtest/gtest.h>
#include <hwy/targets.h>

#include <rapidcheck/gtest.h>

namespace stringwright::pv {
namespace {

using units::amps;
using units::ohms;
using units::volts;

class Draw {
 public:
  explicit Draw(std::uint32_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return std::uniform_real_distribution<>(low, high)(engine_);
  }
  double between_log(double low, double high) {
    return std::exp(between(std::log(low), std::log(high)));
  }
  bool chance(double p) { return between(0, 1) < p; }

 private:
  std::mt19937 engine_;
};

/// Cells from one of them to a module of many, from the dark to more than full sun.
Curve any_curve(Draw& d) {
  const double cells = std::round(d.between_log(1, 72));
  const double sun = d.chance(0.1) ? 0 : d.between(0.01, 1.3);
  CellGroup g{.cells = {.i_ph = amps(d.between(0.5, 14) * sun),
                        .i_0 = amps(d.between_log(1e-13, 1e-6)),
                        .a = volts(0.0257 * cells * d.between(0.9, 1.6)),
                        .r_s = ohms(d.chance(0.1) ? 0 : cells * d.between_log(1e-4, 2e-2)),
                        .g_sh = siemens(d.chance(0.1) ? 0 : sun / cells / d.between_log(1, 1e4))}};
  if (d.chance(0.8))
    g.bypass =
        BypassDiode{.i_s = amps(d.between_log(1e-9, 1e-4)), .a = volts(d.between(0.02, 0.05))};
  return Curve(g, 1 + static_cast<int>(d.between(0, 3.999)));
}

struct Answers {
  std::vector<double> v, dv, d2v, d3v;
  explicit Answers(std::size_t n) : v(Lanes::room(n)), dv(v), d2v(v), d3v(v) {}
  Lanes::Answers out() { return {v.data(), dv.data(), d2v.data(), d3v.data()}; }
};

/// Currents where a curve bends, and far from there.
double any_current(Draw& d, const Curve& c) {
  const double i_sc = c.i_sc().si();
  switch (static_cast<int>(d.between(0, 5))) {
    case 0:
      return i_sc * d.between(0, 1);
    case 1:
      return i_sc + d.between(-1, 1) * d.between_log(1e-9, 1e-1);
    case 2:
      return i_sc * d.between(1, 3) + d.between(0, 1);
    case 3:
      return -d.between_log(1e-6, 1e3);
    default:
      return d.between_log(1e-6, 1e5);
  }
}

RC_GTEST_PROP(Lanes, GiveWhatEveryCurveGives, (std::uint32_t seed)) {
  Draw d(seed);
  for (int round = 0; round < 20; ++round) {
    const auto n = static_cast<std::size_t>(d.between(1, 40));
    Lanes lanes;
    std::vector<Curve> curves;
    for (std::size_t k = 0; k < n; ++k) curves.push_back(any_curve(d));
    for (const Curve& c : curves) lanes.add(c);
    Answers a(n), b(n);
    std::vector<double> i(Lanes::room(n), 7.0);
    // From nowhere, from far off, from close by.
    for (int visit = 0; visit < 4; ++visit) {
      for (std::size_t k = 0; k < n; ++k)
        i[k] = visit < 2 ? any_current(d, curves[k]) : i[k] + 1e-3 * d.between(-1, 1);
      lanes.at_currents(0, n, i.data(), a.out());
      lanes.at_currents_one_by_one(0, n, i.data(), b.out());
      for (std::size_t k = 0; k < n; ++k) {
        const CurvePoint p = curves[k].at_current(amps(i[k]));
        // Behind a large slope a rounded current is a visible voltage.
        const double steep = 4e-16 * std::fabs(i[k] * p.dv_di.si());
        const double off = 1e-12 * (1 + std::fabs(p.v.si())) + 4 * steep;
        RC_ASSERT(std::fabs(a.v[k] - p.v.si()) <= off);
        RC_ASSERT(std::fabs(b.v[k] - p.v.si()) <= off);
        RC_ASSERT(std::fabs(a.dv[k] / p.dv_di.si() - 1) <= 1e-5);
        RC_ASSERT(std::fabs(a.d2v[k] - b.d2v[k]) <=
                  1e-3 * std::fabs(b.d2v[k]) + 1e-4 * std::fabs(b.dv[k]));
      }
    }
  }
}

RC_GTEST_PROP(Lanes, KnowTheirSlopes, (std::uint32_t seed)) {
  Draw d(seed);
  const Curve curve = any_curve(d);
  Lanes lanes;
  const double sharpness = lanes.add(curve, 3).sharpness;
  struct Here {
    double v, dv, d2v, d3v;
  };
  const auto at = [&](double x) {
    Answers a(1);
    std::vector<double> current(Lanes::room(1), x);
    lanes.at_currents(0, 1, current.data(), a.out());
    return Here{a.v[0], a.dv[0], a.d2v[0], a.d3v[0]};
  };
  const double i = any_current(d, curve);
  const Here here = at(i);
  RC_ASSERT(std::fabs(here.v - 3 * curve.voltage(amps(i)).si()) <=
            1e-12 * (1 + std::fabs(here.v)) + 2e-15 * std::fabs(i * here.dv));
  RC_ASSERT(here.dv < 0);
  // Steps over which neither slope nor curvature change by much: what is left of two terms is within the
  // third's bound.
  double h = std::fmin(1e-3 * (std::fabs(i) + 1e-2), 0.05 * sharpness / std::fabs(here.dv));
  if (here.d2v != 0) h = std::fmin(h, 0.05 * std::fabs(here.dv / here.d2v));
  if (here.d3v != 0) h = std::fmin(h, 0.05 * std::sqrt(std::fabs(here.dv) / here.d3v));
  for (const double step : {-h, h}) {
    const Here there = at(i + step);
    const double two = here.v + step * (here.dv + step * here.d2v / 2);
    const double third = std::fmax(here.d3v, there.d3v);
    const double noise = 1e-14 * (std::fabs(here.v) + std::fabs(here.dv * i) + 1);
    RC_ASSERT(std::fabs(there.v - two) <= 1.5 * third / 6 * std::fabs(step * step * step) + noise);
    RC_ASSERT(std::fabs(there.dv - here.dv - step * here.d2v) <=
              1.5 * third / 2 * step * step + 1e-9 * std::fabs(here.dv));
  }
}

/// Same job, same bytes, whatever the processor.
TEST(Lanes, AreTheSameOnEveryProcessor) {
  Draw d(5);
  std::vector<Curve> curves;
  for (int k = 0; k < 501; ++k) curves.push_back(any_curve(d));
  std::vector<double> i(Lanes::room(curves.size()));
  for (std::size_t k = 0; k < curves.size(); ++k) i[k] = any_current(d, curves[k]);
  const auto on = [&](std::int64_t target) {
    hwy::SetSupportedTargetsForTest(target);
    Lanes lanes;
    for (const Curve& c : curves) lanes.add(c);
    Answers a(curves.size());
    lanes.at_currents(0, curves.size(), i.data(), a.out());
    // A second visit from close by.
    std::vector<double> near = i;
    for (double& x : near) x += 1e-4;
    lanes.at_currents(0, curves.size(), near.data(), a.out());
    return a;
  };
  const auto targets = hwy::SupportedAndGeneratedTargets();
  ASSERT_GE(targets.size(), 1u);
  const Answers first = on(targets.front());
  for (const std::int64_t target : targets) {
    const Answers other = on(target);
    for (std::size_t k = 0; k < curves.size(); ++k) {
      ASSERT_EQ(first.v[k], other.v[k]) << hwy::TargetName(target) << " lane " << k;
      ASSERT_EQ(first.dv[k], other.dv[k]) << hwy::TargetName(target) << " lane " << k;
      ASSERT_EQ(first.d2v[k], other.d2v[k]) << hwy::TargetName(target) << " lane " << k;
    }
  }
  hwy::SetSupportedTargetsForTest(0);
}

TEST(Lanes, AreFilledAndReadInPieces) {
  Draw d(9);
  Lanes lanes;
  std::vector<Curve> curves;
  for (int k = 0; k < 700; ++k) curves.push_back(any_curve(d));
  for (const Curve& c : curves) lanes.add(c);
  EXPECT_EQ(lanes.size(), 700u);
  std::vector<double> i(Lanes::room(600), 1.5);
  Answers a(600);
  lanes.at_currents(73, 600, i.data(), a.out());
  for (std::size_t k = 0; k < 600; ++k) {
    const double v = curves[73 + k].voltage(amps(1.5)).si();
    EXPECT_NEAR(a.v[Lanes::lead(73) + k], v, 1e-11 * (1 + std::fabs(v)));
  }
  EXPECT_FALSE(
      Lanes::takes(Curve(CellGroup{.cells = {}, .breakdown = Breakdown{.v = volts(-15)}})));
  EXPECT_TRUE(Lanes::takes(curves[0]));
}

}  // namespace
}  // namespace stringwright::pv
