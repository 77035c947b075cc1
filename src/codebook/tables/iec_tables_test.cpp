// Tables of the IEC family against physics, arithmetic and cells seen in print.
#include "codebook/iec_tables.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "codebook/methods/iec.hpp"

namespace stringwright::codebook {
namespace {

using units::amps;
using units::celsius;
using units::Metal;
using units::WireSize;

Edition iec_2023() { return Edition::open("iec_2023").value(); }
WireSize mm2(const std::string& s) { return WireSize::from_table(s + " mm²").value(); }

const char* const sizes[] = {"1.5", "2.5", "4",  "6",   "10",  "16",  "25", "35",
                             "50",  "70",  "95", "120", "150", "185", "240"};

double capacity(const char* s, std::string_view method, double column) {
  return iec::cable_capacity(iec_2023(), mm2(s), Metal::copper, method, celsius(column))
      .value->in(amps);
}

// Public reprints of the British national tables 4D1A and 4E1A, method B, two conductors.
TEST(IecTables, CapacitiesSeenInPrint) {
  EXPECT_EQ(capacity("2.5", "b1", 70), 24);
  EXPECT_EQ(capacity("4", "b1", 70), 32);
  EXPECT_EQ(capacity("10", "b1", 90), 75);
  EXPECT_EQ(capacity("95", "b1", 70), 232);
  EXPECT_EQ(capacity("240", "b1", 90), 528);
}

TEST(IecTables, CapacityRisesWithSizeHeatAndAir) {
  const char* smaller = nullptr;
  for (const char* s : sizes) {
    for (const char* method : {"b1", "c", "e"}) {
      EXPECT_LT(capacity(s, method, 70), capacity(s, method, 90)) << s << method;
      if (smaller) {
        EXPECT_LT(capacity(smaller, method, 70), capacity(s, method, 70)) << s << method;
        EXPECT_LT(capacity(smaller, method, 90), capacity(s, method, 90)) << s << method;
      }
    }
    EXPECT_LT(capacity(s, "b1", 90), capacity(s, "c", 90)) << s;
    smaller = s;
  }
}

// Heat balance: sqrt((Tc − Ta)/(Tc − 30 °C)).
TEST(IecTables, AmbientFactorsAreTheHeatBalance) {
  for (const double column : {70.0, 90.0})
    for (double t = 10; t < column - 5; t += 5) {
      const auto k = iec::ambient_factor(iec_2023(), celsius(t), celsius(column));
      if (!k.value) continue;
      EXPECT_NEAR(k.value->in(units::plain), std::sqrt((column - t) / (column - 30)), 0.0065)
          << t << " " << column;
    }
  EXPECT_FALSE(iec::ambient_factor(iec_2023(), celsius(61), celsius(70)).value);
  // Between two rows the hotter one holds.
  EXPECT_EQ(iec::ambient_factor(iec_2023(), celsius(41), celsius(90)).value->in(units::plain),
            0.87);
}

TEST(IecTables, PvCableTakesTheSmallerOfTwoFactors) {
  for (const double t : {70.0, 80.0, 90.0})
    EXPECT_LE(iec::pv_cable_factor(iec_2023(), celsius(t)).value->in(units::plain),
              std::sqrt((120 - t) / 60) + 0.005)
        << t;
  EXPECT_EQ(iec::pv_cable_factor(iec_2023(), celsius(60)).value->in(units::plain), 1.0);
  EXPECT_FALSE(iec::pv_cable_factor(iec_2023(), celsius(91)).value);
  EXPECT_EQ(iec::pv_cable_capacity(iec_2023(), mm2("4"), "two_touching").value->in(amps), 44);
}

TEST(IecTables, GroupingFallsWithTheCount) {
  for (const char* how : {"bunched", "surface", "tray", "ladder"}) {
    double before = 1.01;
    for (int n = 1; n <= 20; ++n) {
      const double k = iec::grouping_factor(iec_2023(), how, n).value->in(units::plain);
      EXPECT_LE(k, before) << how << n;
      before = k;
    }
  }
  EXPECT_EQ(iec::grouping_factor(iec_2023(), "bunched", 10).value->in(units::plain), 0.45);
  EXPECT_FALSE(iec::grouping_factor(iec_2023(), "bunched", 21).value);
}

// 17.241 Ω·mm²/km is annealed copper at 20 °C; the maxima allow for lay, tin and area.
TEST(IecTables, ResistancesLieAboveThoseOfCopper) {
  for (const char* s : sizes) {
    const auto r = iec::resistance_at_20(iec_2023(), mm2(s), Metal::copper);
    const double ideal = 17.241 / mm2(s).area().in(units::square_millimetres);
    EXPECT_GT(r.value->in(units::ohms_per_kilometre), 1.03 * ideal) << s;
    EXPECT_LT(r.value->in(units::ohms_per_kilometre), 1.30 * ideal) << s;
  }
  // 4 mm² at 75 °C: 5.09 · (1 + 0.00393 · 55).
  EXPECT_NEAR(iec_2023()
                  .resistance(mm2("4"), Metal::copper, celsius(75))
                  .value->in(units::ohms_per_kilometre),
              5.09 * (1 + 0.00393 * 55), 1e-9);
}

TEST(IecTables, ProtectiveConductorsByTheThreeRows) {
  const auto least = [](const char* s) {
    return iec::protective_conductor(iec_2023(), mm2(s)).value->in(units::square_millimetres);
  };
  EXPECT_DOUBLE_EQ(least("10"), 10);
  EXPECT_DOUBLE_EQ(least("16"), 16);
  EXPECT_DOUBLE_EQ(least("25"), 16);
  EXPECT_DOUBLE_EQ(least("35"), 16);
  EXPECT_DOUBLE_EQ(least("70"), 35);
}

// No table of one family answers for sizes of the other.
TEST(Families, TablesDoNotMix) {
  const WireSize ten = WireSize::from_table("10").value();
  EXPECT_FALSE(iec::cable_capacity(iec_2023(), ten, Metal::copper, "b1", celsius(70)).value);
  EXPECT_FALSE(iec_2023().ampacity(ten, Metal::copper, celsius(75)).value);
  EXPECT_FALSE(iec_2023().resistance(ten, Metal::copper, celsius(75)).value);
  EXPECT_FALSE(iec_2023().cold_voltage_factor(celsius(-20)).value);
  const auto nec = Edition::open("nec_2023").value();
  EXPECT_FALSE(nec.ampacity(mm2("6"), Metal::copper, celsius(75)).value);
  EXPECT_FALSE(nec.resistance(mm2("6"), Metal::copper, celsius(75)).value);
  EXPECT_EQ(nec.standard_rating_at_least(amps(31)).value->in(amps), 35);
  EXPECT_EQ(iec_2023().standard_rating_at_least(amps(31)).value->in(amps), 32);
}

}  // namespace
}  // namespace stringwright::codebook
