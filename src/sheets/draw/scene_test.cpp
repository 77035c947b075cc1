#include "sheets/draw/scene.hpp"

#include <gtest/gtest.h>
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "sheets/draw/wires.hpp"

namespace stringwright::sheets::draw {
namespace {

TEST(Scene, MeasureIsThatOfTheFont) {
  EXPECT_EQ(measure("", 10).width, 0);
  // Inter, units of 2816 an em: H is 2096 wide. 10 pt are 3.528 mm.
  EXPECT_NEAR(measure("HHHHHHHHHH", 10).width, 10 * 2096.0 / 2816 * 3.5278, 0.4);
  EXPECT_NEAR(measure("Tmin", 20).width, 2 * measure("Tmin", 10).width, 0.02);
  EXPECT_GT(measure("Tmin", 10, Weight::bold).width, measure("Tmin", 10).width);
  EXPECT_NEAR(measure("ii", 10, Weight::regular, true).width,
              measure("WW", 10, Weight::regular, true).width, 0.01);
}

TEST(Scene, BoundsTurnWithTheText) {
  const Text level{{50, 50}, "OUT+", 10};
  Text upright = level;
  upright.turn = -90;
  const Box a = bounds(level), b = bounds(upright);
  EXPECT_NEAR(a.w, b.h, 1e-9);
  EXPECT_NEAR(a.h, b.w, 1e-9);
  EXPECT_NEAR(b.bottom(), 50, 1e-9);  // reads upwards from the point
  Text middle = level;
  middle.align = Align::middle;
  EXPECT_NEAR(bounds(middle).centre().x, 50, 1e-9);
}

TEST(Scene, WrapKeepsWithinTheWidth) {
  for (const auto& line :
       wrap("a caution of ours, no rule of the code: two strings in series", 40, 10))
    EXPECT_LE(measure(line, 10).width, 40);
  const auto broken = wrap(std::string(80, 'W'), 40, 10);
  EXPECT_GT(broken.size(), 1u);
  for (const auto& line : broken) EXPECT_LE(measure(line, 10).width, 40);
}

TEST(Scene, FitEndsInAnEllipsis) {
  EXPECT_EQ(fit("short", 40, 10), "short");
  const std::string cut = fit("ground rack beside the woodpile, north of the house", 40, 10);
  EXPECT_TRUE(text::ends_with(cut, "…"));
  EXPECT_LE(measure(cut, 10).width, 40);
  EXPECT_EQ(fit_lines("one two three four five six seven eight nine ten", 20, 2, 10).size(), 2u);
  // A letter keeps its accent.
  EXPECT_EQ(
      fit("e\u0301e\u0301e\u0301e\u0301e\u0301", measure("e\u0301e\u0301…", 10).width + 0.01, 10),
      "e\u0301e\u0301…");
}

TEST(Scene, PlainHasNoBreaksAndNoTurns) {
  EXPECT_EQ(plain("a\nb\tc"), "a b c");
  EXPECT_EQ(plain("x\u202Ey\u200Fz\uFEFF"), "xyz");
  EXPECT_EQ(plain("Übergang − Ω 北"), "Übergang − Ω 北");
}

TEST(Scene, OutlineRoundsItsBends) {
  const auto steps = outline(Polyline{{{0, 0}, {0, 10}, {10, 10}}, {}, Ink::none, false, 2});
  ASSERT_EQ(steps.size(), 4u);
  EXPECT_EQ(steps[1].to, (Point{0, 8}));
  EXPECT_EQ(steps[2].kind, Step::Kind::bend);
  EXPECT_EQ(steps[2].to, (Point{2, 10}));
}

TEST(Scene, HatchStaysInside) {
  // A corner of a box is cut out.
  const Hatch h{{{0, 0}, {20, 0}, {20, 8}, {10, 8}, {10, 20}, {0, 20}}, 2.6, 45, {}};
  const auto all = lines(h);
  EXPECT_GT(all.size(), 8u);
  for (const auto& [a, b] : all)
    for (const double share : {0.01, 0.5, 0.99}) {
      const Point p{a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
      EXPECT_TRUE(p.x > -1e-6 && p.y > -1e-6 && p.x < 20 + 1e-6 && p.y < 20 + 1e-6 &&
                  !(p.x > 10 + 1e-6 && p.y > 8 + 1e-6))
          << p.x << ", " << p.y;
    }
}

/// Wires that keep their order from top to bottom never cross: no level stretch of one meets another.
RC_GTEST_PROP(Wires, NestedJogsDoNotCross, ()) {
  const auto gaps = *rc::gen::container<std::vector<std::pair<int, int>>>(
      rc::gen::pair(rc::gen::inRange(5, 20), rc::gen::inRange(5, 20)));
  const auto shift = *rc::gen::inRange(-40, 40);
  std::vector<Jog> jogs;
  double from = 0, to = shift;
  for (const auto& [a, b] : gaps) jogs.push_back({from += a, to += b});
  const auto level = nest(jogs);
  RC_ASSERT(level.size() == jogs.size());
  for (std::size_t i = 0; i < jogs.size(); ++i) {
    RC_ASSERT((level[i] < 0) == (std::abs(jogs[i].from - jogs[i].to) < 0.05));
    for (std::size_t k = 0; k < jogs.size(); ++k) {
      if (i == k || level[i] < 0) continue;
      const double a = std::min(jogs[i].from, jogs[i].to), b = std::max(jogs[i].from, jogs[i].to);
      // Above its own level wire k stands on `from`, below it on `to`.
      const double at = level[k] < 0 || level[k] > level[i] ? jogs[k].from : jogs[k].to;
      if (level[k] == level[i]) {
        const double c = std::min(jogs[k].from, jogs[k].to), d = std::max(jogs[k].from, jogs[k].to);
        RC_ASSERT(d < a || c > b);
      } else {
        RC_ASSERT(at <= a || at >= b);
      }
    }
  }
}

TEST(Wires, TagsShowTheirPoleByShape) {
  const Group plus = tag(Pattern::plus, {0, 0}, "S1+", true, "S1+"),
              minus = tag(Pattern::minus, {0, 0}, "S1−", true, "S1-"),
              ground = tag(Pattern::ground, {0, 0}, "EGC1", false, "EGC1");
  EXPECT_LT(std::get<Rect>(plus.shapes[0]).corner, 1);
  EXPECT_GT(std::get<Rect>(minus.shapes[0]).corner, 2);
  EXPECT_FALSE(std::get<Rect>(ground.shapes[0]).stroke.dash.empty());
  EXPECT_LT(std::get<Rect>(ground.shapes[0]).box.w, std::get<Rect>(ground.shapes[0]).box.h);
}

}  // namespace
}  // namespace stringwright::sheets::draw
