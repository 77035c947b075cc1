#include "circuit/build.hpp"

#include <cmath>
#include <cstdint>
#include <fstream>
#include <map>
#include <random>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include "circuit/curve.hpp"
#include "job/read.hpp"

namespace stringwright::circuit {
namespace {

using units::celsius;
using units::ohms;
using units::volts;
using units::watts_per_square_metre;

std::string replace(std::string text, const std::string& from, const std::string& to) {
  for (std::size_t at = text.find(from); at != std::string::npos;
       at = text.find(from, at + to.size()))
    text.replace(at, from.size(), to);
  return text;
}

std::string cabin() {
  std::ifstream in(STRINGWRIGHT_SOURCE_DIR "/examples/north-cabin.toml");
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

/// A wiring with models and a resistance for every conductor that has a length: 1 mΩ to 3 mΩ a metre.
struct Site {
  wiring::Wiring w;
  Models models;
  Resistances r;

  explicit Site(const std::string& text) {
    auto reading = job::read(text, "test.toml");
    for (const auto& d : reading.diagnostics)
      if (d.severity == Severity::error) ADD_FAILURE() << render(d, text);
    Diagnostics problems;
    w = wiring::build(reading.job.value(), problems);
    std::map<std::string, Failure> failures;
    models = fit_models(w, failures);
    EXPECT_TRUE(failures.empty());
    for (const auto& c : w.conductors) {
      const double area = c.wire ? c.wire->size.area().si() : 5e-6;
      r.push_back(ohms(c.length ? 1.9e-8 * c.length->si() / area : 0));
    }
  }
  OperatingPoint at(const State& s) const {
    const auto p = operating_point(w, models, r, s);
    if (!p) {
      ADD_FAILURE() << p.failure().message;
      return {};
    }
    return *p;
  }
  units::Voltage potential(const OperatingPoint& p, const std::string& terminal) const {
    const auto v = p.potential[w.find_terminal(terminal)];
    EXPECT_TRUE(v) << terminal;
    return v.value_or(volts(NAN));
  }
  const DevicePoint& device(const OperatingPoint& p, const std::string& id) const {
    return p.devices[w.find_device(id)];
  }
};

State under(double sun, double cell, Port port) {
  State s;
  s.sky = {watts_per_square_metre(sun), celsius(cell)};
  s.port = port;
  return s;
}

void expect_balanced(const OperatingPoint& p) {
  double taken = 0;
  for (const auto& i : p.inputs) taken += i.p.si();
  EXPECT_NEAR(p.from_modules.si(), taken + p.lost_in_conductors.si(),
              1e-9 * (1 + std::fabs(p.from_modules.si())));
  EXPECT_LT(p.residual.si(), 1e-9);
}

TEST(OperatingPoint, OpenCircuitInTheCold) {
  const Site site(cabin());
  const auto p = site.at(under(1000, -31, Port::open()));
  // The coefficient's straight line gives 141.9 V; the junction bends a little below it.
  EXPECT_NEAR(p.inputs[0].v->si(), 141.7, 0.1);
  EXPECT_EQ(p.inputs[0].i.si(), 0);
  EXPECT_NEAR(site.device(p, "A1.SA").v->si(), p.inputs[0].v->si(), 1e-9);
  EXPECT_NEAR(site.potential(p, "S1.2.plus").si(), p.inputs[0].v->si() * 2 / 3, 1e-9);
  EXPECT_EQ(site.potential(p, "CC1.PV1.minus").si(), 0);
  EXPECT_NEAR(site.potential(p, "rack.ground").si(), 0, 1e-12);  // the bond sits on the minus pole
  expect_balanced(p);
}

TEST(OperatingPoint, ShortCircuitAndMaximumPower) {
  const Site site(cabin());
  const auto shorted = site.at(under(1000, 25, Port::short_circuit()));
  EXPECT_NEAR(shorted.inputs[0].i.si(), 2 * 11.35, 0.02);
  EXPECT_GT(shorted.strings[0].v->si(), 1);  // what the run takes
  expect_balanced(shorted);

  const auto best = site.at(under(1000, 25, Port::maximum_power()));
  EXPECT_NEAR(best.strings[0].i.si(), 10.71, 0.1);
  EXPECT_NEAR(best.from_modules.si(), 6 * 34.1 * 10.71, 2);
  EXPECT_LE(best.from_modules.si(), 6 * 34.1 * 10.71);
  EXPECT_GT(best.lost_in_conductors.si(), 20);
  EXPECT_NEAR(site.device(best, "A1.Q1").i.si(), best.strings[0].i.si(), 1e-9);
  EXPECT_NEAR(site.device(best, "CC1.PV1.Q").i.si(), best.inputs[0].i.si(), 1e-9);
  EXPECT_NEAR(best.conductors[site.w.find_conductor("OUT+")].si(), best.inputs[0].i.si(), 1e-9);
  EXPECT_NEAR(best.conductors[site.w.find_conductor("OUT-")].si(), -best.inputs[0].i.si(), 1e-9);
  EXPECT_EQ(best.conductors[site.w.find_conductor("OUT.EGC")].si(), 0);
  expect_balanced(best);
  // No voltage beside it takes more.
  for (const double off : {-0.5, 0.5}) {
    const auto beside = site.at(under(1000, 25, Port::at(*best.inputs[0].v + volts(off))));
    EXPECT_LT(beside.inputs[0].p, best.inputs[0].p);
  }
}

TEST(OperatingPoint, OpenDevicesLeaveTheirStringsAlone) {
  const Site site(cabin());
  State s = under(1000, 25, Port::maximum_power());
  s.open = {"A1.Q1"};
  const auto one = site.at(s);
  EXPECT_EQ(one.strings[0].i.si(), 0);
  EXPECT_NEAR(one.strings[0].v->si(), 3 * 40.9, 1e-4);
  EXPECT_TRUE(site.device(one, "A1.Q1").open);
  EXPECT_NEAR(site.device(one, "A1.Q1").v->si(), one.strings[0].v->si() - one.strings[1].v->si(),
              1e-9);
  expect_balanced(one);

  s.open = {"A1.Q1", "A1.Q2"};
  s.port = Port::open();
  const auto none = site.at(s);
  EXPECT_FALSE(none.inputs[0].v);
  EXPECT_FALSE(none.potential[site.w.find_terminal("A1.P.1")]);
  EXPECT_FALSE(site.device(none, "A1.Q1").v);
  EXPECT_NEAR(site.potential(none, "A1.Q1.line").si(), 3 * 40.9, 1e-4);

  // With a short at the input the bus is held, and each open device stands at its string's voltage.
  s.port = Port::short_circuit();
  EXPECT_NEAR(site.device(site.at(s), "A1.Q2").v->si(), 3 * 40.9, 1e-4);

  s.open = {"A1.Q9"};
  EXPECT_EQ(operating_point(site.w, site.models, site.r, s).failure().id, "circuit.no-such-device");
}

TEST(OperatingPoint, UnlikeSkiesAndOldStrings) {
  const Site site(
      replace(cabin(), R"(minus_end = "2.4 m" })", R"(minus_end = "2.4 m", age = 0.9 })"));
  State s = under(1000, 25, Port::short_circuit());
  const auto aged = site.at(s);
  EXPECT_NEAR(aged.strings[1].i / aged.strings[0].i, 0.9, 1e-3);
  s.module_sky[site.w.strings[0].modules[1]] = {watts_per_square_metre(200), celsius(40)};
  const auto shaded = site.at(s);
  EXPECT_LT(site.device(shaded, "S1.2").v->si(), 0);  // its bypass diodes carry the others' current
  s.port = Port::maximum_power();
  expect_balanced(site.at(s));
  EXPECT_GT(site.at(s).inputs[0].p.si(), 1000);
}

TEST(OperatingPoint, AtNightIsNothing) {
  const Site site(cabin());
  for (const Port& port : {Port::open(), Port::short_circuit(), Port::maximum_power()}) {
    const auto p = site.at(under(0, 5, port));
    EXPECT_NEAR(p.inputs[0].p.si(), 0, 1e-9);
    EXPECT_NEAR(p.inputs[0].v->si(), 0, 1e-3);
  }
}

TEST(OperatingPoint, RefusesWhatIsMissing) {
  const Site site(cabin());
  const State s = under(1000, 25, Port::open());
  EXPECT_EQ(operating_point(site.w, {}, site.r, s).failure().id, "circuit.no-model");
  EXPECT_EQ(operating_point(site.w, site.models, {}, s).failure().id, "circuit.bad-resistance");
  Resistances negative = site.r;
  negative[0] = ohms(-1);
  EXPECT_EQ(operating_point(site.w, site.models, negative, s).failure().id,
            "circuit.bad-resistance");
  EXPECT_EQ(operating_point(site.w, site.models, site.r, under(-5, 25, Port::open())).failure().id,
            "pv.out-of-range");

  const Site cold(
      replace(replace(cabin(), "b_voc = \"-0.28 %/K\"\n", ""), "a_isc = \"0.048 %/K\"\n", ""));
  EXPECT_TRUE(operating_point(cold.w, cold.models, cold.r, s));
  EXPECT_EQ(
      operating_point(cold.w, cold.models, cold.r, under(1000, 40, Port::open())).failure().id,
      "pv.no-temperature-coefficient");
}

/// Without any resistance at all the strings are simply parallel.
TEST(OperatingPoint, WithIdealConductors) {
  Site site(cabin());
  for (auto& r : site.r) r = ohms(0);
  const auto p = site.at(under(1000, 25, Port::maximum_power()));
  EXPECT_NEAR(p.inputs[0].p.si(), 6 * 34.1 * 10.71, 1e-3);
  EXPECT_NEAR(p.inputs[0].i.si(), 2 * 10.71, 1e-3);
  EXPECT_NEAR(p.conductors[site.w.find_conductor("OUT-")].si(), -2 * 10.71, 1e-3);
  EXPECT_NEAR(p.devices[site.w.find_device("A1.Q2")].i.si(), 10.71, 1e-3);
  EXPECT_EQ(p.lost_in_conductors.si(), 0);
}

TEST(IvCurve, EndsAtShortAndOpenCircuit) {
  const Site site(cabin());
  const State s = under(820, 29.6, Port::open());
  const auto c = iv_curve(site.w, site.models, site.r, s, 0);
  ASSERT_TRUE(c) << c.failure().message;
  ASSERT_EQ(c->v.size(), 201u);
  EXPECT_NEAR(c->v.back().si(), 120.2, 0.2);
  EXPECT_NEAR(c->i.front().si(), 2 * 9.33, 0.02);
  EXPECT_NEAR(c->i.back().si(), 0, 1e-6);
  for (std::size_t k = 1; k < c->v.size(); ++k) {
    EXPECT_LT(c->i[k], c->i[k - 1]);
    EXPECT_NEAR(c->i[k].si(), c->string_i[0][k].si() + c->string_i[1][k].si(), 1e-9);
  }
  EXPECT_EQ(iv_curve(site.w, site.models, site.r, s, 3).failure().id, "circuit.no-such-curve");
}

/// Two boxes on two inputs of one controller, and the same two boxes re-combined in a third.
const char* const two_inputs = R"(
[equipment.CC1.input.PV2]
v_max = "150 V"
isc_max = "50 A"
)";

TEST(OperatingPoint, SeveralInputsAndBoxes) {
  std::string text = cabin() + two_inputs + R"(
[box.A2]
slot = { device = "breaker-20A", poles = 1 }
home_run = { wire = "10 AWG Cu PV", tail = "0.75 m" }
out = "OUT2"

[run.OUT2]
from = "A2"
to = "CC1.PV2"
wire = { poles = "6 AWG Cu XHHW-2" }
segment = [ { in = "PVC40", size = "1 in", length = "50 m", buried = "0.6 m" } ]
)";
  text = replace(text, R"(S2 = { walk = "R2.1-R2.3", lands = "A1.2")",
                 R"(S2 = { walk = "R2.1-R2.2", lands = "A2.1")");
  const Site site(text);
  ASSERT_EQ(site.w.inputs.size(), 2u);
  const auto p = site.at(under(1000, 25, Port::maximum_power()));
  EXPECT_NEAR(p.inputs[0].i.si(), 10.71, 0.05);
  EXPECT_NEAR(p.inputs[1].i.si(), 10.71, 0.05);
  EXPECT_NEAR(p.strings[0].v->si() / p.strings[1].v->si(), 1.5, 0.01);
  expect_balanced(p);
  // Each input alone, the other open: the same, for nothing joins them but the ground.
  State s = under(1000, 25, Port::open());
  s.input_port[1] = Port::maximum_power();
  const auto alone = site.at(s);
  EXPECT_NEAR(alone.inputs[1].p.si(), p.inputs[1].p.si(), 1e-6);
  EXPECT_EQ(alone.inputs[0].i.si(), 0);
  expect_balanced(alone);

  const Site recombined(
      replace(replace(text, R"(to = "CC1.PV2")", R"(to = "A1.2")"), two_inputs, ""));
  const auto together = recombined.at(under(1000, 25, Port::at(volts(70))));
  EXPECT_NEAR(together.inputs[0].i.si(), together.strings[0].i.si() + together.strings[1].i.si(),
              1e-9);
  EXPECT_NEAR(recombined.device(together, "A1.Q2").i.si(), together.strings[1].i.si(), 1e-9);
  EXPECT_LT(together.strings[1].i, together.strings[0].i);  // two modules against three
  expect_balanced(together);
}

/// Power in is power out, in any sky, with any devices open and anything at the input.
RC_GTEST_PROP(OperatingPoint, IsAlwaysBalanced, (std::uint32_t seed)) {
  static const Site site(cabin());
  std::mt19937 engine(seed);
  const auto between = [&](double a, double b) {
    return std::uniform_real_distribution<>(a, b)(engine);
  };
  State s = under(between(0, 1300), between(-45, 85), Port::at(volts(between(0, 150))));
  if (between(0, 1) < 0.3) s.port = Port::maximum_power();
  if (between(0, 1) < 0.2) s.open.insert("A1.Q1");
  for (const auto& string : site.w.strings)
    for (const int m : string.modules)
      if (between(0, 1) < 0.4)
        s.module_sky[m] = {watts_per_square_metre(between(0, 1300)), celsius(between(-45, 85))};
  const auto p = operating_point(site.w, site.models, site.r, s);
  RC_ASSERT(p.ok());
  RC_ASSERT(std::fabs((p->from_modules - p->inputs[0].p - p->lost_in_conductors).si()) < 1e-7);
  RC_ASSERT(p->residual.si() < 1e-9);
}

}  // namespace
}  // namespace stringwright::circuit
