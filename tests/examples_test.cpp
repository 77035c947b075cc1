// Every job of examples/ with every command: what a person gets who tries them.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "program.hpp"

namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using stringwright::program::Folder;

std::vector<std::string> examples() {
  std::vector<std::string> all;
  for (const auto& entry : fs::directory_iterator(STRINGWRIGHT_SOURCE_DIR "/examples"))
    if (entry.path().extension() == ".toml") all.push_back(entry.path().stem().string());
  std::sort(all.begin(), all.end());
  return all;
}

class Example : public testing::TestWithParam<std::string> {
 protected:
  std::string file() const {
    return "'" STRINGWRIGHT_SOURCE_DIR "/examples/" + GetParam() + ".toml'";
  }
  Folder folder;
};

/// Nothing to ask, everything judged and solved; what fails is meant to and says so.
TEST_P(Example, IsJudgedWithoutAQuestion) {
  const auto ran = folder.run("check " + file() + " --json");
  EXPECT_EQ(ran.err, "");
  ASSERT_LE(ran.code, 1);
  const json reply = json::parse(ran.out);
  EXPECT_TRUE(reply.at("usable"));
  EXPECT_EQ(reply.at("diagnostics"), json::array());
  // Only a job with choices left open is solved without the wires that nobody has chosen, and says so.
  const std::string text = stringwright::program::slurp(
      fs::path(STRINGWRIGHT_SOURCE_DIR "/examples") / (GetParam() + ".toml"));
  if (text.find("wire = \"choose\"") == std::string::npos &&
      text.find("poles = \"choose\"") == std::string::npos) {
    EXPECT_EQ(reply.at("remarks"), json::array()) << GetParam();
  } else {
    EXPECT_EQ(reply.at("remarks").size(), 1u) << GetParam();
  }
  EXPECT_GT(reply.at("operating").size(), 0u);
  EXPECT_EQ(reply.at("fine"), ran.code == 0);
  EXPECT_EQ(folder.run("check " + file()).code, ran.code);
}

TEST_P(Example, EveryEventIsSolved) {
  const auto ran = folder.run("events " + file() + " --json");
  ASSERT_EQ(ran.code, 0) << ran.err;
  const json reply = json::parse(ran.out);
  EXPECT_GT(reply.at("rows").size(), 5u);
  for (const auto& row : reply.at("rows"))
    EXPECT_TRUE(row.at("failure").is_null()) << row.at("id") << row.at("failure");
  EXPECT_EQ(folder.run("events " + file()).code, 0);
  const std::string first = reply.at("rows").at(0).at("id");
  EXPECT_EQ(folder.run("events " + file() + " --event '" + first + "' -o event.svg").code, 0);
  EXPECT_NE(stringwright::program::slurp(folder.path / "event.svg").find("</svg>"),
            std::string::npos);
}

TEST_P(Example, HasANetlist) {
  const auto ran = folder.run("netlist " + file());
  EXPECT_EQ(ran.code, 0) << ran.err;
  EXPECT_NE(ran.out.find(".end\n"), std::string::npos);
}

TEST_P(Example, HasItsPapers) {
  const auto ran = folder.run("papers " + file() + " -o papers");
  ASSERT_LE(ran.code, 1) << ran.err;
  EXPECT_TRUE(fs::exists(folder.path / "papers/papers.pdf"));
  int pages = 0;
  for (const auto& entry : fs::directory_iterator(folder.path / "papers"))
    pages += entry.path().extension() == ".svg";
  EXPECT_GE(pages, 3);
}

INSTANTIATE_TEST_SUITE_P(All, Example, testing::ValuesIn(examples()), [](const auto& test) {
  std::string name = test.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
