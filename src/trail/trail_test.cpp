#include "trail/trail.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <optional>

namespace stringwright::trail {
namespace {

using units::amps;
using units::celsius;
using units::Current;
using units::Length;
using units::ohms_per_kilometre;
using units::percent_per_kelvin;
using units::Ratio;
using units::volts;

const Source clause{"NFPA 70-2023, 690.8(B)(1)", "verified"};

/// I_z ≥ k · I_max, as a rule writes it.
std::optional<bool> terminal_ampacity(Trail& trail, const Fact<Current>& most,
                                      const Fact<Current>& bears) {
  const auto k = trail.factor("k", "continuous-current factor", std::optional(Ratio(1.25)), clause);
  const auto i_max = trail.given("I_max", "most current", most);
  const auto i_z = trail.given("I_z", "ampacity", bears);
  const auto i_req = trail.let("I_req", "required ampacity", k * i_max, clause);
  return trail.require(i_z >= i_req);
}

// The worked rule of the style page: 1.25 · 18 A = 22.5 A against 30 A and 20 A.
TEST(Trail, TellsTheCalculationOfARule) {
  Trail trail;
  EXPECT_EQ(terminal_ampacity(trail, {amps(18), "module.M365"}, amps(30)), true);
  EXPECT_EQ(render(trail),
            "k = 1.25  [NFPA 70-2023, 690.8(B)(1)]\n"
            "I_max = 18.00 A  (given: module.M365)\n"
            "I_z = 30.00 A  (given)\n"
            "I_req = k · I_max = 1.25 · 18.00 A = 22.50 A  [NFPA 70-2023, 690.8(B)(1)]\n"
            "require I_z ≥ I_req: 30.00 A ≥ 22.50 A  holds\n");
  EXPECT_TRUE(trail.missing().empty());
}

TEST(Trail, WhatDoesNotHoldReadsFalse) {
  Trail trail;
  EXPECT_EQ(terminal_ampacity(trail, amps(18), amps(20)), false);
  EXPECT_EQ(render(trail.steps().back()), "require I_z ≥ I_req: 20.00 A ≥ 22.50 A  does not hold");
}

TEST(Trail, EqualityIsNotLess) {
  Trail trail;
  EXPECT_EQ(terminal_ampacity(trail, amps(16), amps(20)), true);
  EXPECT_EQ(render(trail.steps().back()), "require I_z ≥ I_req: 20.00 A ≥ 20.00 A  holds");
}

TEST(Trail, ANarrowMarginIsPrintedWithTheDigitsItNeeds) {
  Trail trail;
  EXPECT_EQ(terminal_ampacity(trail, amps(18), amps(22.499)), false);
  EXPECT_EQ(render(trail.steps().back()),
            "require I_z ≥ I_req: 22.499 A ≥ 22.500 A  does not hold");
}

TEST(Trail, AMissingFactTravelsAlongAndEndsAsCannotTell) {
  Trail trail;
  EXPECT_EQ(terminal_ampacity(trail, {}, amps(30)), std::nullopt);
  EXPECT_EQ(render(trail),
            "k = 1.25  [NFPA 70-2023, 690.8(B)(1)]\n"
            "I_max = not known  (given)\n"
            "I_z = 30.00 A  (given)\n"
            "I_req = k · I_max = 1.25 · ? = not known  [NFPA 70-2023, 690.8(B)(1)]\n"
            "require I_z ≥ I_req: 30.00 A ≥ ?  cannot tell\n");
  EXPECT_EQ(trail.missing(), (std::vector<std::string>{"most current"}));
  EXPECT_FALSE(trail.steps().back().holds);
}

TEST(Trail, WhatIsFromMemorySaysSo) {
  Trail trail;
  trail.factor("k", "factor", std::optional(Ratio(1.25)), {"NFPA 70-2014, 690.8(B)(1)", "memory"});
  trail.table("I_z", "ampacity", std::optional(amps(35)), "10 AWG Cu, 75 °C column",
              {"Table 310.16", "verified"});
  trail.note("The adjusted ampacity is another rule.", {"690.8(B)(2)", "memory"});
  EXPECT_EQ(render(trail),
            "k = 1.25  [NFPA 70-2014, 690.8(B)(1); from memory]\n"
            "I_z = 35.00 A  (10 AWG Cu, 75 °C column)  [Table 310.16]\n"
            "The adjusted ampacity is another rule.  [690.8(B)(2); from memory]\n");
}

// Three modules of 40.9 V at −31 °C with −0.28 %/K: 3 · 40.9 V · (1 + 0.0028 · 56) = 141.93936 V by hand.
TEST(Trail, ColdVoltageIsWrittenAsAPersonWould) {
  Trail trail;
  const auto n = trail.given("N", "modules in series", Fact<Ratio>(Ratio(3), "job"));
  const auto v_oc =
      trail.given("V_oc", "open-circuit voltage", Fact<units::Voltage>(volts(40.9), "module.M365"));
  const auto b = trail.given("β", "voltage coefficient",
                             Fact<units::PerKelvin>(percent_per_kelvin(-0.28), "module.M365"));
  const auto t =
      trail.given("T_min", "lowest temperature", Fact<units::Temperature>(celsius(-31), "site"));
  const auto v = trail.let("V_oc_cold", "cold voltage",
                           n * v_oc * (number(1) + b * (t - reference(celsius(25)))));
  EXPECT_EQ(render(trail.steps().back()),
            "V_oc_cold = N · V_oc · (1 + β · (T_min − 25 °C)) = "
            "3 · 40.9 V · (1 + (−0.280 %/K · (−31 °C − 25 °C))) = 141.9 V");
  ASSERT_TRUE(v.known());
  EXPECT_NEAR(v.value->in(volts), 141.93936, 1e-9);
}

TEST(Trail, ParenthesesStandWhereTheyMustAndNowhereElse) {
  Trail trail;
  const auto a = trail.given("a", "a", Fact<Ratio>(Ratio(2)));
  const auto b = trail.given("b", "b", Fact<Ratio>(Ratio(3)));
  const auto c = trail.given("c", "c", Fact<Ratio>(Ratio(4)));
  EXPECT_EQ((a * b * c).formula, "a · b · c");
  EXPECT_EQ((a / b / c).formula, "a / b / c");
  EXPECT_EQ((a / (b * c)).formula, "a / (b · c)");
  EXPECT_EQ((a / (b / c)).formula, "a / (b / c)");
  EXPECT_EQ((a * (b + c)).formula, "a · (b + c)");
  EXPECT_EQ((a - b - c).formula, "a − b − c");
  EXPECT_EQ((a - (b - c)).formula, "a − (b − c)");
  EXPECT_EQ((a + b * c).formula, "a + b · c");
  EXPECT_EQ(lesser(a + b, c).formula, "min(a + b, c)");
  EXPECT_EQ((a * greater(b, c)).formula, "a · max(b, c)");
  EXPECT_DOUBLE_EQ(*(a - (b - c)).value, 3);
  EXPECT_DOUBLE_EQ(*greater(b, c).value, 4);
  EXPECT_DOUBLE_EQ(*lesser(b, c).value, 3);
}

TEST(Trail, NegativeNumbersBehindASignStandInParentheses) {
  Trail trail;
  const auto a = trail.given("a", "a", Fact<Ratio>(Ratio(-2)));
  const auto b = trail.given("b", "b", Fact<Ratio>(Ratio(-3)));
  EXPECT_EQ((a - b).numbers, "−2 − (−3)");
  EXPECT_EQ((a * b).numbers, "−2 · (−3)");
  EXPECT_EQ(lesser(a, b).numbers, "min(−2, −3)");
}

TEST(Trail, ALetThatOnlyNamesAValueSaysItOnce) {
  Trail trail;
  const auto i =
      trail.given("I_sc", "short-circuit current", Fact<Current>(amps(11.35), "module.M365"));
  trail.let("I_max", "most current", i, {"690.8(A)", "verified"});
  EXPECT_EQ(render(trail.steps().back()), "I_max = I_sc = 11.35 A  [690.8(A)]");
}

TEST(Trail, UnitsFollowTheArithmetic) {
  Trail trail;
  const auto r = trail.given("r", "resistance per length",
                             Fact<units::ResistancePerLength>(ohms_per_kilometre(4.068)));
  const auto l = trail.given("L", "one-way length", Fact<Length>(units::metres(38)));
  const auto i = trail.given("I", "current", Fact<Current>(amps(10.71)));
  const auto drop = trail.let("ΔV", "voltage drop", number(2) * l * r * i);
  EXPECT_EQ(render(trail.steps().back()),
            "ΔV = 2 · L · r · I = 2 · 38.00 m · 4.068 Ω/km · 10.71 A = 3.3 V");
  EXPECT_NEAR(drop.value->in(volts), 2 * 38 * 4.068e-3 * 10.71, 1e-12);
}

TEST(Trail, BothSidesOfAClaimNameWhatIsMissingOnce) {
  Trail trail;
  const auto x = trail.given("x", "the thing", Fact<Current>());
  const Claim claim = x * number(2) <= x;
  EXPECT_FALSE(claim.holds);
  EXPECT_EQ(claim.missing, (std::vector<std::string>{"x"}));
  EXPECT_EQ(claim.numbers, "? ≤ ?");
}

RC_GTEST_PROP(Trail, TheVerdictIsTheComparisonOfTheValues, ()) {
  const double most = *rc::gen::inRange(0, 100000) / 1000.0;
  const double bears = *rc::gen::inRange(0, 100000) / 1000.0;
  Trail trail;
  const auto holds = terminal_ampacity(trail, amps(most), amps(bears));
  RC_ASSERT(holds == units::at_least(amps(bears), amps(1.25 * most)));
  RC_ASSERT(trail.steps().size() == 5U);
}

}  // namespace
}  // namespace stringwright::trail
