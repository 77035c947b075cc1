// Points between points: an adiabatic curve, and what a table's ends mean.
#include <gtest/gtest.h>

#include "codebook/methods/time_current.hpp"

namespace stringwright::codebook {
namespace {

// I²·t of a melting wire is constant, so t = 100 s/x²; two of its points give all between them.
TEST(TimeCurrent, AnAdiabaticCurveIsAStraightLine) {
  const std::vector<TimeCurrent> points{{2.0, units::seconds(25)}, {10.0, units::seconds(1)}};
  for (const double x : {2.0, 3.0, 5.0, 10.0})
    EXPECT_NEAR(opening_time(points, x)->si(), 100 / (x * x), 1e-9) << x;
  EXPECT_FALSE(opening_time(points, 1.99));
  EXPECT_EQ(opening_time(points, 50.0)->si(), 1);  // no faster than printed
  EXPECT_NEAR(opens_within(points, units::seconds(4))->si(), 5, 1e-9);
  EXPECT_EQ(opens_within(points, units::hours(1))->si(),
            2);  // promised from the first point on only
  EXPECT_FALSE(opens_within(points, units::seconds(0.5)));
  EXPECT_FALSE(opens_within({}, units::hours(1)));
}

TEST(Derating, IsReadBetweenItsPointsOnly) {
  const std::vector<Derating> points{{units::celsius(25), 1.0}, {units::celsius(65), 0.8}};
  EXPECT_NEAR(derating(points, units::celsius(45))->si(), 0.9, 1e-12);
  EXPECT_EQ(derating(points, units::celsius(65))->si(), 0.8);
  EXPECT_FALSE(derating(points, units::celsius(66)));
  EXPECT_FALSE(derating(points, units::celsius(20)));
  EXPECT_FALSE(derating({}, units::celsius(20)));
}

}  // namespace
}  // namespace stringwright::codebook
