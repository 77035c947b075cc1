#include "units/sizes.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <fstream>
#include <string>
#include <utility>
#include <vector>

#include "base/text.hpp"

namespace stringwright::units {
namespace {

constexpr double pi = 3.14159265358979323846;

/// Area in circular mils: π/4 · (0.001 in)², by definition.
double circular_mils(Area a) { return a.in(square_inches) / (pi / 4 * 1e-6); }

TEST(WireSize, ReadsWhatPeopleWrite) {
  const std::vector<std::pair<const char*, const char*>> written{
      {"10 AWG", "10 AWG"},         {"#10", "10 AWG"},
      {"AWG 10", "10 AWG"},         {"10awg", "10 AWG"},
      {"#10 AWG", "10 AWG"},        {"4/0 AWG", "4/0 AWG"},
      {"1/0 AWG", "1/0 AWG"},       {"0000 AWG", "4/0 AWG"},
      {"250 kcmil", "250 kcmil"},   {"250 MCM", "250 kcmil"},
      {"2000 kcmil", "2000 kcmil"}, {"6 mm²", "6 mm²"},
      {"6 mm2", "6 mm²"},           {"2.5 mm^2", "2.5 mm²"},
      {"6.0 mm²", "6 mm²"},         {"1.5 sq mm", "1.5 mm²"},
      {"10\u00A0AWG", "10 AWG"},
  };
  for (const auto& [text, expected] : written) {
    const auto size = WireSize::read(text);
    ASSERT_TRUE(size.ok()) << text << ": " << size.failure().message;
    EXPECT_EQ(size->print(), expected) << text;
    EXPECT_TRUE(size->known());
  }
}

TEST(WireSize, RefusesWithTheListOfSizes) {
  EXPECT_EQ(WireSize::read("11 AWG").failure().message,
            "'11 AWG' is not a conductor size; AWG sizes are 18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, "
            "1/0, 2/0, "
            "3/0, 4/0");
  EXPECT_EQ(WireSize::read("5 mm²").failure().message,
            "'5 mm²' is not a conductor size; metric sizes are 1.5 mm², 2.5 mm², 4 mm², 6 mm², 10 "
            "mm², 16 mm², "
            "25 mm², 35 mm², 50 mm², 70 mm², 95 mm², 120 mm², 150 mm², 185 mm², 240 mm², 300 mm², "
            "400 mm², "
            "500 mm², 630 mm²");
  EXPECT_EQ(WireSize::read("10").failure().message,
            "'10' does not say which kind of conductor size it is; write '10 AWG', '250 kcmil' or "
            "'6 mm²'");
  for (const auto text :
       {"", "AWG", "#", "10 AWG 12 AWG", "250 AWG", "10 kcmil", "AWG 10 mm²", "2,5 mm²", "5/0 AWG"})
    EXPECT_FALSE(WireSize::read(text).ok()) << text;
}

TEST(WireSize, NamesOfTheTables) {
  EXPECT_EQ(WireSize::from_table("10")->print(), "10 AWG");
  EXPECT_EQ(WireSize::from_table("4/0")->print(), "4/0 AWG");
  EXPECT_EQ(WireSize::from_table("250")->print(), "250 kcmil");
  EXPECT_EQ(WireSize::from_table("6 mm²")->print(), "6 mm²");
  EXPECT_EQ(WireSize::from_table("10 AWG"), std::nullopt);
  EXPECT_EQ(WireSize::from_table(""), std::nullopt);
  EXPECT_FALSE(WireSize().known());
}

TEST(WireSize, EveryListIsOrderedAndReadsBack) {
  for (const auto* list : {&WireSize::american(), &WireSize::metric_series()}) {
    for (std::size_t i = 0; i < list->size(); ++i) {
      const WireSize& size = (*list)[i];
      if (i > 0) {
        EXPECT_LT((*list)[i - 1], size);
      }
      EXPECT_EQ(WireSize::read(size.print()).value(), size);
      EXPECT_EQ(WireSize::from_table(size.table_name()), size);
    }
  }
  EXPECT_EQ(WireSize::american().size(), 30U);
  EXPECT_TRUE(WireSize::read("6 mm²")->metric());
  EXPECT_LT(WireSize::read("10 AWG").value(), WireSize::read("6 mm²").value());  // 5.26 mm²
  EXPECT_GT(WireSize::read("8 AWG").value(), WireSize::read("6 mm²").value());
}

TEST(WireSize, AreasAgreeWithThePrintedTable) {
  std::ifstream file(std::string(STRINGWRIGHT_SOURCE_DIR) + "/cases/tables/conductor_sizes.csv");
  ASSERT_TRUE(file.good());
  int rows = 0;
  bool header = true;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (std::exchange(header, false)) continue;
    const auto cells = text::csv_row(line);
    ASSERT_EQ(cells.size(), 3U) << line;
    const auto size = WireSize::from_table(cells[0]);
    ASSERT_TRUE(size) << line;
    // 18 AWG is printed as 1620 and is 1624: the table rounds down to tens.
    const double printed = std::stod(cells[1]);
    EXPECT_NEAR(circular_mils(size->area()), printed, 0.003 * printed) << line;
    if (!cells[2].empty()) {
      const double diameter = std::sqrt(size->area().in(square_inches) * 4 / pi);
      EXPECT_NEAR(diameter, std::stod(cells[2]), 0.0005) << line;
    }
    ++rows;
  }
  EXPECT_GT(rows, 20);
}

// Defining points of the gauge, ASTM B258 (from memory): 36 AWG is 0.0050 in, 4/0 is 0.4600 in.
TEST(WireSize, FourAughtIsFortySixHundredthsOfAnInch) {
  const Area a = WireSize::from_table("4/0")->area();
  EXPECT_NEAR(std::sqrt(a.in(square_inches) * 4 / pi), 0.46, 1e-12);
}

TEST(TradeSize, ReadsAndOrders) {
  const std::vector<std::pair<const char*, const char*>> written{
      {"3/4 in", "3/4"},  {"1-1/4 in", "1-1/4"}, {"1 1/4 in", "1-1/4"},
      {"1¼ in", "1-1/4"}, {"1 in", "1"},         {"3/4", "3/4"},
      {"2\"", "2"},       {"½ inch", "1/2"},     {"6 in", "6"},
  };
  for (const auto& [text, expected] : written) {
    const auto size = TradeSize::read(text);
    ASSERT_TRUE(size.ok()) << text << ": " << size.failure().message;
    EXPECT_EQ(size->table_name(), expected) << text;
  }
  EXPECT_EQ(TradeSize::read("1 1/4 in")->print(), "1-1/4 in");
  for (std::size_t i = 1; i < TradeSize::all().size(); ++i)
    EXPECT_LT(TradeSize::all()[i - 1], TradeSize::all()[i]);
  for (const auto& size : TradeSize::all()) EXPECT_EQ(TradeSize::read(size.print()).value(), size);
  EXPECT_EQ(TradeSize::read("7/8 in").failure().message,
            "'7/8 in' is not a trade size; allowed, in inches: 3/8, 1/2, 3/4, 1, 1-1/4, 1-1/2, 2, "
            "2-1/2, 3, "
            "3-1/2, 4, 5, 6");
  for (const auto text : {"", "in", "20 mm", "1 1/4 ft", "-1 in"})
    EXPECT_FALSE(TradeSize::read(text).ok()) << text;
}

TEST(Wire, ReadsWhatPeopleWrite) {
  const std::vector<std::pair<const char*, const char*>> written{
      {"10 AWG Cu PV", "10 AWG Cu PV"},
      {"6 AWG Cu XHHW-2", "6 AWG Cu XHHW-2"},
      {"500 kcmil Al XHHW-2", "500 kcmil Al XHHW-2"},
      {"#10 copper thwn-2", "10 AWG Cu THWN-2"},
      {"1/0 AWG aluminum USE-2", "1/0 AWG Al USE-2"},
      {"6 mm2 aluminium", "6 mm² Al"},
      {"10 AWG bare Cu", "10 AWG bare Cu"},
      {"10 AWG Cu bare", "10 AWG bare Cu"},
      {"10 AWG Cu PV wire", "10 AWG Cu PV"},
      {"12 AWG Cu", "12 AWG Cu"},
  };
  for (const auto& [text, expected] : written) {
    const auto wire = Wire::read(text);
    ASSERT_TRUE(wire.ok()) << text << ": " << wire.failure().message;
    EXPECT_EQ(wire->print(), expected) << text;
    EXPECT_EQ(Wire::read(wire->print()).value(), wire.value()) << text;
  }
  EXPECT_EQ(Wire::read("12 AWG Cu")->insulation, "");
  EXPECT_EQ(Wire::read("12 AWG bare Al")->insulation, "bare");
}

TEST(Wire, RefusesWithAWayOut) {
  EXPECT_EQ(Wire::read("10 AWG Cu XHW-2").failure().message,
            "unknown insulation type 'XHW-2' in '10 AWG Cu XHW-2'; allowed: PV, USE-2, RHW-2, "
            "XHHW-2, XHHW, "
            "THWN-2, THWN, THHN, RHH, XLPE, PVC, bare; did you mean 'XHHW-2'?");
  EXPECT_EQ(
      Wire::read("10 AWG PV").failure().message,
      "'10 AWG PV' does not say the metal; write Cu or Al after the size, such as '10 AWG Cu PV'");
  EXPECT_EQ(Wire::read("10 Cu PV").failure().id, "units.unknown-size");
  EXPECT_EQ(Wire::read("10 AWG bare Cu PV").failure().id, "units.unknown-insulation");
  for (const auto text : {"", "Cu", "Cu 10 AWG", "10 AWG Cu Al", "10 AWG Cu PV XHHW-2"})
    EXPECT_FALSE(Wire::read(text).ok()) << text;
}

RC_GTEST_PROP(Wire, AnyMixtureOfWordsIsAnAnswer, ()) {
  static const std::vector<std::string> pieces{
      "10", "AWG",  "#",      "4/0", "250", "kcmil",  "mm²", "Cu", "Al", "bare",
      "PV", "wire", "XHHW-2", " ",   " ",   "\u00A0", "½",   "-",  "in", "\xC2"};
  const std::string written =
      text::join(*rc::gen::container<std::vector<std::string>>(rc::gen::elementOf(pieces)), "");
  const auto wire = Wire::read(written);
  if (wire.ok()) RC_ASSERT(Wire::read(wire->print()).value() == wire.value());
  if (!wire.ok()) RC_ASSERT(text::printable(wire.failure().message) == wire.failure().message);
  (void)WireSize::read(written);
  (void)TradeSize::read(written);
}

RC_GTEST_PROP(Wire, AnyBytesAreAnAnswer, (const std::string& bytes)) {
  RC_ASSERT(!Wire::read(bytes).ok());
  (void)WireSize::read(bytes);
  (void)TradeSize::read(bytes);
}

}  // namespace
}  // namespace stringwright::units
