#include "job/names.hpp"

#include <string>

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

namespace stringwright::job {
namespace {

using Walk = std::vector<ModulePlace>;

TEST(Names, WalksGoUpAndDown) {
  EXPECT_EQ(*read_walk("R1.3-R1.1"), (Walk{{"R1", 3}, {"R1", 2}, {"R1", 1}}));
  EXPECT_EQ(*read_walk("X.1-X.2, X.4"), (Walk{{"X", 1}, {"X", 2}, {"X", 4}}));
  EXPECT_EQ(*read_walk(" R-1.2 − R-1.1 "), (Walk{{"R-1", 2}, {"R-1", 1}}));
  EXPECT_EQ(*read_walk("R1.1–R1.2"), (Walk{{"R1", 1}, {"R1", 2}}));
}

TEST(Names, WalksThatCanNotBeWalked) {
  for (const auto* walk :
       {"", ",", "R1", "R1.", ".1", "R1.x", "R1.1-", "R1.1-R2.1", "R1.1 R1.2", "R1.1-R1.2-R1.3",
        "R1.1,,R1.2", "R1.99999999999", "R1.1-R1.1001", "R1.-1", "R 1.1"})
    EXPECT_FALSE(read_walk(walk).ok()) << walk;
}

TEST(Names, WalksPrintAsShortAsTheyCan) {
  for (const auto* walk : {"R1.3-R1.1", "X.1-X.4, X.6-X.9", "R1.1", "R1.1-R1.2, R2.2-R2.1, R3.5"})
    EXPECT_EQ(print_walk(*read_walk(walk)), walk);
}

RC_GTEST_PROP(Names, AWalkReadsBackAsItIsPrinted, ()) {
  Walk walk;
  const auto size = *rc::gen::inRange(1, 40);
  for (int i = 0; i < size; ++i)
    walk.push_back(
        {*rc::gen::element<std::string>("R1", "R2", "R-3", "Süd"), *rc::gen::inRange(1, 5)});
  const auto back = read_walk(print_walk(walk));
  RC_ASSERT(back.ok());
  RC_ASSERT(*back == walk);
}

TEST(Names, Landings) {
  const auto slot = read_landing("A1.3");
  EXPECT_EQ(slot->owner, "A1");
  EXPECT_EQ(slot->bar, "");
  EXPECT_EQ(slot->number, 3);
  const auto input = read_landing("CC1.PV1");
  EXPECT_EQ(input->owner, "CC1");
  EXPECT_EQ(input->bar, "PV1");
  EXPECT_EQ(input->number, 0);
  const auto hole = read_landing(" BA.minus.7 ");
  EXPECT_EQ(hole->text, "BA.minus.7");
  EXPECT_EQ(hole->bar, "minus");
  EXPECT_EQ(hole->number, 7);
  for (const auto* text :
       {"", "A1", "A1.", ".1", "A1.minus.x", "A1.plus.1", "A1.1.2.3", "A1. 1", "A1.earth."})
    EXPECT_FALSE(read_landing(text).ok()) << text;
}

TEST(Names, StringEnds) {
  EXPECT_EQ(read_string_end("S3+")->pole, Pole::plus);
  EXPECT_EQ(read_string_end("A7-")->pole, Pole::minus);
  EXPECT_EQ(read_string_end("A7−")->string, "A7");
  for (const auto* text : {"", "+", "-", "S3", "S 3+", "S3*"})
    EXPECT_FALSE(read_string_end(text).ok()) << text;
}

TEST(Names, Ids) {
  for (const auto* id : {"A1", "breaker-20A", "X_1", "7", "Süd"}) EXPECT_FALSE(bad_id(id)) << id;
  for (const auto* id : {"", "A.1", "A 1", "A,1", "A@1", "S1+", "S1-", "{i}", "a\tb", "\xff"})
    EXPECT_TRUE(bad_id(id)) << id;
}

TEST(Names, Dates) {
  for (const auto* day : {"2031-05-02", "2032-02-29", "2000-02-29", "2031-12-31"})
    EXPECT_TRUE(is_date(day)) << day;
  for (const auto* day : {"", "2031-5-2", "2031-02-29", "1900-02-29", "2031-13-01", "2031-00-10",
                          "2031-04-31", "02.05.2031", "2031-05-02 ", "2031/05/02"})
    EXPECT_FALSE(is_date(day)) << day;
}

}  // namespace
}  // namespace stringwright::job
