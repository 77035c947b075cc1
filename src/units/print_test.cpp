#include "units/print.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/text.hpp"
#include "units/read.hpp"

namespace stringwright::units {
namespace {

/// The dimensions that are both printed and read.
const std::vector<Dimension>& printed_dimensions() {
  static const std::vector<Dimension> all{dim::one,
                                          dim::length,
                                          dim::area,
                                          dim::time,
                                          dim::current,
                                          dim::voltage,
                                          dim::resistance,
                                          dim::conductance,
                                          dim::resistance_per_length,
                                          dim::resistivity,
                                          dim::power,
                                          dim::energy,
                                          dim::kelvin,
                                          dim::per_kelvin,
                                          dim::voltage_per_kelvin,
                                          dim::current_per_kelvin,
                                          dim::power_per_kelvin,
                                          dim::irradiance,
                                          dim::torque,
                                          dim::angle};
  return all;
}

AnyQuantity quantity(double si, Dimension d) {
  AnyQuantity q;
  q.si = si;
  q.dimension = d;
  return q;
}

TEST(Print, UnitsAndDecimalsByDimension) {
  EXPECT_EQ(print(volts(141.93)), "141.9 V");
  EXPECT_EQ(print(amps(28.375)), "28.38 A");
  EXPECT_EQ(print(amps(11.35) * 2 * 1.25), "28.38 A");
  EXPECT_EQ(print(ohms(0.5)), "0.5000 Ω");
  EXPECT_EQ(print(kilohms(4.7)), "4.70 kΩ");
  EXPECT_EQ(print(megohms(1)), "1.00 MΩ");
  EXPECT_EQ(print(ohms_per_kilometre(4.068)), "4.068 Ω/km");
  EXPECT_EQ(print(feet(85)), "25.91 m");
  EXPECT_EQ(print(inches(0.75)), "19.1 mm");
  EXPECT_EQ(print(metres(0)), "0.00 m");
  EXPECT_EQ(print(square_millimetres(5.26)), "5.26 mm²");
  EXPECT_EQ(print(kelvins(-56)), "−56.0 K");
  EXPECT_EQ(print(percent_per_kelvin(-0.28)), "−0.280 %/K");
  EXPECT_EQ(print(volts_per_kelvin(-0.115)), "−0.115 V/K");
  EXPECT_EQ(print(milliamps_per_kelvin(4.8)), "4.80 mA/K");
  EXPECT_EQ(print(watts(365)), "365 W");
  EXPECT_EQ(print(watts(12.3456)), "12.35 W");
  EXPECT_EQ(print(watt_hours(1500)), "1500 Wh");
  EXPECT_EQ(print(watts_per_square_metre(800)), "800 W/m²");
  EXPECT_EQ(print(newton_metres(2.8)), "2.80 N·m");
  EXPECT_EQ(print(degrees(45)), "45.0 °");
}

TEST(Print, PlainNumbersHaveUpToFourDigits) {
  EXPECT_EQ(print(Ratio(1.1568)), "1.157");
  EXPECT_EQ(print(Ratio(2)), "2");
  EXPECT_EQ(print(Ratio(1.25)), "1.25");
  EXPECT_EQ(print(Ratio(0.7)), "0.7");
  EXPECT_EQ(print(Ratio(12345)), "12345");
  EXPECT_EQ(print(Ratio(-0.5)), "−0.5");
  EXPECT_EQ(print(Ratio(1.25), 3), "1.250");
}

TEST(Print, WholeTemperaturesHaveNoDecimals) {
  EXPECT_EQ(print(celsius(-31)), "−31 °C");
  EXPECT_EQ(print(celsius(0)), "0 °C");
  EXPECT_EQ(print(celsius(-5.5)), "−5.5 °C");
  EXPECT_EQ(print(fahrenheit(-24)), "−31.1 °C");
  EXPECT_EQ(print(celsius(-30.98)), "−31 °C");
  EXPECT_EQ(print(celsius(25), 1), "25.0 °C");
}

TEST(Print, ShownNumber) {
  EXPECT_DOUBLE_EQ(shown_number(per_kelvin(0.0028)), 0.28);
  EXPECT_NEAR(shown_number(Temperature::from_kelvin(242.15)), -31, 1e-9);
  EXPECT_EQ(shown(volts(1)).unit, "V");
  EXPECT_EQ(shown(Ratio(1)).unit, "");
}

TEST(Print, ADimensionWithoutANameIsMarked) {
  EXPECT_EQ(print(amps(2) * metres(3)), "6.0000 (SI)");
}

TEST(Print, PercentAndLengths) {
  EXPECT_EQ(print_percent(Ratio(0.0256)), "2.56 %");
  EXPECT_EQ(print_percent(Ratio(0.5), 0), "50 %");
  EXPECT_EQ(print_length_both(metres(38)), "38.0 m (124.7 ft)");
}

using Texts = std::pair<std::string, std::string>;

TEST(PrintPair, DefaultsWhereTheyReadTrue) {
  EXPECT_EQ(print_pair(amps(30), amps(22.5)), (Texts{"30.00 A", "22.50 A"}));
  EXPECT_EQ(print_pair(watts(99.5), watts(365)), (Texts{"99.50 W", "365 W"}));
  EXPECT_EQ(print_pair(Ratio(1.157), Ratio(2)), (Texts{"1.157", "2"}));
}

TEST(PrintPair, AsManyDecimalsAsItTakes) {
  EXPECT_EQ(print_pair(amps(22.499), amps(22.5)), (Texts{"22.499 A", "22.500 A"}));
  EXPECT_EQ(print_pair(volts(150.00004), volts(150)), (Texts{"150.00004 V", "150.00000 V"}));
  EXPECT_EQ(print_pair(celsius(-31), celsius(-30.98)), (Texts{"−31.00 °C", "−30.98 °C"}));
  EXPECT_EQ(print_pair(watts(99.999), watts(100.4)), (Texts{"100.00 W", "100.40 W"}));
}

TEST(PrintPair, EqualWithinTheGuardPrintsEqual) {
  EXPECT_EQ(print_pair(amps(0.1 + 0.2), amps(0.3)), (Texts{"0.30 A", "0.30 A"}));
  EXPECT_EQ(print_pair(amps(20 * (1 - 1e-10)), amps(20)), (Texts{"20.00 A", "20.00 A"}));
  EXPECT_EQ(print_pair(volts(0), volts(0)), (Texts{"0.0 V", "0.0 V"}));
}

TEST(PrintPair, OneUnitForBoth) {
  EXPECT_EQ(print_pair(kilohms(500), megohms(1)), (Texts{"0.50 MΩ", "1.00 MΩ"}));
}

double number_of(const std::string& printed) {
  return std::stod(text::replace_all(text::replace_all(printed, "e−", "e-"), "−", "-"));
}

RC_GTEST_PROP(PrintPair, TheOrderReadsTrue, ()) {
  const auto d = *rc::gen::elementOf(printed_dimensions());
  const double x = *rc::gen::inRange(-200000, 200000) / 100.0;
  const double y = x + *rc::gen::inRange(-2000, 2000) * 1e-6;
  RC_PRE(x == y || std::fabs(x - y) > 2 * guard * std::max(std::fabs(x), std::fabs(y)));
  const double unit = shown(quantity(1000, d)).factor;
  const auto [left, right] = print_pair(quantity(x * unit, d), quantity(y * unit, d));
  if (x < y) RC_ASSERT(number_of(left) < number_of(right));
  if (x > y) RC_ASSERT(number_of(left) > number_of(right));
  if (x == y) RC_ASSERT(left == right);
}

RC_GTEST_PROP(Print, ReadsBackAsWhatWasPrinted, ()) {
  const auto d = *rc::gen::elementOf(printed_dimensions());
  const double si = *rc::gen::inRange(-1000000, 1000000) * std::pow(10.0, *rc::gen::inRange(-6, 4));
  const AnyQuantity q = quantity(si, d);

  const auto fine = detail::read_as(print(q, 9), d);
  RC_ASSERT(fine.ok());
  RC_ASSERT(std::fabs(*fine - si) <= std::max(1e-12 * std::fabs(si), 0.51e-9 * shown(q).factor));

  const auto coarse = detail::read_as(print(q), d);
  RC_ASSERT(coarse.ok());
  RC_ASSERT(
      std::fabs(*coarse - si) <=
      std::max(1e-12 * std::fabs(si), 0.51 * std::pow(10.0, -shown(q).decimals) * shown(q).factor));
}

RC_GTEST_PROP(Print, TemperaturesReadBack, ()) {
  const double c = *rc::gen::inRange(-2700, 20000) / 10.0;
  const auto t = read_temperature(print(celsius(c)));
  RC_ASSERT(t.ok());
  RC_ASSERT(std::fabs(t->celsius() - c) < 0.051);
}

}  // namespace
}  // namespace stringwright::units
