#include "design/cuts/cut_plan.hpp"

#include <cmath>
#include <map>
#include <random>
#include <set>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "design/milp.hpp"
#include "job/read.hpp"

namespace stringwright::design {
namespace {

using testing::HasSubstr;
using Ends = std::vector<std::pair<double, double>>;  ///< plus, minus [m]
using units::metres;

/// A job with strings of one module each, of the given end lengths; `more` is further text.
std::string job_text(const Ends& ends, const std::string& more, double tail = 0.75) {
  std::string s =
      "format = 1\njob = { name = \"Cuts\", edition = \"nec_2023\" }\n"
      "module.M = { v_oc = \"40 V\", v_mp = \"33 V\", i_sc = \"10 A\", i_mp = \"9.5 A\", family = "
      "\"K2\" }\n";
  s += fmt::format("row.R = {{ module = \"M\", count = {} }}\n[string]\n", ends.size());
  for (std::size_t i = 0; i < ends.size(); ++i)
    s += fmt::format(
        "S{0} = {{ walk = \"R.{0}\", lands = \"A.{0}\", plus_end = \"{1} m\", minus_end = \"{2} "
        "m\" }}\n",
        i + 1, ends[i].first, ends[i].second);
  s += fmt::format(
      "[box.A]\nhome_run = {{ wire = \"10 AWG Cu PV\", tail = \"{} m\" }}\nout = \"OUT\"\n"
      "[run.OUT]\nto = \"E.P\"\n[equipment.E]\nkind = \"inverter\"\ninput.P = {{}}\n",
      tail);
  return s + more;
}

std::string cables(const std::vector<double>& lengths, const std::string& prices = "") {
  std::string s;
  for (std::size_t i = 0; i < lengths.size(); ++i)
    s += fmt::format(
        "[part.C{}]\nkind = \"cable\"\nfamily = \"K2\"\nwire = \"10 AWG Cu PV\"\nlength = \"{} "
        "m\"\n{}",
        i, lengths[i], prices);
  return s;
}

const std::vector<double> stock{4.6, 9.1, 15.2, 30.5};

wiring::Wiring wired(const std::string& text) {
  const auto reading = job::read(text, "cuts.toml");
  for (const auto& d : reading.diagnostics)
    if (d.severity == Severity::error) ADD_FAILURE() << render(d, text);
  Diagnostics ignored;
  return wiring::build(reading.job.value(), ignored);
}

CutPlan plan_of(const Ends& ends, const std::vector<double>& lengths = stock,
                const CutOptions& options = {}) {
  return cut_plan(wired(job_text(ends, cables(lengths))), {}, options);
}

struct Expected {
  double need, stock, cut;
  bool half;
};

void expect_cables(const CutPlan& plan, const std::vector<Expected>& expected) {
  EXPECT_TRUE(plan.proved);
  EXPECT_TRUE(plan.cannot_tell.empty());
  ASSERT_EQ(plan.cables.size(), expected.size());
  for (std::size_t i = 0; i < expected.size(); ++i) {
    SCOPED_TRACE(i);
    const auto& c = plan.cables[i];
    ASSERT_TRUE(c.plus && c.minus);
    EXPECT_NEAR((c.plus->need + c.minus->need).in(metres), expected[i].need, 1e-9);
    EXPECT_NEAR(c.stock.in(metres), expected[i].stock, 1e-9);
    EXPECT_NEAR(c.cut.in(metres), expected[i].cut, 1e-9);
    EXPECT_EQ(*c.half_holds, expected[i].half);
  }
}

// Worked by hand: need = plus end + minus end + 2 tails of 0.75 m, the shortest stock that holds it, the
// spare shared by both pieces; in half where the longer piece is no longer than half the cable.
TEST(CutPlan, TwoStringsOfACabin) {
  const auto plan = plan_of({{1.2, 4.4}, {5.6, 2.4}}, stock, {.share = false});
  expect_cables(plan, {{7.1, 9.1, 2.95, false}, {9.5, 15.2, 9.2, true}});
  EXPECT_NEAR(plan.cables[0].half_short.in(metres), 0.60, 1e-9);
  EXPECT_EQ(plan.cables[0].half_short_tag, "S1−");
  ASSERT_FALSE(plan.advice.empty());
  EXPECT_THAT(plan.advice[0], HasSubstr("S2 misses the 9.10 m cable by 0.40 m"));
}

// The same two strings, halves exchanged: 1.95 + 3.15 and 6.35 + 5.15 take 9.1 and 15.2 m as well, so
// nothing is shared for nothing. Two strings of 1 + 1 and 8 + 8 m with stock of 10 and 20 m: crossed, both
// fit 10 m.
TEST(CutPlan, SharesOnlyWhereThatSaves) {
  for (const auto& c : plan_of({{1.2, 4.4}, {5.6, 2.4}}).cables) EXPECT_FALSE(c.shared());
  const auto saves = plan_of({{0.25, 0.25}, {7.25, 7.25}}, {10, 20});
  EXPECT_NEAR(saves.bought.in(metres), 20, 1e-9);
  ASSERT_EQ(saves.cables.size(), 2u);
  EXPECT_TRUE(saves.cables[0].shared() && saves.cables[1].shared());
  EXPECT_THAT(saves.advice.at(0), HasSubstr("saves 10.00 m"));
}

// 5.35 + 4.15 + 1.5 m out of 15.2 m, although 9.1 and 4.6 m would be less cable: one cable, two plugs.
TEST(CutPlan, OneCableForAStringWhereItReaches) {
  const auto plan = plan_of({{5.6, 2.4}});
  ASSERT_EQ(plan.cables.size(), 1u);
  EXPECT_NEAR(plan.bought.in(metres), 15.2, 1e-9);
}

TEST(CutPlan, FourStringsOfARoof) {
  const auto plan =
      plan_of({{2.0, 7.4}, {2.6, 8.0}, {9.5, 14.9}, {10.1, 15.5}}, stock, {.share = false});
  expect_cables(plan, {{10.9, 15.2, 4.9, false},
                       {12.1, 15.2, 4.9, false},
                       {25.9, 30.5, 12.55, false},
                       {27.1, 30.5, 12.55, false}});
}

TEST(CutPlan, AWellPumpIsLeftWithoutADripLoop) {
  const auto plan = plan_of({{1.8, 9.4}, {3.0, 10.6}}, stock, {.share = false});
  expect_cables(plan, {{12.7, 15.2, 3.8, false}, {15.1, 15.2, 3.8, false}});
  EXPECT_THAT(plan.cables[1].flags, testing::Contains(HasSubstr("no room for a drip loop")));
  EXPECT_THAT(plan.cables[0].flags, testing::Not(testing::Contains(HasSubstr("drip loop"))));
}

// Needs of 31.1 to 37.7 m outrun 30.5 m of cable.
TEST(CutPlan, FarStringsOutrunTheLongestCable) {
  const Ends ends{{3.0, 15.4}, {4.1, 16.5}, {5.2, 17.6},  {6.3, 18.7},
                  {21.0, 8.6}, {22.1, 9.7}, {23.2, 10.8}, {24.3, 11.9}};
  const auto plan = plan_of(ends, stock, {.share = false});
  std::set<std::string> out;
  for (const auto& a : plan.advice)
    if (a.find("more than the longest cable") != std::string::npos) out.insert(a.substr(0, 2));
  EXPECT_EQ(out, (std::set<std::string>{"S5", "S6", "S7", "S8"}));
  EXPECT_EQ(plan.cables.size(), 12u) << "two cables for each of those";
}

TEST(CutPlan, WhatNoCableReachesComesOffAReel) {
  const auto plan = plan_of({{40, 3}});
  ASSERT_EQ(plan.reel.size(), 1u);
  EXPECT_EQ(plan.reel[0].piece.tag, "S1+");
  EXPECT_NEAR(plan.reel[0].piece.need.in(metres), 40.75, 1e-9);
  EXPECT_NEAR(plan.reel[0].longest_stock->in(metres), 30.5, 1e-9);
  ASSERT_EQ(plan.cables.size(), 1u);
  EXPECT_FALSE(plan.cables[0].plus);
  EXPECT_FALSE(plan.cables[0].half_holds);
  // The minus piece is cut from the end whose plug it keeps: measured from the other one.
  EXPECT_NEAR(plan.cables[0].cut.in(metres), 4.6 - 3.75 - 0.3, 1e-9);
}

TEST(CutPlan, NeverGuessesALengthAWireOrAFamily) {
  const auto remove = [](std::string text, const std::string& what) {
    const auto found = text.find(what);
    EXPECT_NE(found, std::string::npos) << what;
    return text.erase(found, what.size());
  };
  const std::string good = job_text({{1, 2}}, cables(stock));
  for (const auto& [what, says] : std::vector<std::pair<std::string, std::string>>{
           {", plus_end = \"1 m\"", "how long"},
           {", family = \"K2\"", "never guess"},
           {"wire = \"10 AWG Cu PV\", ", "not known"}}) {
    const auto plan = cut_plan(wired(remove(good, what)), {});
    ASSERT_FALSE(plan.cannot_tell.empty()) << what;
    EXPECT_THAT(plan.cannot_tell[0], HasSubstr(says));
  }
}

TEST(CutPlan, PlugsAreNeverMixedBetweenFamiliesOrWires) {
  const std::string text = job_text({{1, 2}}, "");
  parts::Library library;
  const auto add = [&](const char* id, const char* family, const char* wire) {
    parts::Part p;
    p.id = id;
    p.kind = parts::PartKind::cable;
    p.family = std::string(family);
    p.wire = *units::Wire::read(wire);
    p.length = metres(10);
    library.parts.push_back(p);
  };
  add("other-family", "K1", "10 AWG Cu PV");
  add("other-wire", "K2", "12 AWG Cu PV");
  EXPECT_EQ(cut_plan(wired(text), library).reel.size(), 2u);
  add("right", "K2", "10 AWG Cu PV");
  const auto plan = cut_plan(wired(text), library);
  ASSERT_EQ(plan.cables.size(), 1u);
  EXPECT_EQ(plan.cables[0].part, "right");
  // Cables of the job win over the library's.
  const auto own = cut_plan(wired(text + cables({12})), library);
  EXPECT_EQ(own.cables.at(0).part, "C0");
}

TEST(CutPlan, ByPriceWhereAllHaveOne) {
  const std::string dear =
      "[part.S]\nkind = \"cable\"\nfamily = \"K2\"\nwire = \"10 AWG Cu PV\"\nlength = \"9 m\"\n"
      "price = \"30 EUR\"\nprice_date = \"2031-05-02\"\n"
      "[part.L]\nkind = \"cable\"\nfamily = \"K2\"\nwire = \"10 AWG Cu PV\"\nlength = \"15 m\"\n"
      "price = \"20 EUR\"\nprice_date = \"2030-01-01\"\n";
  const auto plan = cut_plan(wired(job_text({{1, 2}}, dear)), {});
  EXPECT_TRUE(plan.by_price);
  EXPECT_EQ(plan.cables.at(0).part, "L");
  EXPECT_EQ(plan.price->print(), "20.00 EUR");
  EXPECT_EQ(plan.price_date, "2030-01-01");
}

/// The same question as one integer program: a column for every cable that could be cut, with a piece of
/// each pole or one alone.
constexpr double per_cable = 10'000;  // fewer cables before less length
double by_patterns(const Ends& ends, const std::vector<double>& lengths) {
  const auto n = static_cast<int>(ends.size());
  Program p;
  p.at_least.assign(ends.size() * 2, 1);
  const auto cheapest = [&](double need) {
    double best = 1e9;
    for (const double l : lengths)
      if (l >= need - 1e-9) best = std::min(best, l);
    return best;
  };
  const auto column = [&](double need, std::vector<std::pair<int, double>> entries) {
    const double cost = cheapest(need);
    if (cost < 1e9) p.columns.push_back({per_cable + cost, std::move(entries), 1});
  };
  for (int i = 0; i < n; ++i) {
    const double plus = ends[i].first + 0.75;
    column(plus, {{i, 1.0}});
    column(ends[i].second + 0.75, {{n + i, 1.0}});
    for (int j = 0; j < n; ++j) column(plus + ends[j].second + 0.75, {{i, 1.0}, {n + j, 1.0}});
  }
  const auto answer = solve_integer(p, 1e30, 100'000);
  EXPECT_TRUE(answer.best && answer.proved);
  return answer.best ? answer.best->value : -1;
}

TEST(CutPlan, AgreesWithAnIntegerProgramOnRandomArrays) {
  std::mt19937 random(4);
  std::uniform_int_distribution<int> strings(1, 14), decimetres(5, 280);
  for (int round = 0; round < 40; ++round) {
    Ends ends(strings(random));
    for (auto& e : ends) e = {decimetres(random) / 10.0, decimetres(random) / 10.0};
    const auto plan = plan_of(ends);
    EXPECT_TRUE(plan.proved);
    EXPECT_NEAR(plan.bought.in(metres) + per_cable * static_cast<double>(plan.cables.size()),
                by_patterns(ends, stock), 1e-6)
        << "round " << round;
    std::set<std::string> tags;
    for (const auto& c : plan.cables) {
      units::Length used;
      for (const auto* p : {&c.plus, &c.minus}) {
        if (!*p) continue;
        EXPECT_GE((*p)->length.si(), (*p)->need.si() - 1e-9);
        EXPECT_TRUE(tags.insert((*p)->tag).second);
        used += (*p)->length;
      }
      EXPECT_LE(used.si(), c.stock.si() + 1e-9);
    }
    EXPECT_EQ(tags.size(), 2 * ends.size());
  }
}

}  // namespace
}  // namespace stringwright::design
