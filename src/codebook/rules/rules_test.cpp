// Every rule stands in three places, and what rules and methods ask for exists in every edition.
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "base/text.hpp"
#include "codebook/edition.hpp"
#include "codebook/rule.hpp"
#include "codebook/tables/csv.hpp"

namespace stringwright::codebook {
namespace {

namespace fs = std::filesystem;

const fs::path root = STRINGWRIGHT_SOURCE_DIR;

std::string read(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::string file_name(const Rule& rule) {
  std::string name(rule.id);
  std::replace(name.begin(), name.end(), '.', '_');
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

std::vector<std::string> words_of(std::string_view line) {
  std::istringstream in{std::string(line)};
  std::vector<std::string> all;
  for (std::string word; in >> word;) all.push_back(word);
  return all;
}

/// Every first group of `pattern` in the sources of the room and of run-cases, tests apart.
std::set<std::string> asked_for(const std::string& pattern,
                                const std::vector<std::string>& folders = {"src/codebook",
                                                                           "tools/run_cases"}) {
  std::set<std::string> all;
  const std::regex what(pattern);
  for (const auto& folder : folders) {
    for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
      const auto name = entry.path().filename().string();
      if (!entry.is_regular_file() || name.find("_test.cpp") != std::string::npos) continue;
      const std::string source = read(entry.path());
      for (std::sregex_iterator i(source.begin(), source.end(), what), end; i != end; ++i)
        all.insert((*i)[1]);
    }
  }
  return all;
}

TEST(Rules, EachHasAFileAListLineACaseFileAndItsWords) {
  const std::string list = read(root / "src/codebook/rules/all.cpp");
  std::set<std::string> ids;
  std::size_t last = 0;
  for (const Rule* rule : all_rules()) {
    const auto name = file_name(*rule);
    EXPECT_TRUE(ids.insert(std::string(rule->id)).second) << rule->id;
    EXPECT_EQ(find_rule(rule->id), rule);
    EXPECT_TRUE(fs::exists(root / "src/codebook/rules" / (name + ".cpp"))) << name;
    EXPECT_TRUE(fs::exists(root / "cases/rules" / (name + ".toml"))) << name;
    const auto line = list.find("    &" + name + ",");
    ASSERT_NE(line, std::string::npos) << name;
    EXPECT_GT(line, last) << name;
    last = line;
    EXPECT_FALSE(rule->title.empty());
    EXPECT_TRUE(text::ends_with(rule->asks, ".") || text::ends_with(rule->asks, "?")) << rule->id;
  }
  EXPECT_EQ(find_rule("no.such-rule"), nullptr);
}

TEST(Rules, NoFileStandsOutsideTheList) {
  std::set<std::string> names;
  for (const Rule* rule : all_rules()) names.insert(file_name(*rule));
  for (const auto& entry : fs::directory_iterator(root / "src/codebook/rules")) {
    const auto stem = entry.path().stem().string();
    if (stem == "all" || text::ends_with(stem, "_test")) continue;
    EXPECT_TRUE(names.count(stem)) << stem;
  }
  for (const auto& entry : fs::directory_iterator(root / "cases/rules"))
    EXPECT_TRUE(names.count(entry.path().stem().string())) << entry.path();
}

TEST(Rules, EveryAliasStandsInTheRuleList) {
  std::set<std::string> listed;
  for (const auto& rule : listed_rules()) EXPECT_TRUE(listed.insert(rule.id).second) << rule.id;
  for (const Rule* rule : all_rules())
    for (const auto& alias : words_of(rule->aliases))
      EXPECT_TRUE(listed.count(alias)) << rule->id << " " << alias;
}

// An edition that asks a rule has a place for each of its citations; this lists what one lacks.
TEST(Rules, EveryRuleNamesItsCitationsInEveryEditionThatAsksIt) {
  for (const Rule* rule : all_rules()) {
    const auto keys = words_of(rule->cites);
    EXPECT_FALSE(keys.empty()) << rule->id;
    bool asked = false;
    for (const auto& id : Edition::offered()) {
      const auto edition = Edition::open(id).value();
      if (!asked_in(*rule, edition)) continue;
      asked = true;
      for (const auto& key : keys)
        EXPECT_TRUE(edition.has_cite(key)) << "citations.csv has no row of " << key
                                           << " in force in " << id << ", asked by " << rule->id;
    }
    EXPECT_TRUE(asked) << rule->id << ": no offered edition asks it";
  }
}

// Families never mix: a rule of one family answers no row of the list that is the other's alone, and one
// that both ask only rows of both.
TEST(Rules, TheFamilyOfARuleIsThatOfItsRowsInTheList) {
  std::map<std::string, std::string> code;
  const auto csv = tables::compiled_in("rule_list.csv");
  for (std::size_t i = 0; i < csv.size(); ++i) code[csv.text(i, "id")] = csv.text(i, "code");
  for (const Rule* rule : all_rules()) {
    for (const auto& alias : words_of(rule->aliases)) {
      const std::string& listed = code[alias];
      switch (rule->family) {
        case Asked::nec:
          EXPECT_NE(listed, "iec") << rule->id << " " << alias;
          break;
        case Asked::iec:
          EXPECT_NE(listed, "nec") << rule->id << " " << alias;
          break;
        case Asked::both:
          EXPECT_EQ(listed, "both") << rule->id << " " << alias;
          break;
      }
    }
  }
}

// Cases under, on and over the limit, where it does not apply, and with a fact missing.
TEST(Rules, CasesReachEveryKindOfVerdict) {
  for (const Rule* rule : all_rules()) {
    const auto cases = read(root / "cases/rules" / (file_name(*rule) + ".toml"));
    // A demand that only the eye can judge never passes, and names itself.
    const auto source = read(root / "src/codebook/rules" / (file_name(*rule) + ".cpp"));
    const bool site = source.find("on_site(") != std::string::npos;
    if (site) {
      EXPECT_NE(cases.find("\"on-site\""), std::string::npos) << rule->id;
    }
    if (site && source.find("Verdict::pass") == std::string::npos &&
        source.find("demand_at_") == std::string::npos) {
      EXPECT_NE(cases.find("\"not-applicable\""), std::string::npos) << rule->id;
      continue;
    }
    // There what is not known may go to the site instead.
    for (const auto* verdict :
         {"\"pass\"", site ? "\"on-site\"" : "\"cannot-tell\"", "\"not-applicable\""})
      EXPECT_NE(cases.find(verdict), std::string::npos) << rule->id << " " << verdict;
    EXPECT_TRUE(cases.find("\"fail\"") != std::string::npos ||
                cases.find("\"caution\"") != std::string::npos)
        << rule->id;
  }
}

TEST(RuleList, EditionsAskTheirOwn) {
  const auto ids = [](std::string_view edition) {
    std::set<std::string> all;
    for (const auto& rule : listed_rules(Edition::open_any(edition).value())) all.insert(rule.id);
    return all;
  };
  EXPECT_TRUE(ids("nec_2014").count("G11"));
  EXPECT_FALSE(ids("nec_2017").count("G11"));
  EXPECT_TRUE(ids("nec_2017").count("G12"));
  EXPECT_TRUE(ids("nec_2020").count("L5"));
  EXPECT_FALSE(ids("nec_2023").count("L5"));
  EXPECT_FALSE(ids("nec_2023").count("E1"));
  EXPECT_TRUE(ids("iec_2016").count("E1"));
  EXPECT_TRUE(ids("nec_2023").count("M13"));
}

// What a look-up asks for must exist: Edition asserts on it, so the asking itself is the test.
TEST(Data, EveryFactorAndCitationAskedForExistsInEveryOfferedEdition) {
  std::set<std::string> factors =
      asked_for(R"re((?:factor|temperature|limit<[^>]*>)\(\s*"([^"]+)")re");
  for (const auto* more : {"conductor.continuous-factor", "conductor.listed-100-factor",
                           "ocpd.continuous-factor", "ocpd.listed-100-factor",
                           "resistance.copper-per-kelvin", "resistance.aluminium-per-kelvin"})
    factors.insert(more);
  std::set<std::string> cites = asked_for(R"re(cite\(\s*"([^"]+)")re");
  EXPECT_GT(factors.size(), 15U);
  EXPECT_GT(cites.size(), 25U);
  const auto known_factors = tables::compiled_in("factors.csv");
  const auto known_cites = tables::compiled_in("citations.csv");
  const auto family_has = [](const tables::Csv& csv, const char* column, const std::string& key,
                             Family family) {
    for (std::size_t i = 0; i < csv.size(); ++i)
      if (csv.text(i, column) == key &&
          text::starts_with(csv.text(i, "since"), family == Family::iec ? "iec_" : "nec_"))
        return true;
    return false;
  };
  // A key that only rules name which an edition does not ask yet may begin with a later one.
  const auto excused = [&](const std::string& key, const Edition& edition) {
    bool named = false;
    for (const Rule* rule : all_rules()) {
      const auto keys = words_of(rule->cites);
      if (std::find(keys.begin(), keys.end(), key) == keys.end()) continue;
      named = true;
      if (asked_in(*rule, edition)) return false;
    }
    return named;
  };
  for (const auto& key : cites)
    EXPECT_TRUE(family_has(known_cites, "key", key, Family::nec) ||
                family_has(known_cites, "key", key, Family::iec))
        << "citations.csv has no " << key;
  for (const auto& key : factors)
    EXPECT_TRUE(family_has(known_factors, "id", key, Family::nec) ||
                family_has(known_factors, "id", key, Family::iec))
        << "factors.csv has no " << key;
  for (const auto& id : Edition::offered()) {
    const auto edition = Edition::open(id).value();
    for (const auto& key : cites) {
      if (!family_has(known_cites, "key", key, edition.family()) || excused(key, edition)) continue;
      EXPECT_TRUE(edition.has_cite(key)) << id << " lacks the citation " << key;
    }
    for (std::size_t i = 0; i < known_factors.size(); ++i) {
      const auto& key = known_factors.text(i, "id");
      if (!factors.count(key) || !family_has(known_factors, "id", key, edition.family()) ||
          excused(known_factors.text(i, "cite"), edition))
        continue;
      EXPECT_TRUE(edition.has_factor(key)) << id << " lacks the factor " << key;
    }
  }
  const auto iec = Edition::open_any("iec_2016").value();
  EXPECT_EQ(iec.factor("string-fuse.above").value->in(units::plain), 1.5);
}

// Every row says who has seen its number: words that the printed pages know.
TEST(Data, EveryStatusIsOneOfTheWords) {
  const std::set<std::string> words{"verified", "memory", "common practice",
                                    "common practice, no source"};
  for (const auto* file : {"citations.csv", "factors.csv", "rule_list.csv"}) {
    const auto csv = tables::compiled_in(file);
    for (std::size_t i = 0; i < csv.size(); ++i)
      EXPECT_TRUE(words.count(csv.text(i, "status"))) << file << " " << csv.text(i, "status");
  }
}

// A row nobody asks for is a leftover.
TEST(Data, EveryCitationIsUsed) {
  std::set<std::string> used = asked_for(R"re("([a-z0-9-]+\.[a-z0-9-]+)")re");
  const auto factors = tables::compiled_in("factors.csv");
  for (std::size_t i = 0; i < factors.size(); ++i) {
    EXPECT_TRUE(used.count(factors.text(i, "id"))) << factors.text(i, "id");
    used.insert(factors.text(i, "cite"));
  }
  const auto sizes = tables::compiled_in("smallest_sizes.csv");
  for (std::size_t i = 0; i < sizes.size(); ++i) used.insert(sizes.text(i, "cite"));
  const auto cites = tables::compiled_in("citations.csv");
  for (std::size_t i = 0; i < cites.size(); ++i)
    EXPECT_TRUE(used.count(cites.text(i, "key"))) << cites.text(i, "key");
}

TEST(Notation, EverySymbolOfATrailIsExplained) {
  const std::string notation = read(root / "docs/notation.md");
  const auto symbols = asked_for(
      R"re((?:given|given_once|let|factor|table|read_table|use)\(\s*(?:trail,\s*)?"([^"]+)",\s*")re",
      {"src/codebook"});
  EXPECT_GT(symbols.size(), 30U);
  for (const auto& symbol : symbols)
    EXPECT_NE(notation.find("| " + symbol + " |"), std::string::npos) << symbol;
}

}  // namespace
}  // namespace stringwright::codebook
