#include "design/cuts/assignment.hpp"

#include <algorithm>
#include <numeric>
#include <random>

#include <gtest/gtest.h>

#include "design/milp.hpp"

namespace stringwright::design {
namespace {

std::vector<std::vector<Cost>> random_costs(int n, std::mt19937& random, int most) {
  std::uniform_int_distribution<int> value(0, most), rarely(0, 3);
  std::vector<std::vector<Cost>> all(n, std::vector<Cost>(n));
  for (auto& row : all)
    for (auto& c : row)
      c = {rarely(random) ? 0 : value(random), rarely(random), value(random), rarely(random)};
  return all;
}

TEST(Assignment, IsTheBestOfAllPermutations) {
  std::mt19937 random(1);
  for (int round = 0; round < 200; ++round) {
    const int n = 1 + round % 7;
    const auto costs = random_costs(n, random, 12);
    std::vector<int> order(n);
    std::iota(order.begin(), order.end(), 0);
    Cost best{1 << 30, 0, 0, 0};
    do {
      Cost sum;
      for (int i = 0; i < n; ++i) sum = sum + costs[i][order[i]];
      best = std::min(best, sum);
    } while (std::next_permutation(order.begin(), order.end()));
    const auto answer = assign(n, [&](int i, int j) { return costs[i][j]; });
    EXPECT_EQ(answer.total, best) << "round " << round;
    EXPECT_TRUE(answer.proved);
    Cost sum;
    std::vector<bool> taken(n);
    for (int i = 0; i < n; ++i) {
      sum = sum + costs[i][answer.column_of[i]];
      EXPECT_FALSE(taken[answer.column_of[i]]);
      taken[answer.column_of[i]] = true;
    }
    EXPECT_EQ(sum, answer.total);
  }
}

// Against a general integer program, by CBC.
TEST(Assignment, AgreesWithAnIntegerProgram) {
  std::mt19937 random(2);
  for (int round = 0; round < 12; ++round) {
    const int n = 12 + round;
    auto costs = random_costs(n, random, 1000);
    for (auto& row : costs)
      for (auto& c : row) c.money = c.cables = c.shared = 0;
    Program p;
    // Each row and each column at least and at most once.
    p.at_least.assign(static_cast<std::size_t>(2 * n), 1);
    p.at_least.resize(static_cast<std::size_t>(4 * n), -1);
    for (int i = 0; i < n; ++i)
      for (int j = 0; j < n; ++j)
        p.columns.push_back({static_cast<double>(costs[i][j].length),
                             {{i, 1.0}, {n + j, 1.0}, {2 * n + i, -1.0}, {3 * n + j, -1.0}},
                             1});
    const auto milp = solve_integer(p, 1e30, 100'000);
    ASSERT_TRUE(milp.best && milp.proved);
    const auto answer = assign(n, [&](int i, int j) { return costs[i][j]; });
    EXPECT_NEAR(static_cast<double>(answer.total.length), milp.best->value, 1e-6);
    EXPECT_TRUE(answer.proved);
  }
}

TEST(Assignment, OfNothingCostsNothing) {
  const auto answer = assign(0, [](int, int) { return Cost{1, 1, 1, 1}; });
  EXPECT_EQ(answer.total, Cost{});
  EXPECT_TRUE(answer.proved);
}

}  // namespace
}  // namespace stringwright::design
