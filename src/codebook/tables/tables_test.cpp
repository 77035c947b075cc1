// Tables against physics, arithmetic and cells seen in print. Cells are written out here from the
// public reprints that the head of each CSV names, not copied from what we printed.
#include <gtest/gtest.h>

#include <cmath>
#include <string>
#include <vector>

#include <rapidcheck/gtest.h>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"

namespace stringwright::codebook {
namespace {

using units::amps;
using units::celsius;
using units::Metal;
using units::WireSize;

Edition edition(std::string_view id) { return Edition::open_any(id).value(); }
Edition newest() { return edition("nec_2023"); }
WireSize size(std::string_view name) { return WireSize::from_table(name).value(); }

/// Sizes that the ampacity tables list for both metals.
std::vector<WireSize> listed_sizes() {
  std::vector<WireSize> all;
  for (const auto& s : WireSize::american())
    if (newest().ampacity(s, Metal::aluminium, celsius(75)).value) all.push_back(s);
  return all;
}

double ampacity(std::string_view id, std::string_view name, Metal metal, double column) {
  return edition(id).ampacity(size(name), metal, celsius(column)).value.value_or(amps(-1)).in(amps);
}

TEST(Editions, OfferedOnesOpenAndOthersAreRefusedWithAList) {
  EXPECT_EQ(Edition::offered(),
            (std::vector<std::string>{"nec_2014", "nec_2017", "nec_2020", "nec_2023", "iec_2023"}));
  for (const auto& id : Edition::offered()) EXPECT_EQ(Edition::open(id).value().id(), id);
  const auto refused = Edition::open("nec_2011");
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.failure().id, "codebook.unknown-edition");
  EXPECT_NE(refused.failure().message.find("nec_2014, nec_2017, nec_2020, nec_2023"),
            std::string::npos);
  EXPECT_EQ(newest().name(), "NEC 2023");
  EXPECT_EQ(newest().title(), "NFPA 70-2023");
}

TEST(Editions, CitationsFollowTheEdition) {
  EXPECT_EQ(edition("nec_2017").cite("table.raceway").cite, "NFPA 70-2017, Table 310.15(B)(16)");
  EXPECT_EQ(edition("nec_2020").cite("table.raceway").cite, "NFPA 70-2020, Table 310.16");
  EXPECT_EQ(edition("nec_2020").cite("table.ambient").cite, "NFPA 70-2020, Table 310.15(B)(1)");
  EXPECT_EQ(edition("nec_2023").cite("table.ambient").cite, "NFPA 70-2023, Table 310.15(B)(1)(1)");
  EXPECT_EQ(edition("nec_2014").cite("current.string").cite, "NFPA 70-2014, 690.8(A)(1)");
  EXPECT_EQ(edition("nec_2017").cite("current.string").cite, "NFPA 70-2017, 690.8(A)(1)(1)");
}

TEST(Csv, RefusesWhatIsNoTable) {
  using tables::Csv;
  EXPECT_FALSE(Csv::read(""));
  EXPECT_FALSE(Csv::read("# only a comment\n"));
  EXPECT_FALSE(Csv::read("a,b\n1\n"));
  EXPECT_FALSE(Csv::read("a,b\n1,2,3\n"));
  EXPECT_FALSE(Csv::read("a,a\n1,2\n"));
  const auto csv = Csv::read("# head\na,b\n\n1,\"x, y\"\n");
  ASSERT_TRUE(csv);
  EXPECT_EQ(csv->size(), 1U);
  EXPECT_EQ(csv->text(0, "b"), "x, y");
  EXPECT_EQ(csv->number(0, "a"), 1.0);
}

// AWG sizes are circles of 0.005 in · 92^((36 − n)/39): WireSize::area is that formula. The printed
// circular mils are rounded to three or four digits.
TEST(WireSizes, CircularMilsFollowTheDiameterFormula) {
  for (const auto& s : WireSize::american()) {
    const auto printed = newest().circular_mils(s);
    if (!printed.value) continue;
    EXPECT_NEAR(*printed.value / s.area(), 1.0, 0.003) << s.print();
  }
}

// 100 % IACS copper, its temperature coefficient, and 2 % for the lay of the strands.
TEST(WireSizes, CopperResistanceIsThatOfCopper) {
  for (const auto& s : WireSize::american()) {
    const auto table = newest().resistance(s, Metal::copper, celsius(75));
    if (!table.value) continue;
    const auto physics = annealed_copper(newest(), s, celsius(75));
    EXPECT_NEAR(*table.value / *physics.value, 1.02, 0.0075) << s.print();
  }
}

// 61 % IACS aluminium at 75 °C: 17.002 · (1 + 0.00403 · 55) against 10.371 · (1 + 0.00393 · 55).
TEST(WireSizes, AluminiumResistsMoreByTheRatioOfResistivities) {
  const double expected = 17.002 * (1 + 0.00403 * 55) / (10.371 * (1 + 0.00393 * 55));
  for (const auto& s : WireSize::american()) {
    const auto cu = newest().resistance(s, Metal::copper, celsius(75));
    const auto al = newest().resistance(s, Metal::aluminium, celsius(75));
    if (cu.value) {
      EXPECT_NEAR(*al.value / *cu.value, expected, 0.012 * expected) << s.print();
    }
  }
}

TEST(WireSizes, ResistanceAtOtherTemperatures) {
  const auto r = [](double t) {
    return newest()
        .resistance(size("10"), Metal::copper, celsius(t))
        .value->in(units::ohms_per_thousand_feet);
  };
  EXPECT_NEAR(r(75), 1.24, 1e-9);
  EXPECT_NEAR(r(20), 1.24 * (1 - 0.00323 * 55), 1e-9);
  // The constant of the note and the coefficient at 20 °C agree: 1/0.00323 − 75 = 1/0.00393 − 20.
  EXPECT_NEAR(1 / 0.00323 - 75, 1 / 0.00393 - 20, 1.0);
}

TEST(Ampacity, CellsSeenInPrint) {
  EXPECT_EQ(ampacity("nec_2023", "14", Metal::copper, 75), 20);
  EXPECT_EQ(ampacity("nec_2023", "10", Metal::copper, 60), 30);
  EXPECT_EQ(ampacity("nec_2023", "10", Metal::copper, 75), 35);
  EXPECT_EQ(ampacity("nec_2023", "10", Metal::copper, 90), 40);
  EXPECT_EQ(ampacity("nec_2023", "6", Metal::copper, 75), 65);
  EXPECT_EQ(ampacity("nec_2023", "4/0", Metal::aluminium, 75), 180);
  EXPECT_EQ(ampacity("nec_2023", "500", Metal::copper, 75), 380);
}

TEST(Ampacity, TheOlderTableDiffersInItsOwnCells) {
  EXPECT_EQ(ampacity("nec_2008", "12", Metal::copper, 60), 25);
  EXPECT_EQ(ampacity("nec_2011", "12", Metal::copper, 60), 20);
  EXPECT_EQ(ampacity("nec_2008", "3", Metal::copper, 90), 110);
  EXPECT_EQ(ampacity("nec_2023", "3", Metal::copper, 90), 115);
  EXPECT_EQ(ampacity("nec_2008", "10", Metal::copper, 75),
            ampacity("nec_2023", "10", Metal::copper, 75));
}

TEST(Ampacity, RisesWithSizeAndTemperatureAndCopperCarriesMore) {
  const Edition e = newest();
  for (const bool open : {false, true}) {
    const auto look = [&](const WireSize& s, Metal m, double t) {
      return open ? e.ampacity_free_air(s, m, celsius(t)).value
                  : e.ampacity(s, m, celsius(t)).value;
    };
    std::optional<WireSize> smaller;
    for (const auto& s : listed_sizes()) {
      for (double t : {60.0, 75.0, 90.0}) {
        EXPECT_LT(*look(s, Metal::aluminium, t), *look(s, Metal::copper, t)) << s.print();
        if (t > 60) {
          EXPECT_LT(*look(s, Metal::copper, t - 15), *look(s, Metal::copper, t)) << s.print();
        }
        if (smaller) {
          EXPECT_LT(*look(*smaller, Metal::copper, t), *look(s, Metal::copper, t)) << s.print();
        }
        if (smaller) {
          EXPECT_LT(*look(*smaller, Metal::aluminium, t), *look(s, Metal::aluminium, t))
              << s.print();
        }
      }
      smaller = s;
    }
  }
}

TEST(Ampacity, OpenAirCarriesMoreThanARaceway) {
  for (const auto& s : listed_sizes())
    for (double t : {60.0, 75.0, 90.0})
      EXPECT_GT(*newest().ampacity_free_air(s, Metal::copper, celsius(t)).value,
                *newest().ampacity(s, Metal::copper, celsius(t)).value);
}

// Heat balance: I² · R(Tc) grows with Tc − 30 °C, so the columns stand in a fixed ratio. From 4 AWG up
// the rounding to 5 A is small enough to see it; 4 % is aluminium 4 AWG, a step of 5 A.
TEST(Ampacity, ColumnsOfTheOpenAirTableFollowTheHeatBalance) {
  const auto ratio = [](double t) {
    return std::sqrt((t - 30) / 45 * (1 / (1 + 0.00323 * (t - 75))));
  };
  for (const auto& s : listed_sizes()) {
    if (s < size("4")) continue;
    for (Metal m : {Metal::copper, Metal::aluminium}) {
      const double i75 = newest().ampacity_free_air(s, m, celsius(75)).value->in(amps);
      EXPECT_NEAR(newest().ampacity_free_air(s, m, celsius(60)).value->in(amps) / i75, ratio(60),
                  0.04)
          << s.print();
      EXPECT_NEAR(newest().ampacity_free_air(s, m, celsius(90)).value->in(amps) / i75, ratio(90),
                  0.04)
          << s.print();
    }
  }
}

TEST(Ampacity, SaysWhyThereIsNone) {
  EXPECT_EQ(newest().ampacity(size("6 mm²"), Metal::copper, celsius(75)).why,
            "the table lists AWG and kcmil sizes, not 6 mm²");
  EXPECT_EQ(newest().ampacity(size("10"), Metal::copper, celsius(85)).why,
            "the table has columns for 60, 75 and 90 °C, not 85 °C");
  EXPECT_EQ(newest().ampacity(size("14"), Metal::aluminium, celsius(75)).why,
            "the table has no value for 14 AWG Al, 75 °C column");
  EXPECT_FALSE(newest().ampacity(size("2000"), Metal::copper, celsius(75)).value);
}

// The section's own equation at the hot end of each band, rounded to two decimals.
TEST(Ambient, EveryCellIsTheEquationAtTheHotEnd) {
  for (double column : {60.0, 75.0, 90.0}) {
    for (int hot = 10; hot < column; hot += 5) {
      const auto table = newest().ambient_factor(celsius(hot), celsius(column));
      if (!table.value) continue;
      const auto equation = newest().ambient_factor_equation(celsius(hot), celsius(column));
      EXPECT_NEAR(*table.value, *equation.value, 0.0051) << hot << " " << column;
    }
  }
}

TEST(Ambient, BetweenTwoBandsTheHotterHolds) {
  const auto k = [](double t, double column) {
    return newest().ambient_factor(celsius(t), celsius(column)).value->in(units::plain);
  };
  EXPECT_EQ(k(30, 90), 1.00);
  EXPECT_EQ(k(30.5, 90), 0.96);
  EXPECT_EQ(k(35, 75), 0.94);
  EXPECT_EQ(k(-20, 75), 1.20);
  EXPECT_EQ(k(71, 90), 0.50);
  // 40 °C out of 104 °F is 40 °C.
  EXPECT_EQ(newest().ambient_factor(units::fahrenheit(104), celsius(90)).value->in(units::plain),
            0.91);
  EXPECT_NEAR(*newest().ambient_factor_equation(celsius(71), celsius(90)).value, 0.563, 0.0005);
}

TEST(Ambient, NoFactorWhereTheConductorMayNotBe) {
  EXPECT_EQ(newest().ambient_factor(celsius(56), celsius(60)).why,
            "conductors rated 60 °C may not be used at 56 °C");
  EXPECT_FALSE(newest().ambient_factor(celsius(86), celsius(90)).value);
  EXPECT_FALSE(newest().ambient_factor_equation(celsius(90), celsius(90)).value);
}

TEST(Ambient, TheOlderTableHasWiderBands) {
  const auto band = edition("nec_2008").ambient_band(celsius(65.2));
  ASSERT_TRUE(band);
  EXPECT_EQ(*band->low, celsius(61));
  EXPECT_EQ(band->high, celsius(70));
  EXPECT_EQ(*newest().ambient_band(celsius(65.2))->low, celsius(66));
}

TEST(Bundling, BandEdges) {
  const std::vector<std::pair<int, double>> cells{
      {1, 1.0},  {3, 1.0},   {4, 0.8},   {6, 0.8},  {7, 0.7},  {9, 0.7},   {10, 0.5},
      {20, 0.5}, {21, 0.45}, {30, 0.45}, {31, 0.4}, {40, 0.4}, {41, 0.35}, {100, 0.35}};
  for (const auto& [n, factor] : cells)
    EXPECT_DOUBLE_EQ(newest().bundling_factor(n).value->in(units::plain), factor) << n;
  EXPECT_FALSE(newest().bundling_factor(0).value);
}

// Worked array B beside the comparison of editions.
TEST(Rooftop, ByEditionAndHeight) {
  const auto adder = [](std::string_view id, units::Length h) {
    return edition(id).rooftop_adder(h, "THWN-2").value->in(units::kelvins);
  };
  EXPECT_EQ(adder("nec_2014", units::inches(0)), 33);
  EXPECT_EQ(adder("nec_2014", units::millimetres(19)), 22);
  EXPECT_EQ(adder("nec_2014", units::inches(1)), 22);
  EXPECT_EQ(adder("nec_2014", units::inches(4)), 17);
  EXPECT_EQ(adder("nec_2014", units::inches(36)), 14);
  EXPECT_EQ(adder("nec_2014", units::inches(37)), 0);
  for (const auto* id : {"nec_2017", "nec_2020"}) {
    EXPECT_EQ(adder(id, units::inches(0)), 33);
    EXPECT_EQ(adder(id, units::inches(0.75)), 33);
    EXPECT_EQ(adder(id, units::inches(0.875)), 0);  // only below
    EXPECT_EQ(adder(id, units::inches(1)), 0);
  }
  EXPECT_EQ(adder("nec_2023", units::inches(0.7)), 33);
  EXPECT_EQ(adder("nec_2023", units::inches(0.75)), 0);
  EXPECT_EQ(edition("nec_2017").rooftop_adder(units::inches(0), "XHHW-2").value->si(), 0);
}

TEST(ColdVoltage, BandsAndWhatLiesBetween) {
  const auto f = [](double t) {
    return newest()
        .cold_voltage_factor(celsius(t))
        .value.value_or(units::Ratio(-1))
        .in(units::plain);
  };
  EXPECT_EQ(f(25), 1.00);
  EXPECT_EQ(f(40), 1.00);
  EXPECT_EQ(f(24.5), 1.02);
  EXPECT_EQ(f(20), 1.02);
  EXPECT_EQ(f(-7), 1.14);
  EXPECT_EQ(f(-5.5), 1.14);
  EXPECT_EQ(f(-25), 1.20);
  EXPECT_EQ(f(-31), 1.23);
  EXPECT_EQ(f(-40), 1.25);
  EXPECT_EQ(f(-40.1), -1);
  EXPECT_EQ(newest().cold_voltage_factor(celsius(-41)).why,
            "the table ends at −40 °C; colder, the maker's data must be used");
}

// The coefficient that a band implies at its cold end is the classic one of silicon, a little steep.
TEST(ColdVoltage, ImpliesTheCoefficientOfSilicon) {
  for (int cold = 20; cold >= -40; cold -= 5) {
    const double factor = newest().cold_voltage_factor(celsius(cold)).value->in(units::plain);
    const double percent = (factor - 1) * 100 / (25 - cold);
    EXPECT_GE(percent, 0.375) << cold;
    EXPECT_LE(percent, 0.401) << cold;
  }
}

RC_GTEST_PROP(ColdVoltage, NeverFallsAsItGetsColder, ()) {
  const double t = *rc::gen::inRange(-3999, 4000) / 100.0;
  const double colder = t - *rc::gen::inRange(0, 100) / 100.0;
  const auto warm = newest().cold_voltage_factor(celsius(t));
  const auto cold = newest().cold_voltage_factor(celsius(colder));
  RC_PRE(warm.value && cold.value);
  RC_ASSERT(*cold.value >= *warm.value);
}

TEST(Ratings, NextAndLast) {
  const auto up = [](double i) {
    return newest().standard_rating_at_least(amps(i)).value->in(amps);
  };
  EXPECT_EQ(up(13.75), 15);
  EXPECT_EQ(up(15), 15);
  EXPECT_EQ(up(27.8125), 30);
  EXPECT_EQ(up(31.25), 35);
  EXPECT_EQ(up(145), 150);
  EXPECT_EQ(newest().standard_rating_at_most(amps(34)).value->in(amps), 30);
  EXPECT_FALSE(newest().standard_rating_at_least(amps(6001)).value);
  EXPECT_FALSE(newest().standard_rating_at_most(amps(0.5)).value);
}

RC_GTEST_PROP(Ratings, EncloseEveryCurrent, ()) {
  const auto i = amps(*rc::gen::inRange(100, 600000) / 100.0);
  const auto up = newest().standard_rating_at_least(i);
  const auto down = newest().standard_rating_at_most(i);
  RC_ASSERT(units::at_least(*up.value, i) && units::at_most(*down.value, i));
}

TEST(Ratings, SmallConductors) {
  EXPECT_EQ(newest().small_conductor_limit(size("14"), Metal::copper).value->in(amps), 15);
  EXPECT_EQ(newest().small_conductor_limit(size("12"), Metal::copper).value->in(amps), 20);
  EXPECT_EQ(newest().small_conductor_limit(size("10"), Metal::copper).value->in(amps), 30);
  EXPECT_EQ(newest().small_conductor_limit(size("10"), Metal::aluminium).value->in(amps), 25);
  EXPECT_FALSE(newest().small_conductor_limit(size("8"), Metal::copper).value);
}

TEST(Ground, GrowsWithTheDeviceAndAluminiumIsLarger) {
  std::optional<WireSize> before;
  for (double device :
       {15.0, 20.0, 30.0, 60.0, 100.0, 200.0, 300.0, 400.0, 500.0, 600.0, 800.0, 1000.0, 1200.0}) {
    const auto cu = newest().equipment_ground(amps(device), Metal::copper);
    const auto al = newest().equipment_ground(amps(device), Metal::aluminium);
    EXPECT_LT(*cu.value, *al.value) << device;
    if (before) {
      EXPECT_FALSE(*cu.value < *before) << device;
    }
    before = cu.value;
  }
  EXPECT_FALSE(newest().equipment_ground(amps(6001), Metal::copper).value);
}

TEST(Insulation, EveryTypeThatAJobMayNameIsListed) {
  for (const auto& type : units::insulation_types()) {
    if (type == "bare" || type == "XLPE" || type == "PVC") continue;  // the latter: IEC family
    EXPECT_TRUE(newest().insulation_rating_dry(type).value) << type;
  }
  EXPECT_EQ(*newest().insulation_rating("XHHW").value, celsius(75));
  EXPECT_EQ(*newest().insulation_rating("XHHW-2").value, celsius(90));
  EXPECT_EQ(*newest().insulation_rating("PV").value, celsius(90));
  EXPECT_EQ(newest().insulation_rating("THHN").why, "THHN may not be used in a wet place");
  EXPECT_EQ(newest().insulation_rating("").why, "the insulation type is not known");
  EXPECT_FALSE(newest().insulation_rating("bare").value);
}

TEST(Ceiling, ByPlaceAndEdition) {
  const auto v = [](std::string_view id, bool building, bool dwelling) {
    return edition(id).voltage_ceiling(building, dwelling).value->in(units::volts);
  };
  for (const auto& id : Edition::offered(Family::nec)) {
    EXPECT_EQ(v(id, true, true), 600);
    EXPECT_EQ(v(id, true, false), 1000);
    EXPECT_EQ(v(id, false, false), id == "nec_2014" ? 1000 : 1500) << id;
  }
}

}  // namespace
}  // namespace stringwright::codebook
