#include "units/quantity.hpp"

#include <gtest/gtest.h>

#include <type_traits>

#include "units/print.hpp"

namespace stringwright::units {
namespace {

// The algebra of dimensions is checked when this file compiles.
static_assert(std::is_same_v<decltype(Voltage{} / Current{}), Resistance>);
static_assert(std::is_same_v<decltype(Voltage{} * Current{}), Power>);
static_assert(std::is_same_v<decltype(Power{} * Time{}), Energy>);
static_assert(std::is_same_v<decltype(ResistancePerLength{} * Length{}), Resistance>);
static_assert(std::is_same_v<decltype(Resistivity{} * Length{} / Area{}), Resistance>);
static_assert(std::is_same_v<decltype(Irradiance{} * Area{}), Power>);
static_assert(std::is_same_v<decltype(VoltagePerKelvin{} * TemperatureDifference{}), Voltage>);
static_assert(std::is_same_v<decltype(CurrentPerKelvin{} * TemperatureDifference{}), Current>);
static_assert(std::is_same_v<decltype(PerKelvin{} * Voltage{}), VoltagePerKelvin>);
static_assert(std::is_same_v<decltype(PerKelvin{} * TemperatureDifference{}), Ratio>);
static_assert(std::is_same_v<decltype(Voltage{} / Voltage{}), Ratio>);
static_assert(std::is_same_v<decltype(Torque{} * Angle{}), Energy>);
static_assert(std::is_same_v<decltype(Temperature{} - Temperature{}), TemperatureDifference>);
static_assert(dim::one + dim::voltage == dim::voltage);
static_assert(dim::conductance + dim::resistance == dim::one);
static_assert(dim::torque != dim::energy);

template <class X, class Y>
concept can_add = requires(X x, Y y) { x + y; };
template <class X, class Y>
concept can_multiply = requires(X x, Y y) { x* y; };
template <class X, class Y>
concept can_compare = requires(X x, Y y) { x < y; };

static_assert(can_add<Voltage, Voltage>);
static_assert(!can_add<Voltage, Current>);
static_assert(!can_add<Voltage, double>);
static_assert(!can_add<Temperature, Temperature>);
static_assert(can_add<Temperature, TemperatureDifference>);
static_assert(std::is_same_v<decltype(1 + Ratio{} * Ratio{}), Ratio>);
static_assert(1 + Ratio(0.25) == 1.25 && Ratio(0.25) - 1 == -0.75 && 1.0 - Ratio(0.25) == 0.75);
static_assert(Ratio(0.9) > 0.8 && 1 > Ratio(0.9) && 2 * Ratio(0.5) == 1);
static_assert(volts(40) * (1 + percent_per_kelvin(-1) * kelvins(-50)) == volts(60));
static_assert(!can_multiply<PerKelvin, Temperature>);
static_assert(!can_compare<Voltage, Current>);
static_assert(!can_compare<Temperature, TemperatureDifference>);
static_assert(!std::is_convertible_v<double, Voltage>);
static_assert(!std::is_convertible_v<Voltage, double>);
static_assert(std::is_convertible_v<double, Ratio>);

static_assert(volts(40.9).in(millivolts) > 40899 && volts(40.9).in(millivolts) < 40901);
static_assert((volts(12) / amps(3)).in(ohms) == 4);
static_assert(abs(volts(-3)) == volts(3));
static_assert(min(amps(2), amps(3)) == amps(2) && max(amps(2), amps(3)) == amps(3));

TEST(Quantity, MadeAndReadByNamingTheUnit) {
  EXPECT_DOUBLE_EQ(feet(85).in(metres), 25.908);
  EXPECT_DOUBLE_EQ(ohms_per_thousand_feet(1.24).in(ohms_per_kilometre), 1.24 / 0.3048);
  EXPECT_NEAR(newton_metres(2.8).in(pound_force_inches), 2.8 / 0.1129848, 1e-5);
}

TEST(Quantity, Arithmetic) {
  Voltage v = volts(40);
  v += volts(1);
  v -= volts(0.5);
  v *= 2;
  EXPECT_DOUBLE_EQ(v.in(volts), 81);
  EXPECT_DOUBLE_EQ((-v).in(volts), -81);
  EXPECT_DOUBLE_EQ((3 * v).in(volts), 243);
  EXPECT_DOUBLE_EQ((v / 2).in(volts), 40.5);
  EXPECT_DOUBLE_EQ(double(volts(3) / volts(2)), 1.5);
  EXPECT_LT(volts(-1), volts(0));
}

// Fixed points: NIST SP 811 appendix B.8, t/K = t/°C + 273.15 and t/K = (t/°F + 459.67) / 1.8, from
// memory; −40 °F = −40 °C follows from both.
TEST(Temperature, PointsOnTheScale) {
  EXPECT_DOUBLE_EQ(celsius(25).kelvin(), 298.15);
  EXPECT_NEAR(fahrenheit(-40).celsius(), -40, 1e-12);
  EXPECT_NEAR(fahrenheit(32).celsius(), 0, 1e-12);
  EXPECT_NEAR(fahrenheit(77).kelvin(), (77 + 459.67) / 1.8, 1e-12);
  EXPECT_NEAR(celsius(100).fahrenheit(), 212, 1e-12);
}

TEST(Temperature, DifferencesMoveAPoint) {
  EXPECT_NEAR((celsius(-31) - celsius(25)).in(kelvins), -56, 1e-12);
  EXPECT_NEAR((celsius(32) + kelvins(30)).celsius(), 62, 1e-12);
  EXPECT_NEAR((celsius(32) - fahrenheit_degrees(54)).celsius(), 2, 1e-12);
  EXPECT_LT(celsius(-31), fahrenheit(-23));
}

TEST(Guard, FloatNoiseCannotFailEquality) {
  EXPECT_TRUE(at_least(amps(1.25 * 18.0), amps(22.5)));
  EXPECT_TRUE(at_least(amps(0.1 + 0.2), amps(0.3)));
  EXPECT_TRUE(at_most(amps(0.1 + 0.2), amps(0.3)));
  EXPECT_TRUE(at_least(volts(0), volts(0)));
  EXPECT_TRUE(at_least(volts(-1), volts(-1)));
}

TEST(Guard, IsOneInAThousandMillionAndNoMore) {
  EXPECT_TRUE(at_least(amps(20 * (1 - 0.9e-9)), amps(20)));
  EXPECT_FALSE(at_least(amps(20 * (1 - 1.1e-9)), amps(20)));
  EXPECT_TRUE(at_least(amps(-20 * (1 + 0.9e-9)), amps(-20)));
  EXPECT_FALSE(at_least(amps(-20 * (1 + 1.1e-9)), amps(-20)));
  EXPECT_FALSE(at_most(amps(20 * (1 + 1.1e-9)), amps(20)));
}

}  // namespace
}  // namespace stringwright::units
