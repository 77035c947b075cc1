#include "design/choose/search.hpp"

#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace stringwright::design {
namespace {

using check::Finding;
using trail::Verdict;

/// A judge over made-up choices: choice k is written into the id of string k. Each finding asks about a few
/// choices; while one of them is open it can't be told, after that a table says its verdict. That is what
/// the rules do.
class Puzzle {
 public:
  Puzzle(int choices, int candidates, int findings, std::mt19937& random)
      : candidates_(candidates) {
    std::uniform_int_distribution<int> which(0, choices - 1), verdict(0, 9);
    for (int k = 0; k < choices; ++k) {
      job_.string.emplace_back();
      Open o;
      o.key = "choice " + std::to_string(k);
      o.span = {k + 1, 1, k + 1, 2};
      for (int c = 0; c < candidates; ++c)
        o.candidates.push_back({std::to_string(c),
                                "",
                                [k, c](job::Job& j) { j.string[k].id = std::to_string(c); },
                                {}});
      open_.push_back(std::move(o));
    }
    for (int f = 0; f < findings; ++f) {
      Asked a{which(random), which(random), {}};
      for (int i = 0; i < candidates * candidates; ++i) {
        const int v = verdict(random);
        a.verdicts.push_back(v < 2 ? Verdict::fail : v < 3 ? Verdict::caution : Verdict::pass);
      }
      asked_.push_back(std::move(a));
    }
  }

  check::Report judge(const job::Job& j) const {
    check::Report r;
    for (std::size_t f = 0; f < asked_.size(); ++f) {
      Finding found;
      found.id = "rule@" + std::to_string(f);
      const auto &x = j.string[asked_[f].one].id, &y = j.string[asked_[f].other].id;
      found.outcome.verdict = x.empty() || y.empty()
                                  ? Verdict::cannot_tell
                                  : asked_[f].verdicts[std::stoi(x) * candidates_ + std::stoi(y)];
      found.outcome.so = "so";
      r.findings.push_back(std::move(found));
    }
    return r;
  }

  const job::Job& job() const { return job_; }
  const std::vector<Open>& open() const { return open_; }

 private:
  struct Asked {
    int one, other;
    std::vector<Verdict> verdicts;
  };
  int candidates_;
  job::Job job_;
  std::vector<Open> open_;
  std::vector<Asked> asked_;
};

std::vector<std::string> values(const Proposal& p) {
  std::vector<std::string> all;
  for (const auto& c : p.chosen) all.push_back(c.key + " = " + c.value);
  return all;
}

TEST(Search, EqualsBruteForceOverSmallSpaces) {
  std::mt19937 random(11);
  int fewer = 0;
  for (int round = 0; round < 60; ++round) {
    const Puzzle puzzle(1 + round % 4, 2 + round % 4, 6, random);
    const Judge judge = [&](const job::Job& j) { return puzzle.judge(j); };
    const auto quick = search(puzzle.job(), puzzle.open(), judge);
    const auto whole = brute_force(puzzle.job(), puzzle.open(), judge);
    EXPECT_EQ(values(quick), values(whole)) << "round " << round;
    EXPECT_EQ(quick.after, whole.after) << "round " << round;
    fewer += quick.asked < whole.asked;
  }
  EXPECT_GT(fewer, 0) << "the bound saves something somewhere";
}

TEST(Search, TheSmallestThatPassesWinsAndSaysWhyNotSmaller) {
  std::mt19937 random(1);
  Puzzle puzzle(1, 4, 0, random);
  const Judge judge = [](const job::Job& j) {
    check::Report r;
    Finding f;
    f.id = "size@S";
    f.outcome.verdict = j.string[0].id.empty()          ? Verdict::cannot_tell
                        : std::stoi(j.string[0].id) < 2 ? Verdict::fail
                                                        : Verdict::pass;
    f.outcome.so = "too small";
    r.findings.push_back(f);
    return r;
  };
  const auto p = search(puzzle.job(), puzzle.open(), judge);
  ASSERT_EQ(p.chosen.size(), 1u);
  EXPECT_EQ(p.chosen[0].value, "2");
  EXPECT_EQ(p.chosen[0].reason, "1 fails size@S: too small");
  EXPECT_THAT(p.chosen[0].runner_up, testing::StartsWith("3 "));
  EXPECT_EQ(p.before, (Score{0, 1, 0}));
  EXPECT_EQ(p.after, (Score{0, 0, 0}));
}

TEST(Search, WhatNobodyLooksAtStaysOpen) {
  std::mt19937 random(1);
  Puzzle puzzle(1, 3, 0, random);
  const auto p =
      search(puzzle.job(), puzzle.open(), [](const job::Job&) { return check::Report{}; });
  EXPECT_TRUE(p.chosen.empty());
  ASSERT_EQ(p.open.size(), 1u);
  EXPECT_THAT(p.open[0].why, testing::HasSubstr("no rule"));
}

TEST(Search, AChoiceWithoutCandidatesStaysOpen) {
  std::mt19937 random(1);
  Puzzle puzzle(1, 2, 0, random);
  auto open = puzzle.open();
  open[0].candidates.clear();
  open[0].none = "nothing in the library";
  const auto p = search(puzzle.job(), open, [](const job::Job&) { return check::Report{}; });
  ASSERT_EQ(p.open.size(), 1u);
  EXPECT_EQ(p.open[0].why, "nothing in the library");
}

}  // namespace
}  // namespace stringwright::design
