#include "design/cuts/cutting_stock.hpp"

#include <algorithm>
#include <functional>
#include <random>

#include <gtest/gtest.h>

#include "design/milp.hpp"

// The published instances are cases of kind cutting_stock: cases/published, run by run-cases.
namespace stringwright::design {
namespace {

void expect_cuts_all(const CuttingPlan& plan, const std::vector<StockLength>& stock,
                     const std::vector<CutDemand>& demand) {
  std::vector<int> cut(demand.size());
  std::int64_t cost = 0;
  for (const auto& p : plan.patterns) {
    std::int64_t used = 0;
    for (std::size_t d = 0; d < demand.size(); ++d) {
      used += p.count[d] * demand[d].length;
      cut[d] += p.times * p.count[d];
    }
    EXPECT_LE(used, stock[static_cast<std::size_t>(p.stock)].length);
    cost += p.times * stock[static_cast<std::size_t>(p.stock)].cost;
  }
  for (std::size_t d = 0; d < demand.size(); ++d) EXPECT_GE(cut[d], demand[d].count);
  EXPECT_EQ(cost, plan.cost);
}

/// Every pattern there is, in one integer program: nothing of our bounds or columns in it.
double by_all_patterns(const std::vector<StockLength>& stock,
                       const std::vector<CutDemand>& demand) {
  Program p;
  for (const auto& d : demand) p.at_least.push_back(d.count);
  for (const auto& s : stock) {
    std::vector<int> count(demand.size());
    const std::function<void(std::size_t, std::int64_t)> list = [&](std::size_t d,
                                                                    std::int64_t room) {
      if (d == demand.size()) {
        Program::Column c;
        c.cost = static_cast<double>(s.cost);
        for (std::size_t k = 0; k < demand.size(); ++k)
          if (count[k]) c.entries.emplace_back(static_cast<int>(k), count[k]);
        if (!c.entries.empty()) p.columns.push_back(c);
        return;
      }
      for (int n = 0; n <= demand[d].count && n * demand[d].length <= room; ++n) {
        count[d] = n;
        list(d + 1, room - n * demand[d].length);
      }
      count[d] = 0;
    };
    list(0, s.length);
  }
  const auto answer = solve_integer(p, 1e30, 100'000);
  EXPECT_TRUE(answer.best && answer.proved);
  return answer.best ? answer.best->value : -1;
}

TEST(CuttingStock, AgreesWithAnIntegerProgramOverAllPatterns) {
  std::mt19937 random(3);
  std::uniform_int_distribution<int> kinds(1, 6), piece(15, 95), count(1, 6), stocks(1, 3),
      extra(100, 180), price(1, 9);
  for (int round = 0; round < 60; ++round) {
    std::vector<StockLength> stock;
    const int lengths = stocks(random);
    for (int s = 0; s < lengths; ++s)
      stock.push_back({extra(random), lengths == 1 ? 1 : price(random)});
    std::vector<CutDemand> demand;
    const int different = kinds(random);
    for (int d = 0; d < different; ++d) demand.push_back({piece(random), count(random)});
    const auto plan = cut_stock(stock, demand);
    ASSERT_TRUE(plan.possible);
    expect_cuts_all(plan, stock, demand);
    EXPECT_TRUE(plan.proved()) << "round " << round;
    EXPECT_NEAR(static_cast<double>(plan.cost), by_all_patterns(stock, demand), 1e-6)
        << "round " << round;
  }
}

TEST(CuttingStock, SaysWhatCannotBeCut) {
  EXPECT_FALSE(cut_stock({{100, 1}}, {{101, 1}}).possible);
  EXPECT_FALSE(cut_stock({}, {{1, 1}}).possible);
  const auto nothing = cut_stock({{100, 1}}, {{50, 0}});
  EXPECT_TRUE(nothing.possible && nothing.patterns.empty() && nothing.proved());
}

TEST(CuttingStock, PatternsFollowTheCallersList) {
  const auto plan = cut_stock({{100, 1}}, {{50, 0}, {40, 3}});
  ASSERT_EQ(plan.cost, 2);
  for (const auto& p : plan.patterns) {
    ASSERT_EQ(p.count.size(), 2u);
    EXPECT_EQ(p.count[0], 0);
  }
}

}  // namespace
}  // namespace stringwright::design
