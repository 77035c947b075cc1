#include "units/read.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <fstream>
#include <locale>
#include <string>
#include <utility>
#include <vector>

#include "base/text.hpp"

namespace stringwright::units {
namespace {

template <class Q>
void expect_reads(std::string_view text, Q expected) {
  const auto q = read<Q::dimension>(text);
  ASSERT_TRUE(q.ok()) << text << ": " << q.failure().message;
  EXPECT_DOUBLE_EQ(q->si(), expected.si()) << text;
}

void expect_refused(std::string_view text, std::string_view id, std::string_view message) {
  const auto r = read_any(text);
  ASSERT_FALSE(r.ok()) << text << " was read as " << r->si;
  EXPECT_EQ(r.failure().id, id) << text;
  EXPECT_EQ(r.failure().message, message);
}

template <class Q>
void expect_refused_as(std::string_view text, std::string_view id, std::string_view message) {
  const auto q = read<Q::dimension>(text);
  ASSERT_FALSE(q.ok()) << text;
  EXPECT_EQ(q.failure().id, id) << text;
  EXPECT_EQ(q.failure().message, message);
}

TEST(Read, LengthsAsPeopleWriteThem) {
  expect_reads("85 ft", feet(85));
  expect_reads("26 m", metres(26));
  expect_reads("38m", metres(38));
  expect_reads("0.75 m", metres(0.75));
  expect_reads(".75 m", metres(0.75));
  expect_reads("+250 mm", millimetres(250));
  expect_reads("3/4 in", inches(0.75));
  expect_reads("1 1/2 ft", feet(1.5));
  expect_reads("1-1/2 ft", feet(1.5));
  expect_reads("-1 1/2 ft", feet(-1.5));
  expect_reads("½ in", inches(0.5));
  expect_reads("1½\"", inches(1.5));
  expect_reads("5 ft 6 in", feet(5.5));
  expect_reads("5' 6 1/2\"", inches(66.5));
  expect_reads("-5 ft 6 in", feet(-5.5));
  expect_reads("1.5e3 m", metres(1500));
  expect_reads("1E-3 m", millimetres(1));
  expect_reads("1e−3 m", millimetres(1));
  expect_reads("2 km", metres(2000));
}

TEST(Read, ElectricalQuantities) {
  expect_reads("40.9 V", volts(40.9));
  expect_reads("1 kV", kilovolts(1));
  expect_reads("5 kA", kiloamps(5));
  expect_reads("500 mA", milliamps(500));
  expect_reads("365 W", watts(365));
  expect_reads("3 kWh", kilowatt_hours(3));
  expect_reads("0.5 Ω", ohms(0.5));
  expect_reads("0.5 \u2126", ohms(0.5));
  expect_reads("0.5 ohm", ohms(0.5));
  expect_reads("1 MΩ", megohms(1));
  expect_reads("1 Mohm", megohms(1));
  expect_reads("5 mΩ", milliohms(5));
  expect_reads("1.24 Ω/kft", ohms_per_thousand_feet(1.24));
  expect_reads("4.07 ohm/km", ohms_per_kilometre(4.07));
  expect_reads("800 W/m²", watts_per_square_metre(800));
  expect_reads("800 W/m2", watts_per_square_metre(800));
  expect_reads("800 W/m^2", watts_per_square_metre(800));
}

TEST(Read, CoefficientsPerKelvinOrDegreeCelsius) {
  expect_reads("-0.28 %/K", percent_per_kelvin(-0.28));
  expect_reads("−0.28 %/°C", percent_per_kelvin(-0.28));
  expect_reads("0.048%/K", percent_per_kelvin(0.048));
  expect_reads("-0.115 V/K", volts_per_kelvin(-0.115));
  expect_reads("-115 mV/K", millivolts_per_kelvin(-115));
  expect_reads("-115 mV/°C", millivolts_per_kelvin(-115));
  expect_reads("4.8 mA/K", milliamps_per_kelvin(4.8));
}

TEST(Read, MechanicalQuantities) {
  for (const auto text : {"2.8 N·m", "2.8 Nm", "2.8 N m", "2.8 N\u22C5m", "2.8 N*m", "2.8 N-m"})
    expect_reads(text, newton_metres(2.8));
  for (const auto text :
       {"25 lbf·in", "25 in-lb", "25 lbf in", "25 in·lbf", "25 lb-in", "25 in lb"})
    expect_reads(text, pound_force_inches(25));
  expect_reads("20 ft-lb", pound_force_inches(240));
  expect_reads("6 mm²", square_millimetres(6));
  expect_reads("6 mm2", square_millimetres(6));
  expect_reads("0.5 sq in", square_inches(0.5));
  expect_reads("45 °", degrees(45));
  expect_reads("45°", degrees(45));
  expect_reads("45 deg", degrees(45));
  expect_reads("3 %", percent(3));
  expect_reads("1.25", Ratio(1.25));  // the one dimension that needs no unit
}

TEST(Read, TemperaturePointsAndDifferencesAreTwoThings) {
  for (const auto text :
       {"-31 °C", "−31 °C", "-31°C", "-31 C", "-31 degC", "−31 \u2103", "- 31 °C"}) {
    const auto t = read_temperature(text);
    ASSERT_TRUE(t.ok()) << text << ": " << t.failure().message;
    EXPECT_EQ(*t, celsius(-31)) << text;
  }
  EXPECT_EQ(read_temperature("-24 °F").value(), fahrenheit(-24));
  EXPECT_EQ(read_temperature("12 degC").value(), celsius(12));
  EXPECT_TRUE(read_any("12 C")->point);

  expect_reads("30 K", kelvins(30));
  expect_reads("54 Δ°F", fahrenheit_degrees(54));
  expect_reads("30 \u2206°C", kelvins(30));
  EXPECT_FALSE(read_any("30 K")->point);

  expect_refused_as<TemperatureDifference>(
      "30 °C", "units.wrong-dimension",
      "'30 °C' is a temperature, but a temperature difference is needed; allowed: K, Δ°C, Δ°F");
  EXPECT_EQ(read_temperature("30 K").failure().message,
            "'30 K' is a temperature difference, but a temperature is needed; allowed: °C, °F");
}

TEST(Read, BelowAbsoluteZeroIsRefused) {
  EXPECT_TRUE(read_temperature("-273.15 °C").ok());
  EXPECT_EQ(read_temperature("-273.2 °C").failure().id, "units.out-of-range");
}

TEST(Read, AnyBlankBetweenNumberAndUnit) {
  for (const auto text : {"85\u00A0ft", "85\u202Fft", "85\u2009ft", " 85   ft ", "85\tft"})
    expect_reads(text, feet(85));
}

TEST(Read, DecimalCommasAndThousandsSeparatorsAreRefusedWithAdvice) {
  expect_refused("0,5 m", "units.decimal-comma", "'0,5 m' has a decimal comma: write '0.5 m'");
  expect_refused("−12,75 V", "units.decimal-comma",
                 "'−12,75 V' has a decimal comma: write '-12.75 V'");
  expect_refused("1.000,5 V", "units.decimal-comma",
                 "'1.000,5 V' has a decimal comma: write '1000.5 V'");
  expect_refused(
      "1,000 V", "units.thousands-separator",
      "'1,000 V' has a comma in the number: write '1000 V', or '1.000 V' if the comma is "
      "a decimal one");
  expect_refused("-1,234,567.8 V", "units.thousands-separator",
                 "'-1,234,567.8 V' has thousands separators: write '-1234567.8 V'");
  expect_refused("1 000 V", "units.thousands-separator",
                 "'1 000 V' has a blank inside the number: write it in one, such as '1000 V'");
  expect_refused("1\u202F000 V", "units.thousands-separator",
                 "'1\u202F000 V' has a blank inside the number: write it in one, such as '1000 V'");
  expect_refused("1'000 V", "units.thousands-separator",
                 "'1'000 V' has thousands separators: write '1000 V'");
  expect_refused("1_000 V", "units.thousands-separator",
                 "'1_000 V' has thousands separators: write '1000 V'");
  for (const auto text : {"1,2,3 V", "1, V", "1,.5 V", "1,5.5 V"}) {
    ASSERT_FALSE(read_any(text).ok()) << text;
    EXPECT_EQ(read_any(text).failure().id, "units.not-a-number") << text;
  }
}

TEST(Read, WhatIsNoNumberIsRefused) {
  expect_refused("", "units.empty", "no quantity is written");
  expect_refused(" \u00A0 ", "units.empty", "no quantity is written");
  for (const auto text : {"inf", "-inf V", "nan", "NaN m", "Infinity", "∞ V"}) {
    ASSERT_FALSE(read_any(text).ok()) << text;
    EXPECT_EQ(read_any(text).failure().id, "units.not-finite") << text;
  }
  for (const auto text : {"V", ".", "- V", "--5 V", "1.2.3 V", "5-10 V", "5 - 10 V", "3/0 in",
                          "1/2/3 in", "1/2.5 in", "5 5 V", "–31 °C", "0x10 V", "#10"}) {
    EXPECT_FALSE(read_any(text).ok()) << text;
  }
  expect_refused("–31 °C", "units.not-a-number",
                 "'–31 °C' begins with a dash: write a minus sign, '-' or '−'");
  expect_refused("5-10 V", "units.not-a-number", "'5-10 V' looks like a range: write one number");
}

TEST(Read, NumbersBeyondADoubleAreRefused) {
  for (const auto text : {"1e999 V", "1e-999 V", "1e308 km", "1e99999999999999999999 V"}) {
    ASSERT_FALSE(read_any(text).ok()) << text;
    EXPECT_EQ(read_any(text).failure().id, "units.out-of-range") << text;
  }
  EXPECT_EQ(read_any(std::string(400, '9') + " V").failure().id, "units.out-of-range");
  EXPECT_TRUE(read_any("0e-999 V").ok());
}

TEST(Read, MissingAndUnknownUnits) {
  expect_refused("85", "units.no-unit", "'85' has no unit");
  expect_refused_as<Voltage>("85", "units.no-unit", "'85' has no unit; allowed: V, mV, kV");
  expect_refused_as<Voltage>("5 KV", "units.unknown-unit",
                             "unknown unit 'KV' in '5 KV'; allowed: V, mV, kV; did you mean 'kV'?");
  expect_refused("85 metrs", "units.unknown-unit",
                 "unknown unit 'metrs' in '85 metrs'; did you mean 'metre'?");
  expect_refused("85 ft long", "units.trailing-text",
                 "'long' after the unit in '85 ft long' is not understood");
  expect_refused("12 V d.c.", "units.trailing-text",
                 "'d.c.' after the unit in '12 V d.c.' is not understood");
  expect_refused("1/0 AWG", "units.unknown-unit",
                 "'1/0 AWG' names a conductor size, which is not a quantity");
}

TEST(Read, AWrongDimensionSaysWhatItIsAndWhatIsNeeded) {
  expect_refused_as<Voltage>("85 ft", "units.wrong-dimension",
                             "'85 ft' is a length, but a voltage is needed; allowed: V, mV, kV");
  expect_refused_as<Length>(
      "45 °", "units.wrong-dimension",
      "'45 °' is an angle, but a length is needed; allowed: m, mm, cm, km, ft, in");
  expect_refused_as<Ratio>(
      "3 V", "units.wrong-dimension",
      "'3 V' is a voltage, but a plain number is needed; allowed: %, or a number alone");
}

TEST(Read, MessagesShowStrangeTextSafely) {
  const auto r = read_any("1\xFF\x1B V");
  ASSERT_FALSE(r.ok());
  EXPECT_NE(r.failure().message.find("'1\uFFFD\uFFFD V'"), std::string::npos);
}

TEST(Read, EveryDimensionOfTheListHasANameAndUnits) {
  const std::vector<Dimension> all{dim::length,
                                   dim::area,
                                   dim::time,
                                   dim::current,
                                   dim::kelvin,
                                   dim::per_kelvin,
                                   dim::angle,
                                   dim::energy,
                                   dim::power,
                                   dim::voltage,
                                   dim::resistance,
                                   dim::conductance,
                                   dim::resistance_per_length,
                                   dim::resistivity,
                                   dim::irradiance,
                                   dim::torque,
                                   dim::voltage_per_kelvin,
                                   dim::current_per_kelvin,
                                   dim::power_per_kelvin};
  for (const auto d : all) {
    EXPECT_NE(dimension_name(d), "quantity without a name");
    ASSERT_FALSE(unit_list(d).empty()) << dimension_name(d);
    const std::string list = unit_list(d);
    for (const auto unit : text::split(list, ',')) {
      const auto r = read_any("1 " + std::string(text::trim(unit)));
      ASSERT_TRUE(r.ok()) << unit << ": " << r.failure().message;
      EXPECT_EQ(r->dimension, d) << unit;
      EXPECT_FALSE(r->point) << unit;
    }
  }
  EXPECT_EQ(unit_list(dim::voltage), "V, mV, kV");
  EXPECT_EQ(unit_list(dim::kelvin, true), "°C, °F");
  EXPECT_EQ(dimension_name(dim::kelvin, true), "temperature");
}

TEST(Read, FactorsAgreeWithThePrintedTable) {
  std::ifstream file(std::string(STRINGWRIGHT_SOURCE_DIR) + "/cases/tables/unit_factors.csv");
  ASSERT_TRUE(file.good());
  int rows = 0;
  bool header = true;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (std::exchange(header, false)) continue;
    const auto cells = text::csv_row(line);
    ASSERT_EQ(cells.size(), 4U) << line;
    const auto r = read_any(cells[0]);
    ASSERT_TRUE(r.ok()) << line << ": " << r.failure().message;
    const double printed = std::stod(cells[1]);
    // Factors that are not exact are printed to 7 digits: half of the last one.
    const double tolerance = cells[2] == "yes" ? 1e-15 : 5e-7;
    EXPECT_NEAR(r->si, printed, tolerance * printed) << line;
    ++rows;
  }
  EXPECT_GT(rows, 10);
}

/// A program that has set the locale of a country with decimal commas.
class CommaLocale {
 public:
  CommaLocale() : before_(std::locale::global(std::locale(std::locale::classic(), new Commas))) {}
  ~CommaLocale() { std::locale::global(before_); }
  CommaLocale(const CommaLocale&) = delete;
  CommaLocale& operator=(const CommaLocale&) = delete;

 private:
  struct Commas : std::numpunct<char> {
    char do_decimal_point() const override { return ','; }
    char do_thousands_sep() const override { return '.'; }
    std::string do_grouping() const override { return "\3"; }
  };
  std::locale before_;
};

TEST(Read, NoLocaleChangesWhatIsRead) {
  const CommaLocale commas;
  expect_reads("1234.5 V", volts(1234.5));
  EXPECT_EQ(text::fixed(1234.5, 1), "1234.5");
  EXPECT_EQ(text::shortest(1234.5), "1234.5");
  EXPECT_FALSE(read_any("1,5 V").ok());
}

void any_text_is_an_answer(const std::string& written) {
  const auto r = read_any(written);
  if (r.ok()) {
    RC_ASSERT(std::isfinite(r->si));
  } else {
    RC_ASSERT(!r.failure().message.empty());
    RC_ASSERT(text::printable(r.failure().message) == r.failure().message);
    RC_ASSERT(text::starts_with(r.failure().id, "units."));
  }
  RC_ASSERT(read_temperature(written).ok() == (r.ok() && r->point));
}

RC_GTEST_PROP(Read, AnyBytesAreAnAnswer, (const std::string& bytes)) {
  any_text_is_an_answer(bytes);
}

RC_GTEST_PROP(Read, AnyUnicodeIsAnAnswer, ()) {
  const auto points = *rc::gen::container<std::vector<int>>(rc::gen::inRange(1, 0x110000));
  std::string utf8;
  for (const int p : points) {
    const auto byte = [&](int value) { utf8 += static_cast<char>(value); };
    if (p < 0x80) {
      byte(p);
    } else if (p < 0x800) {
      byte(0xC0 | (p >> 6)), byte(0x80 | (p & 0x3F));
    } else if (p < 0x10000) {
      byte(0xE0 | (p >> 12)), byte(0x80 | ((p >> 6) & 0x3F)), byte(0x80 | (p & 0x3F));
    } else {
      byte(0xF0 | (p >> 18)), byte(0x80 | ((p >> 12) & 0x3F)), byte(0x80 | ((p >> 6) & 0x3F)),
          byte(0x80 | (p & 0x3F));
    }
  }
  any_text_is_an_answer(utf8);
  any_text_is_an_answer("1" + utf8);
  any_text_is_an_answer("1 ft" + utf8);
}

RC_GTEST_PROP(Read, AnyMixtureOfPiecesIsAnAnswer, ()) {
  static const std::vector<std::string> pieces{
      "1", "0",  "999", "/",   "-",  "−", "+", ".",   ",",   "e",   "E9",  " ",    "\u202F",  "½",
      "'", "\"", "_",   "ft",  "in", "°", "C", "°F",  "Δ",   "K",   "%",   "/K",   "V",       "m",
      "2", "²",  "^",   "ohm", "N",  "·", "*", "AWG", "inf", "nan", "lbf", "\xC2", "\xE2\x88"};
  const auto chosen = *rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(pieces));
  any_text_is_an_answer(text::join(chosen, ""));
}

}  // namespace
}  // namespace stringwright::units
