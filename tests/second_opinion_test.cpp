// Answers worked by hand against what the program says of the same job: cases/second_opinion, one file per job.
// An answer may put stretches of the job's text otherwise first (`change`): a mistake, another size, another edition.
#include <gtest/gtest.h>

#include <toml++/toml.h>
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "program.hpp"

namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using stringwright::program::Folder;
using stringwright::program::slurp;

const fs::path cases = fs::path(STRINGWRIGHT_SOURCE_DIR) / "cases/second_opinion";

class SecondOpinion : public testing::TestWithParam<std::string> {
 protected:
  /// The reply of a command to the job with those changes; each is asked once.
  const json& reply(const std::string& command, const std::string& text) {
    const auto [known, fresh] = replies_.try_emplace(command + "\n" + text);
    if (!fresh) return known->second;
    std::ofstream(folder_.path / "job.toml", std::ios::binary) << text;
    const auto ran = folder_.run(command + " job.toml --json");
    if (ran.code > 1) {
      ADD_FAILURE() << ran.out << ran.err;
      return known->second = json::object();
    }
    return known->second = json::parse(ran.out);
  }

 private:
  Folder folder_;
  std::map<std::string, json> replies_;
};

std::string changed(std::string text, const toml::table& answer) {
  const auto* changes = answer["change"].as_array();
  if (!changes) return text;
  std::map<std::string, std::size_t>
      from;  // a stretch that is changed twice is changed in two places
  for (const auto& pair : *changes) {
    const std::string old = (*pair.as_array())[0].value_or("");
    const std::string now = (*pair.as_array())[1].value_or("");
    const auto at = text.find(old, from[old]);
    if (at == std::string::npos) {
      ADD_FAILURE() << "the job has no '" << old << "'";
      return text;
    }
    text.replace(at, old.size(), now);
    from[old] = at + now.size();
  }
  return text;
}

/// A list of a reply; empty where the command gave none.
const json& list_of(const json& reply, const std::string& key) {
  static const json none = json::array();
  return reply.contains(key) ? reply.at(key) : none;
}

const json* with(const json& list, const std::string& key, const std::string& value) {
  for (const auto& entry : list)
    if (entry.at(key) == value) return &entry;
  return nullptr;
}

void expect_near(double ours, const toml::table& answer) {
  const double hand = answer["hand"].value_or(std::nan(""));
  const double within = answer["within"].value_or(0.01);  // hand formulas agree within 1 %
  EXPECT_NEAR(ours, hand, within * std::fabs(hand));
}

void expect_says(const json& thing, const toml::table& answer) {
  const std::string words = answer["says"].value_or("");
  EXPECT_NE(thing.dump().find(words), std::string::npos) << thing.dump(1).substr(0, 600);
}

/// @param field  of a device in an event
void expect_device(const json& row, const json& skies, const std::string& name,
                   const std::string& field, const toml::table& answer) {
  const json* device = nullptr;
  for (const auto& d : row.at("devices"))
    for (const auto& like : d.at("like"))
      if (like == name) device = &d;
  ASSERT_TRUE(device) << row.dump(1).substr(0, 1500);
  if (field == "opens_above_w_m2") {
    const json& opens = device->at(field);
    EXPECT_EQ(opens.is_null(), answer["none"].value_or(false));
    if (opens.is_number()) expect_near(opens, answer);
    return;
  }
  // The largest at 1000 W/m², of cold and hot cells.
  double most = 0;
  for (std::size_t k = 0; k < skies.size(); ++k)
    if (skies[k].at("sun_w_m2") == 1000.0)
      most = std::max(most, std::fabs(device->at("i_a")[k].get<double>()));
  expect_near(field == "ratio_at_1000" ? most / device->at("rating_a").get<double>() : most,
              answer);
}

TEST_P(SecondOpinion, AgreesOrSaysWhyNot) {
  const auto file = toml::parse_file((cases / (GetParam() + ".toml")).string());
  EXPECT_TRUE(file["source"].is_string());
  const std::string text = slurp(fs::path(STRINGWRIGHT_SOURCE_DIR) / "examples" /
                                 (file["job"].value_or("") + std::string(".toml")));
  ASSERT_FALSE(text.empty());
  for (const auto& node : *file["answer"].as_array()) {
    const auto& answer = *node.as_table();
    SCOPED_TRACE(answer["what"].value_or(""));
    const std::string job = changed(text, answer);
    if (const auto id = answer["finding"].value<std::string>()) {
      const json& check = reply("check", job);
      const json* finding = with(list_of(check, "findings"), "id", *id);
      ASSERT_TRUE(finding) << *id;
      if (const auto verdict = answer["verdict"].value<std::string>()) {
        EXPECT_EQ(finding->at("verdict"), *verdict) << finding->at("so");
      }
      expect_says(*finding, answer);
      if (const auto symbol = answer["symbol"].value<std::string>()) {
        const json* step = with(finding->at("trail"), "symbol", *symbol);
        ASSERT_TRUE(step && step->at("value").is_object()) << *symbol;
        expect_near(step->at("value").at("number"), answer);
      }
    } else if (const auto event = answer["event"].value<std::string>()) {
      const json& events = reply("events --event '" + *event + "'", job);
      ASSERT_EQ(list_of(events, "rows").size(), 1u);
      const json& row = events.at("rows")[0];
      expect_says(row, answer);
      if (const auto device = answer["device"].value<std::string>())
        expect_device(row, events.at("skies"), *device, answer["field"].value_or(""), answer);
    } else {
      const json& check = reply("check", job);
      bool found = false;
      for (const auto& point : list_of(check, "operating")) {
        if (point.at("load") != answer["operating"].value_or("") ||
            std::fabs(point.at("cell_c").get<double>() - answer["cell"].value_or(25.0)) > 1e-6)
          continue;
        found = true;
        expect_near(point.at(answer["field"].value_or("")), answer);
      }
      EXPECT_TRUE(found);
    }
  }
}

std::vector<std::string> files() {
  std::vector<std::string> all;
  for (const auto& entry : fs::directory_iterator(cases))
    if (entry.path().extension() == ".toml") all.push_back(entry.path().stem().string());
  std::sort(all.begin(), all.end());
  return all;
}

INSTANTIATE_TEST_SUITE_P(All, SecondOpinion, testing::ValuesIn(files()), [](const auto& test) {
  std::string name = test.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

}  // namespace
