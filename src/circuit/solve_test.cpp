#include "circuit/solve.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include "circuit/maximum_power.hpp"

namespace stringwright::circuit {
namespace {

using units::amps;
using units::ohms;
using units::volts;

/// One third of a 60-cell module at 1000 W/m², 25 °C (element values of cases/circuit/c01).
pv::CellGroup substring(double sun = 1) {
  return {.cells = {.i_ph = amps(9.2088512124677067 * sun),
                    .i_0 = amps(4.8421809292867467e-11),
                    .a = volts(0.49309531704872961),
                    .r_s = ohms(0.10542344609831249),
                    .g_sh = pv::siemens(std::fmax(sun, 1e-6) / 109.57772624578278)},
          .bypass = pv::BypassDiode{.i_s = amps(1e-6), .a = volts(0.026977208077140144)}};
}
Law module_law(double sun = 1) { return CellGroup{pv::Curve(substring(sun), 3)}; }

Solution solved(const Network& n, const SolveOptions& options = {}) {
  const auto s = solve(n, options);
  if (!s) {
    ADD_FAILURE() << s.failure().message;
    return {};
  }
  return *s;
}

/// Every law holds at every element, and no current is left at any node.
void expect_certified(const Network& n, const Solution& s, double amps_left, double volts_off) {
  std::vector<double> left(n.nodes, 0), size(n.nodes, 0);
  double power = 0, moved = 0;
  for (std::size_t k = 0; k < n.elements.size(); ++k) {
    const Element& e = n.elements[k];
    const double i = s.current[k].si();
    left[e.plus] += i;
    left[e.minus] -= i;
    size[e.plus] += std::fabs(i);
    size[e.minus] += std::fabs(i);
    const double v = (s.potential[e.plus] - s.potential[e.minus]).si();
    power += v * i;
    moved += std::fabs(v * i);
    const Drop drop = at_current(n.laws[e.law], amps(i));
    const double off = std::fabs(e.count * drop.v.si() - v);
    // Where the curve is steep a rounded current is a visible voltage.
    const double steep = 1e-13 * std::fabs(i * drop.dv_di.si() * e.count);
    ASSERT_LE(off, volts_off + 1e-10 * std::fabs(v) + steep)
        << "element " << k << " " << name(n.laws[e.law]);
  }
  for (int k = 0; k < n.nodes; ++k)
    ASSERT_LE(std::fabs(left[k]), amps_left + 1e-10 * size[k]) << "node " << k;
  EXPECT_LE(std::fabs(power), 1e-9 * (moved + 1));
}

TEST(Solve, OneModuleUnderALoad) {
  Network n;
  const int minus = n.add_node(), plus = n.add_node();
  n.references = {minus};
  const int module = n.add(plus, minus, module_law());
  n.add(plus, minus, Resistor{ohms(3)});
  const Solution s = solved(n);
  expect_certified(n, s, 1e-12, 1e-10);
  EXPECT_NEAR(s.potential[plus].si(), 3 * s.current[module].si(), 1e-10);
  EXPECT_GT(s.current[module].si(), 8.9);
}

TEST(Solve, EmptyAndLonelyThings) {
  EXPECT_TRUE(solve(Network{}).ok());
  Network n;
  n.add_node();
  n.add_node();
  n.references = {1};
  const Solution s = solved(n);
  EXPECT_EQ(s.part[0], 0);
  EXPECT_EQ(s.part[1], 1);
  EXPECT_TRUE(s.floating[0]);
  EXPECT_FALSE(s.floating[1]);
}

TEST(Solve, AnOpenStringStandsAtItsOpenCircuitVoltageAndOneWithoutReferenceFloats) {
  Network n;
  const int a = n.add_node(), b = n.add_node(), c = n.add_node(), d = n.add_node(),
            e = n.add_node();
  n.references = {b};
  const int law = n.add_law(module_law());
  n.add(b, a, law);
  n.add(c, b, law);
  n.add(e, d, law);
  const Solution s = solved(n);
  const double v_oc = pv::Curve(substring(), 3).v_oc().si();
  EXPECT_NEAR(s.potential[a].si(), -v_oc, 1e-12);
  EXPECT_EQ(s.potential[b].si(), 0);
  EXPECT_NEAR(s.potential[c].si(), v_oc, 1e-12);
  EXPECT_NEAR((s.potential[e] - s.potential[d]).si(), v_oc, 1e-12);
  EXPECT_FALSE(s.floating[s.part[a]]);
  EXPECT_TRUE(s.floating[s.part[d]]);
  for (const auto i : s.current) EXPECT_EQ(i.si(), 0);
}

TEST(Solve, RefusesWhatContradictsItself) {
  Network n;
  const int a = n.add_node(), b = n.add_node();
  n.add(b, a, Source{volts(12)});
  n.add(b, a, Source{volts(13)});
  EXPECT_EQ(solve(n).failure().id, "circuit.source-loop");
  Network shorted;
  shorted.nodes = 2;
  shorted.add(1, 0, Source{volts(12)});
  shorted.add(1, 0, Joint{});
  EXPECT_EQ(solve(shorted).failure().id, "circuit.source-loop");
  Network broken;
  broken.nodes = 2;
  broken.add(1, 7, Joint{});
  EXPECT_EQ(solve(broken).failure().id, "circuit.bad-network");
  broken.elements[0].minus = 0;
  broken.references = {2};
  EXPECT_EQ(solve(broken).failure().id, "circuit.bad-network");
}

TEST(Solve, TwoModulesShortedThroughJoints) {
  Network n;
  n.nodes = 4;
  n.references = {0};
  const int law = n.add_law(module_law());
  n.add(1, 0, law);
  n.add(2, 1, law);
  const int joint = n.add(0, 2, Joint{});
  const int second = n.add(2, 0, Joint{});  // beside the first: half of the current each
  n.add(3, 2, Joint{});
  const Solution s = solved(n);
  expect_certified(n, s, 1e-10, 1e-10);
  const double i_sc = pv::Curve(substring(), 3).i_sc().si();
  EXPECT_NEAR(s.current[0].si(), i_sc, 1e-10);
  EXPECT_NEAR(s.current[joint].si(), i_sc / 2, 1e-9);
  EXPECT_NEAR(s.current[second].si(), -i_sc / 2, 1e-9);
}

TEST(Solve, IdealSourcesAndTheirCurrents) {
  // 30 V held by an ideal source across one module, and a battery of 12 V in series with 0.5 Ω.
  Network n;
  n.nodes = 2;
  n.references = {0};
  n.add(1, 0, module_law());
  const int held = n.add(1, 0, Source{volts(30)});
  const int middle = n.add_node();
  n.add(middle, 0, Source{volts(12)});
  n.add(1, middle, Resistor{ohms(0.5)});
  const Solution s = solved(n);
  expect_certified(n, s, 1e-9, 1e-10);
  EXPECT_EQ(s.potential[1].si(), 30);
  const double module = pv::Curve(substring(), 3).current(volts(30)).si();
  EXPECT_NEAR(s.current[held].si(), 18 / 0.5 - module, 1e-9);
}

/// A port's slope against a finite difference, held rigidly and through a cable.
TEST(Solver, KnowsTheSlopeOfAPort) {
  for (const double cable : {0.0, 1e-6, 0.05, 3.0}) {
    Network n;
    n.nodes = 4;
    n.references = {0};
    const int law = n.add_law(module_law()), dim = n.add_law(module_law(0.7));
    n.add(1, 0, law);
    n.add(1, 0, dim);
    n.add(2, 1, Resistor{ohms(0.1)});
    n.add(2, 0, Resistor{ohms(500)});
    const int joint = cable == 0 ? n.add_law(Joint{}) : n.add_law(Resistor{ohms(cable)});
    n.add(3, 2, joint);
    const int port = n.add(3, 0, Source{volts(0)});
    auto solver = Solver::make(n);
    ASSERT_TRUE(solver);
    for (const double v : {0.0, 20.0, 31.0, 37.0, 40.0}) {
      const auto at = [&](double x) {
        solver->set_source(port, volts(x));
        return solver->solve_port(port).value();
      };
      const double h = 1e-4;
      const double difference = (at(v + h).i.si() - at(v - h).i.si()) / (2 * h);
      const auto here = at(v);
      EXPECT_NEAR(here.di_de.si() / difference, 1, 1e-5) << cable << " ohm, " << v << " V";
      EXPECT_GT(here.di_de.si(), 0);  // out of the source's plus: rises with its voltage
      // The warm solution is the cold one.
      Network fresh = n;
      fresh.laws[fresh.elements[port].law] = Source{volts(v)};
      EXPECT_NEAR(solved(fresh).current[port].si(), here.i.si(), 1e-9);
    }
  }
}

/// Strings between two buses, and what can go wrong with them.
struct Array {
  Network n;
  int minus = 0, plus = 0, out = 0, earth = 0;
  std::vector<std::vector<int>> nodes;  // [string][module + 1], minus end first
  std::vector<std::vector<int>> modules;
  std::vector<int> cables;
  int load = -1;
};

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
  int among(int n) { return std::uniform_int_distribution<>(0, n - 1)(engine_); }

 private:
  std::mt19937 engine_;
};

Array sound_array(int strings, int modules, const std::vector<int>& law, Network n,
                  double cable = 0.05) {
  Array a;
  a.n = std::move(n);
  a.minus = a.n.add_node();
  a.plus = a.n.add_node();
  a.out = a.n.add_node();
  a.n.references = {a.minus};
  for (int s = 0; s < strings; ++s) {
    std::vector<int> nodes{a.minus}, own;
    for (int m = 0; m < modules; ++m) {
      nodes.push_back(a.n.add_node());
      own.push_back(a.n.add(nodes[m + 1], nodes[m], law[(s * modules + m) % law.size()]));
    }
    a.cables.push_back(a.n.add(a.plus, nodes.back(), Resistor{ohms(cable * (1 + 0.1 * s))}));
    a.nodes.push_back(nodes);
    a.modules.push_back(own);
  }
  a.n.add(a.out, a.plus, Resistor{ohms(0.02)});
  return a;
}

Array any_array(Draw& d) {
  Network n;
  std::vector<int> laws{n.add_law(module_law())};
  if (d.chance(0.6))
    for (int k = d.among(12); k >= 0; --k)
      laws.push_back(n.add_law(module_law(d.chance(0.1) ? 0 : d.between(0, 1.3))));
  if (d.chance(0.3)) {  // cells without bypass, with breakdown
    pv::CellGroup g = substring(d.between(0.05, 1));
    g.bypass.reset();
    if (d.chance(0.5)) g.breakdown = pv::Breakdown{.share = 0.1, .v = volts(-300), .exponent = 3.7};
    laws.push_back(n.add_law(CellGroup{pv::Curve(g, 3)}));
  }
  const int strings = 1 + d.among(8), modules = 1 + d.among(12);
  Array a = sound_array(strings, modules, laws, std::move(n),
                        d.chance(0.2) ? 1e-4 : d.between_log(0.01, 2));
  // Faults.
  a.earth = a.n.add_node();
  const auto any_node = [&] {
    const auto& s = a.nodes[d.among(strings)];
    return s[d.among(static_cast<int>(s.size()))];
  };
  if (d.chance(0.5)) a.n.add(a.earth, a.minus, Resistor{ohms(d.between_log(1e-3, 1e4))});
  for (int faults = d.among(4); faults > 0; --faults) {
    switch (d.among(6)) {
      case 0:
        a.n.add(any_node(), a.earth, Resistor{ohms(d.between_log(1e-6, 1e6))});
        break;
      case 1:
        a.n.add(any_node(), any_node(), Resistor{ohms(d.between_log(1e-6, 1e6))});
        break;
      case 2:
        a.n.add(any_node(), any_node(), Joint{});
        break;
      case 3: {  // a string the wrong way round
        const int s = d.among(strings);
        a.n.elements[a.modules[s].front()].minus = a.plus;
        a.n.elements[a.cables[s]].plus = a.minus;
        break;
      }
      case 4: {  // a blocking diode in place of a cable
        const int s = d.among(strings);
        a.n.elements[a.cables[s]].law = a.n.add_law(Diode{.a = volts(0.03)});
        break;
      }
      default:  // an open conductor
        a.n.elements[a.cables[d.among(strings)]].plus = a.n.add_node();
        break;
    }
  }
  switch (d.among(5)) {
    case 0:
      break;
    case 1:
      a.load = a.n.add(a.out, a.minus, Joint{});
      break;
    case 2:
      a.load = a.n.add(a.out, a.minus, Source{volts(d.between(-5, 45) * modules)});
      break;
    case 3:
      a.load = a.n.add(a.out, a.minus, Resistor{ohms(d.between_log(1e-3, 1e3))});
      break;
    default: {  // a battery behind a failed controller
      const int battery = a.n.add_node();
      a.n.add(battery, a.minus, Source{volts(54)});
      a.load = a.n.add(a.out, battery, Resistor{ohms(0.01)});
      break;
    }
  }
  return a;
}

RC_GTEST_PROP(Solve, FindsThePointOfEveryArrayWithFaults, (std::uint32_t seed)) {
  for (std::uint32_t k = 0; k < 30; ++k) {
    Draw d(seed * 30 + k);
    const Array a = any_array(d);
    const auto s = solve(a.n);
    if (!s && s.failure().id == "circuit.source-loop") continue;
    if (!s) RC_LOG() << s.failure().message << " seed " << seed * 30 + k;
    RC_ASSERT(s.ok());
    RC_ASSERT(s->iterations < 60);
    expect_certified(a.n, *s, 1e-7, 1e-7);
    if (testing::Test::HasFailure()) RC_FAIL("seed " + std::to_string(seed * 30 + k));
    SolveOptions apart;
    apart.merge = false;
    const auto same = solve(a.n, apart);
    RC_ASSERT(same.ok());
    for (std::size_t e = 0; e < a.n.elements.size(); ++e)
      RC_ASSERT(std::fabs((same->current[e] - s->current[e]).si()) <=
                1e-7 + 1e-8 * std::fabs(s->current[e].si()));
  }
}

/// Vector registers and one element after the other are two roads to the same currents.
RC_GTEST_PROP(Solve, LanesGiveWhatOneByOneGives, (std::uint32_t seed)) {
  for (std::uint32_t k = 0; k < 10; ++k) {
    Draw d(seed * 10 + k);
    const Array a = any_array(d);
    SolveOptions one_by_one;
    one_by_one.lanes = false;
    one_by_one.merge = d.chance(0.5);
    const auto x = solve(a.n), y = solve(a.n, one_by_one);
    RC_ASSERT(x.ok() == y.ok());
    if (!x) continue;
    double largest = 1;
    for (const auto i : y->current) largest = std::fmax(largest, std::fabs(i.si()));
    // Behind a milliohm the potentials of two solutions may differ by their last digit, and the currents
    // by a thousand times that.
    for (std::size_t e = 0; e < a.n.elements.size(); ++e)
      RC_ASSERT(std::fabs((x->current[e] - y->current[e]).si()) <= 1e-9 * largest);
  }
}

/// A voltage reached from the last one is the same as from nowhere, faults or not, in any order.
RC_GTEST_PROP(Solver, FromTheLastSolutionIsAsFromNone, (std::uint32_t seed)) {
  Draw d(seed);
  Array a = any_array(d);
  const int port = a.n.add(a.out, a.minus, Source{volts(0)});
  if (!solve(a.n)) return;  // the load is an ideal source or a joint already
  SolveOptions options;
  options.merge = d.chance(0.5);
  auto solver = Solver::make(a.n, options);
  RC_ASSERT(solver.ok());
  const double top = 42.0 * static_cast<double>(a.modules[0].size());
  for (int k = 0; k < 30; ++k) {
    const double v = k < 20 ? top * k / 20 : top * d.between(-0.1, 1.2);
    solver->set_source(port, volts(v));
    const auto warm = k % 3 == 0 ? solver->solve() : Result<Solution>(Solution{});
    const auto port_now = solver->solve_port(port);
    if (!port_now && port_now.failure().id == "circuit.source-loop") continue;
    RC_ASSERT(port_now.ok() && warm.ok());
    Network fresh = a.n;
    fresh.elements[port].law = fresh.add_law(Source{volts(v)});
    const auto cold = solve(fresh, options);
    RC_ASSERT(cold.ok());
    double largest = 1;
    for (const auto i : cold->current) largest = std::fmax(largest, std::fabs(i.si()));
    RC_ASSERT(std::fabs((port_now->i - cold->current[port]).si()) <= 1e-9 * largest);
    if (warm->current.empty()) continue;
    for (std::size_t e = 0; e < a.n.elements.size(); ++e)
      RC_ASSERT(std::fabs((warm->current[e] - cold->current[e]).si()) <= 1e-9 * largest);
  }
}

/// An array at a held voltage: its current into the source that holds it.
double current_at(const Array& a, double v) {
  Network n = a.n;
  const int port = n.add(a.out, a.minus, Source{volts(v)});
  return -solved(n).current[port].si();
}

Array any_sound_array(Draw& d, int strings, int modules) {
  Network n;
  std::vector<int> laws(static_cast<std::size_t>(strings) * modules);
  for (int& law : laws) law = n.add_law(module_law(d.between(0.2, 1.1)));
  return sound_array(strings, modules, laws, std::move(n));
}

/// Sound arrays of unlike modules are well behaved enough for the last digits to be compared.
RC_GTEST_PROP(Solve, LanesAndMergingChangeNothingInSoundArrays, (std::uint32_t seed)) {
  Draw d(seed);
  Array a = any_sound_array(d, 1 + d.among(6), 1 + d.among(8));
  a.n.add(a.out, a.minus,
          Source{volts(d.between(0, 40) * static_cast<double>(a.modules[0].size()))});
  const auto whole = solve(a.n);
  RC_ASSERT(whole.ok());
  for (const bool merge : {true, false}) {
    for (const bool lanes : {true, false}) {
      SolveOptions options;
      options.merge = merge;
      options.lanes = lanes;
      const auto other = solve(a.n, options);
      RC_ASSERT(other.ok());
      for (std::size_t e = 0; e < a.n.elements.size(); ++e)
        RC_ASSERT(std::fabs((whole->current[e] - other->current[e]).si()) <= 1e-12 * 80);
      for (int k = 0; k < a.n.nodes; ++k)
        RC_ASSERT(std::fabs((whole->potential[k] - other->potential[k]).si()) <= 1e-10);
    }
  }
}

RC_GTEST_PROP(Solve, PortCurrentFallsWithVoltageAndRisesWithLight, (std::uint32_t seed)) {
  Draw d(seed);
  Array a = any_sound_array(d, 1 + d.among(4), 1 + d.among(6));
  const double v = d.between(-0.2, 1.1) * 38.4 * static_cast<double>(a.modules[0].size());
  const double i = current_at(a, v);
  RC_ASSERT(current_at(a, v + 0.5) < i);
  const int lit = a.modules[d.among(static_cast<int>(a.modules.size()))][0];
  auto& law = std::get<CellGroup>(a.n.laws[a.n.elements[lit].law]);
  pv::CellGroup brighter = law.curve.group();
  brighter.cells.i_ph += amps(0.5);
  law.curve = pv::Curve(brighter, 3);
  RC_ASSERT(current_at(a, v) >= i - 1e-10);
}

RC_GTEST_PROP(Solve, AFaultOfNoResistanceIsAJointAndOneOfInfiniteResistanceIsNone,
              (std::uint32_t seed)) {
  Draw d(seed);
  const int strings = 2 + d.among(4), modules = 2 + d.among(6);
  const Array a = any_sound_array(d, strings, modules);
  const int x = a.nodes[0][1 + d.among(modules)], y = a.nodes[1][1 + d.among(modules)];
  const double v = 30.0 * modules;
  const auto with = [&](const Law& fault) {
    Array faulted = a;
    faulted.n.add(x, y, fault);
    return current_at(faulted, v);
  };
  RC_ASSERT(std::fabs(with(Resistor{ohms(1e12)}) - current_at(a, v)) < 1e-8);
  const double joined = with(Joint{});
  RC_ASSERT(std::fabs(with(Resistor{ohms(1e-9)}) - joined) < 1e-6 + 1e-8 * std::fabs(joined));
}

RC_GTEST_PROP(Solve, AShortedModuleIsARemovedOneAndOrderIsFree, (std::uint32_t seed)) {
  Draw d(seed);
  const int modules = 2 + d.among(8);
  Array a = any_sound_array(d, 1, modules);
  const double v = 20.0 * modules;
  Array shorted = a;
  shorted.n.add(a.nodes[0][1], a.nodes[0][0], Joint{});
  Array removed = a;
  removed.n.elements[a.modules[0][0]].law = removed.n.add_law(Joint{});
  RC_ASSERT(std::fabs(current_at(shorted, v) - current_at(removed, v)) < 1e-9);

  Array turned = a;
  for (int m = 0; m < modules; ++m)
    turned.n.elements[a.modules[0][m]].law = a.n.elements[a.modules[0][modules - 1 - m]].law;
  RC_ASSERT(std::fabs(current_at(turned, v) - current_at(a, v)) < 1e-9);
}

TEST(Solve, IdenticalStringsAreOneTimesTheirNumber) {
  for (const int strings : {1, 2, 7, 40}) {
    Network n;
    const int law = n.add_law(module_law());
    const int minus = n.add_node(), plus = n.add_node();
    n.references = {minus};
    for (int s = 0; s < strings; ++s) {
      const int top = n.add_node();
      n.add(top, minus, law, 10);
      n.add(plus, top, Resistor{ohms(0.2)});
    }
    const int port = n.add(plus, minus, Source{volts(312)});
    static double one = 0;
    const double i = -solved(n).current[port].si();
    if (strings == 1) one = i;
    EXPECT_NEAR(i, strings * one, 1e-10 * strings);
  }
}

/// Power by brute force on a fine grid.
double most_power(const Array& a, double v_oc) {
  Network n = a.n;
  const int port = n.add(a.out, a.minus, Source{volts(0)});
  auto solver = Solver::make(n).value();
  double most = 0;
  for (int k = 0; k <= 1500; ++k) {
    const double v = v_oc * k / 1500;
    solver.set_source(port, volts(v));
    most = std::fmax(most, -v * solver.solve_port(port).value().i.si());
  }
  return most;
}

RC_GTEST_PROP(MaximumPower, IsTheGlobalOneAndBelowTheSumOfTheModules, (std::uint32_t seed)) {
  Draw d(seed);
  const int strings = 1 + d.among(3), modules = 1 + d.among(6);
  Array a = any_sound_array(d, strings, modules);
  const double v_oc = 39.0 * modules;
  double sum = 0;
  for (const auto& s : a.modules) {
    for (const int m : s) {
      const auto best = std::get<CellGroup>(a.n.laws[a.n.elements[m].law]).curve.maximum_power();
      sum += best.v.si() * best.i.si();
    }
  }
  Network n = a.n;
  const int port = n.add(a.out, a.minus, Source{volts(0)});
  auto solver = Solver::make(n).value();
  const auto found = find_maximum_power(solver, port, volts(v_oc), false);
  RC_ASSERT(found.ok());
  const double power = found->v.si() * found->i.si();
  RC_ASSERT(power <= sum * (1 + 1e-9));
  RC_ASSERT(power >= most_power(a, v_oc) * (1 - 1e-3));
  RC_ASSERT(found->solves < 400);
}

TEST(MaximumPower, OfLikeModulesNeedsFewSolves) {
  Network n;
  const int law = n.add_law(module_law());
  Array a = sound_array(2, 3, {law}, std::move(n));
  const int port = a.n.add(a.out, a.minus, Source{volts(0)});
  auto solver = Solver::make(a.n).value();
  const auto fast = find_maximum_power(solver, port, volts(115), true);
  ASSERT_TRUE(fast);
  EXPECT_LT(fast->solves, 15);
  const auto sure = find_maximum_power(solver, port, volts(115), false);
  ASSERT_TRUE(sure);
  EXPECT_NEAR(fast->v.si(), sure->v.si(), 1e-6);
  const auto v_oc = find_open_circuit(solver, port, volts(100));
  ASSERT_TRUE(v_oc);
  EXPECT_NEAR(v_oc->si(), 3 * pv::Curve(substring(), 3).v_oc().si(), 1e-9);
  // In the dark there is nothing to take.
  Network night;
  const int dark = night.add_law(module_law(0));
  Array b = sound_array(2, 3, {dark}, std::move(night));
  const int dark_port = b.n.add(b.out, b.minus, Source{volts(0)});
  auto dark_solver = Solver::make(b.n).value();
  const auto none = find_maximum_power(dark_solver, dark_port, volts(100), true);
  ASSERT_TRUE(none);
  EXPECT_EQ(none->v.si(), 0);
}

/// Two unequal cells in parallel and in series: cases/published/appl_parallel.toml, with the constants by
/// which its figures were computed.
TEST(MaximumPower, OfUnequalCells) {
  const pv::Constants codata_1998{.k = 1.3806503e-23, .q = 1.60217646e-19};
  const auto cell = [&](double ratio) -> Law {
    return CellGroup{pv::Curve(
        pv::CellGroup{.cells = {.i_ph = amps(0.76078797 * ratio),
                                .i_0 = amps(3.1068459e-07),
                                .a = 1.47726778 * codata_1998.thermal_voltage(units::celsius(33)),
                                .r_s = ohms(0.03654695),
                                .g_sh = pv::siemens(1 / 52.88979426)}})};
  };
  const auto power = [&](Network n, int top) {
    n.references = {0};
    const int port = n.add(top, 0, Source{volts(0)});
    auto solver = Solver::make(n).value();
    const auto best = find_maximum_power(solver, port, volts(0.58 * top), false, 1e-6).value();
    return best.v.si() * best.i.si();
  };
  const auto alone = [&](double ratio) {
    const auto best = std::get<CellGroup>(cell(ratio)).curve.maximum_power();
    return best.v.si() * best.i.si();
  };
  struct Row {
    double ratio, power, loss;
  };
  for (const Row& r :
       {Row{0.95, 0.60519, 0.0005}, {0.9, 0.58897, 0.0023}, {0.8, 0.55647, 0.0116}}) {
    Network n;
    n.nodes = 2;
    n.add(1, 0, cell(1));
    n.add(1, 0, cell(r.ratio));
    const double p = power(n, 1);
    EXPECT_NEAR(p, r.power, 0.5e-5);
    EXPECT_NEAR(100 * (1 - p / (alone(1) + alone(r.ratio))), r.loss, 0.5e-4);
  }
  for (const Row& r :
       {Row{0.97, 0.61081, 0.1419}, {0.85, 0.55421, 3.2399}, {0.7, 0.46631, 11.0233}}) {
    Network n;
    n.nodes = 3;
    n.add(1, 0, cell(1));
    n.add(2, 1, cell(r.ratio));
    const double p = power(n, 2);
    EXPECT_NEAR(p, r.power, 0.5e-5);
    EXPECT_NEAR(100 * (1 - p / (alone(1) + alone(r.ratio))), r.loss, 0.5e-4);
  }
}

TEST(Elements, HaveOneCurveInBothDirections) {
  pv::CellGroup broken = substring(0.3);
  broken.bypass.reset();
  broken.breakdown = pv::Breakdown{.v = volts(-200)};
  const std::vector<Law> laws{
      module_law(),
      module_law(0),
      CellGroup{pv::Curve(broken)},
      Resistor{ohms(2)},
      Diode{.a = volts(0.03)},
      Diode{.i_s = amps(1e-9), .a = volts(0.05), .leak = pv::siemens(1e-6)}};
  for (const Law& law : laws) {
    double last = 1e300;
    for (int k = 0; k < 65; ++k) {
      const double i = -12 + 0.37 * k;
      const Drop d = at_current(law, amps(i));
      EXPECT_LT(d.v.si(), last) << name(law) << " " << i;
      last = d.v.si();
      const Flow f = at_voltage(law, d.v);
      EXPECT_NEAR(f.i.si(), i, 1e-9) << name(law);
      EXPECT_NEAR(f.di_dv.si() * d.dv_di.si(), 1, 1e-5) << name(law);
    }
  }
  EXPECT_EQ(name(Joint{}), "joint");
  EXPECT_EQ(at_current(Source{volts(5)}, amps(3)).v.si(), 5);
  EXPECT_FALSE(linear(module_law()));
  EXPECT_EQ(linear(Law(Resistor{ohms(2)}))->r.si(), 2);
}

}  // namespace
}  // namespace stringwright::circuit
