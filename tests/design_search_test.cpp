#include <algorithm>
#include <fstream>
#include <iterator>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "app/judge.hpp"
#include "app/parts.hpp"
#include "design/choose/search.hpp"
#include "design/fill.hpp"
#include "job/read.hpp"

/// The search with the real judge, against brute force over candidates few enough to try them all.
namespace stringwright {
namespace {

std::string file(const std::string& path) {
  std::ifstream in(std::string(STRINGWRIGHT_SOURCE_DIR) + "/" + path);
  EXPECT_TRUE(in) << path;
  return {std::istreambuf_iterator<char>(in), {}};
}

struct Case {
  const char* example;
  /// Which candidates stay in, by the end of the choice's key.
  std::vector<std::pair<std::string, std::vector<std::string>>> kept;
};

class DesignSearch : public testing::TestWithParam<Case> {};

TEST_P(DesignSearch, EqualsBruteForce) {
  const auto library = app::whole_library({});
  ASSERT_TRUE(library.diagnostics.empty());
  const auto reading = job::read(file(std::string("examples/") + GetParam().example), "job");
  ASSERT_TRUE(reading.job);
  const auto edition = codebook::Edition::open(*reading.job->job.edition).value();
  int asked = 0;
  const design::Judge judge = [&](const job::Job& j) {
    ++asked;
    const auto filled = design::fill(j, edition);
    Diagnostics ignored;
    std::vector<std::string> remarks;
    return app::judge(wiring::build(filled.job, ignored), edition, remarks).report;
  };
  std::vector<design::Open> open;
  for (auto& o : design::open_choices(*reading.job, library.library))
    for (const auto& [key, values] : GetParam().kept) {
      if (o.key.size() < key.size() || o.key.substr(o.key.size() - key.size()) != key) continue;
      auto& c = o.candidates;
      c.erase(std::remove_if(c.begin(), c.end(),
                             [&, &kept = values](const design::Candidate& x) {
                               return std::find(kept.begin(), kept.end(), x.value) == kept.end();
                             }),
              c.end());
      EXPECT_EQ(c.size(), values.size()) << o.key;
      open.push_back(std::move(o));
    }
  ASSERT_EQ(open.size(), GetParam().kept.size());
  const auto quick = design::search(*reading.job, open, judge);
  const auto whole = design::brute_force(*reading.job, open, judge);
  const auto values = [](const design::Proposal& p) {
    std::vector<std::string> all;
    for (const auto& c : p.chosen) all.push_back(c.key + " = " + c.value);
    for (const auto& o : p.open) all.push_back(o.key + " open");
    return all;
  };
  EXPECT_EQ(values(quick), values(whole));
  EXPECT_EQ(quick.after, whole.after);
  EXPECT_LE(quick.after.fail, quick.before.fail);
  if (quick.after.fail > quick.before.fail)
    for (const auto& f : judge(quick.job).findings)
      if (f.outcome.verdict == trail::Verdict::fail) ADD_FAILURE() << f.id << ": " << f.outcome.so;
  EXPECT_LT(quick.after.cannot_tell, quick.before.cannot_tell);
  for (const auto& c : quick.chosen) EXPECT_FALSE(c.value.empty());
}

INSTANTIATE_TEST_SUITE_P(
    Examples, DesignSearch,
    testing::Values(
        Case{"fern-hut.toml",
             {{"slot.device",
               {"breaker-15A-150V-1p", "breaker-20A-150V-1p", "breaker-20A-300V-2p",
                "breaker-25A-150V-1p"}},
              {"box.A1.part", {"box-2-200V-3R", "box-4-200V-3R"}},
              {"wire.poles", {"10 AWG Cu XHHW-2", "8 AWG Cu XHHW-2", "6 AWG Cu XHHW-2"}},
              // Without it the battery would feed the output run through nothing.
              {"PV1.device", {"breaker-40A-150V-1p"}}}},
        Case{"mill-shed.toml",
             {{"slot.device", {"breaker-20A-150V-1p", "breaker-20A-300V-2p", "fuse-20A-600V"}},
              {"wire.poles", {"6 AWG Cu THWN-2", "4 AWG Cu THWN-2", "2 AWG Cu THWN-2"}}}}),
    [](const auto& tried) { return tried.param.example[0] == 'f' ? "hut" : "shed"; });

}  // namespace
}  // namespace stringwright
