// Dimensions of raceways and wires against the counts of Annex C, and tables against their physics.
#include "codebook/raceways.hpp"

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <fstream>
#include <iterator>
#include <string>

#include "codebook/methods/fill.hpp"
#include "codebook/tables/csv.hpp"

namespace stringwright::codebook {
namespace {

Edition edition() { return Edition::open("nec_2023").value(); }

std::string file(const std::string& name) {
  std::ifstream in(std::string(STRINGWRIGHT_SOURCE_DIR) + "/" + name, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

// Source of the counts: NFPA 70, Annex C, tables C.1, C.9, C.10 (status per row in the file).
TEST(Raceways, CountsOfAnnexC) {
  const auto csv = tables::Csv::read(file("cases/tables/conduit_fill_annex_c.csv"));
  ASSERT_TRUE(csv) << csv.failure().message;
  constexpr std::array columns{std::pair{"c_1_2", "1/2"},     std::pair{"c_3_4", "3/4"},
                               std::pair{"c_1", "1"},         std::pair{"c_1_1_4", "1-1/4"},
                               std::pair{"c_1_1_2", "1-1/2"}, std::pair{"c_2", "2"},
                               std::pair{"c_2_1_2", "2-1/2"}, std::pair{"c_3", "3"},
                               std::pair{"c_3_1_2", "3-1/2"}, std::pair{"c_4", "4"}};
  int checked = 0;
  for (std::size_t i = 0; i < csv->size(); ++i) {
    const std::string& types = csv->text(i, "insulation");
    units::Wire wire;
    wire.size = units::WireSize::from_table(csv->text(i, "size")).value();
    wire.insulation = types.rfind("THHN", 0) == 0   ? "THWN-2"
                      : types.rfind("XHHW", 0) == 0 ? "XHHW-2"
                                                    : "RHW-2";
    const auto each = wire_area(edition(), wire);
    ASSERT_TRUE(each.value) << each.why;
    for (const auto& [column, size] : columns) {
      const auto count = csv->number(i, column);
      if (!count) continue;
      const auto inside =
          raceway_inside(edition(), csv->text(i, "type"), units::TradeSize::read(size).value());
      ASSERT_TRUE(inside.value) << inside.why;
      EXPECT_EQ(most_wires(edition(), *inside.value, *each.value), static_cast<int>(*count))
          << csv->text(i, "type") << " " << size << " " << wire.print();
      ++checked;
    }
  }
  EXPECT_GE(checked, 350);
}

TEST(Raceways, AreaOfAWireFollowsItsDiameter) {
  int checked = 0;
  for (const auto* insulation : {"THWN-2", "XHHW-2", "RHW-2", "USE-2", "PV"})
    for (const auto& size : units::WireSize::american()) {
      const units::Wire wire{size, units::Metal::copper, insulation};
      const auto area = wire_area(edition(), wire);
      const auto od = wire_outside(edition(), wire);
      EXPECT_EQ(area.value.has_value(), od.value.has_value());
      if (!area.value) continue;
      const double circle = 3.14159265358979 / 4 * std::pow(od.value->in(units::inches), 2);
      EXPECT_NEAR(area.value->in(units::square_inches), circle, 0.0017) << wire.print();
      ++checked;
    }
  EXPECT_GE(checked, 80);
}

TEST(Raceways, SupportsAndBendsGrowWithSize) {
  for (const auto* method : {"EMT", "RMC", "IMC", "PVC40", "PVC80", "LFMC", "FMC"}) {
    units::Length before;
    for (const auto* name : {"1/2", "3/4", "1", "1-1/4", "1-1/2", "2"}) {
      const auto size = units::TradeSize::read(name).value();
      const auto support = raceway_support(edition(), method, size);
      ASSERT_TRUE(support.spacing.value) << method << " " << name;
      EXPECT_TRUE(support.from_box.value);
      EXPECT_GE(support.spacing.value->si(), before.si());
      before = *support.spacing.value;
      EXPECT_TRUE(bend_radius(edition(), size).value);
      EXPECT_TRUE(raceway_inside(edition(), method, size).value);
    }
  }
  EXPECT_FALSE(raceway_inside(edition(), "HDPE", units::TradeSize::read("1").value()).value);
}

// I ∝ sqrt(rise / resistance): 125 °C over 105 °C by about 8 % in every row from 14 AWG up.
TEST(HotWire, ColumnsAndFactorsFollowTheirPhysics) {
  for (const auto* name : {"14", "12", "10", "8", "6", "4", "2", "1/0", "4/0"}) {
    const auto size = units::WireSize::from_table(name).value();
    const auto at_105 = hot_ampacity(edition(), size, units::celsius(105));
    const auto at_125 = hot_ampacity(edition(), size, units::celsius(125));
    ASSERT_TRUE(at_105.value && at_125.value) << name;
    EXPECT_NEAR((*at_125.value / *at_105.value).in(units::plain), 1.08, 0.015) << name;
    const auto at_90 = edition().ampacity(size, units::Metal::copper, units::celsius(90));
    EXPECT_GT(at_105.value->si(), at_90.value->si());
  }
  for (const double rating : {105.0, 125.0})
    for (double t = 35; t < rating - 4; t += 5) {
      const auto k = hot_ambient_factor(edition(), units::celsius(t), units::celsius(rating));
      ASSERT_TRUE(k.value) << t;
      EXPECT_NEAR(k.value->in(units::plain), std::sqrt((rating - t) / (rating - 30)), 0.009) << t;
    }
  EXPECT_FALSE(hot_ambient_factor(edition(), units::celsius(106), units::celsius(105)).value);
  EXPECT_FALSE(hot_ampacity(Edition::open("nec_2017").value(),
                            units::WireSize::from_table("10").value(), units::celsius(105))
                   .value);
}

}  // namespace
}  // namespace stringwright::codebook
