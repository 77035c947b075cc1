#include "trail/outcome.hpp"

#include <gtest/gtest.h>

#include <array>
#include <set>
#include <string_view>

namespace stringwright::trail {
namespace {

constexpr std::array all{Verdict::pass,        Verdict::caution, Verdict::fail,
                         Verdict::cannot_tell, Verdict::on_site, Verdict::not_applicable};

TEST(Outcome, EveryVerdictHasAWordAndAKeyOfItsOwn) {
  std::set<std::string_view> words;
  std::set<std::string_view> keys;
  for (const auto v : all) {
    words.insert(word(v));
    keys.insert(key(v));
  }
  EXPECT_EQ(words, (std::set<std::string_view>{"PASS", "CAUTION", "FAIL", "CANNOT TELL",
                                               "CHECK ON SITE", "NOT APPLICABLE"}));
  EXPECT_EQ(keys, (std::set<std::string_view>{"pass", "caution", "fail", "cannot-tell", "on-site",
                                              "not-applicable"}));
}

TEST(Outcome, WhatIsNotKnownIsNeverAPass) {
  EXPECT_EQ(verdict_of(true), Verdict::pass);
  EXPECT_EQ(verdict_of(false), Verdict::fail);
  EXPECT_EQ(verdict_of(std::nullopt), Verdict::cannot_tell);
  EXPECT_EQ(Outcome{}.verdict, Verdict::cannot_tell);
}

}  // namespace
}  // namespace stringwright::trail
