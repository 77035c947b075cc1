#include "rule_cases.hpp"

#include <cstdio>
#include <vector>

#include "base/text.hpp"
#include "codebook/rule.hpp"
#include "facts_reader.hpp"
#include "toml_file.hpp"

namespace stringwright::run_cases {
namespace {

std::vector<std::string> list_of(const toml::table& table, std::string_view key) {
  std::vector<std::string> all;
  if (const auto* list = table[key].as_array())
    for (const auto& element : *list) all.push_back(element.value_or<std::string>(""));
  return all;
}

/// The wanted lines have to stand among the found ones in this order; the first that does not.
std::string first_missing(const std::vector<std::string>& wanted,
                          const std::vector<std::string>& found) {
  std::size_t next = 0;
  for (const auto& line : wanted) {
    while (next < found.size() && found[next] != line) ++next;
    if (next == found.size()) return line;
    ++next;
  }
  return "";
}

std::string found_lines(const std::vector<std::string>& lines) {
  std::string all;
  for (const auto& line : lines) all += "\n      found " + line;
  return all;
}

/// What does not hold of one case; empty where all does.
std::vector<std::string> run(const codebook::Rule& rule, const toml::table& table) {
  std::vector<std::string> misses;
  const auto* given = table["given"].as_table();
  if (given == nullptr) return {"has no given"};
  const auto edition = codebook::Edition::open_any((*given)["edition"].value_or<std::string>(""));
  if (!edition) return {edition.failure().message};
  const auto facts = read_facts(*given);
  if (!facts) return {facts.failure().message};

  if (!codebook::asked_in(rule, *edition))
    return {std::string(edition->name()) + " does not ask this rule"};
  trail::Trail trail;
  trail::Outcome outcome{trail::Verdict::not_applicable, "The rule does not ask this.", {}, {}};
  if (rule.applies(*facts)) outcome = rule.check(*facts, *edition, trail);

  const auto expected = table["expect"].value_or<std::string>("");
  const std::string found(trail::key(outcome.verdict));
  if (expected != found)
    misses.push_back("expected " + expected + ", found " + found + ": " + outcome.so);
  if (const auto so = table["so"].value<std::string>(); so && *so != outcome.so)
    misses.push_back("expected so: " + *so + "\n      found " + outcome.so);
  if (const auto also = first_missing(list_of(table, "also"), outcome.also); !also.empty())
    misses.push_back("expected also: " + also + found_lines(outcome.also));
  std::vector<std::string> lines;
  for (const auto& step : trail.steps()) lines.push_back(trail::render(step));
  if (const auto line = first_missing(list_of(table, "trail"), lines); !line.empty())
    misses.push_back("expected in the trail: " + line + found_lines(lines));
  for (const auto& [key, value] : table) {
    const std::string_view name = key.str();
    if (name != "name" && name != "given" && name != "expect" && name != "so" && name != "also" &&
        name != "trail" && name != "source")
      misses.push_back("unknown key " + text::quoted(name));
  }
  return misses;
}

}  // namespace

bool is_rule_file(const std::string& path, std::string_view text) {
  const auto parsed = parse_toml(path, text);
  return parsed && parsed->contains("rule");
}

Result<Tally> run_rule_file(const std::string& path, std::string_view text) {
  const auto parsed = parse_toml(path, text);
  if (!parsed) return parsed.failure();
  const auto id = (*parsed)["rule"].value_or<std::string>("");
  const auto* rule = codebook::find_rule(id);
  if (rule == nullptr)
    return Failure{"cases.rule", path + ": there is no rule " + text::quoted(id)};
  const auto* list = (*parsed)["case"].as_array();
  if (list == nullptr || list->empty()) return Failure{"cases.rule", path + ": no cases"};
  Tally tally;
  for (const auto& node : *list) {
    const auto* table = node.as_table();
    const auto misses = table ? run(*rule, *table) : std::vector<std::string>{"is not a table"};
    const std::string name = table ? (*table)["name"].value_or<std::string>("?") : "?";
    for (const auto& miss : misses)
      std::printf("%s: %s: %s\n", path.c_str(), name.c_str(), miss.c_str());
    ++(misses.empty() ? tally.passed : tally.failed);
  }
  return tally;
}

}  // namespace stringwright::run_cases
