#include "edition_cases.hpp"

#include <cstdio>
#include <set>
#include <vector>

#include "base/text.hpp"
#include "codebook/rule.hpp"
#include "facts_reader.hpp"
#include "toml_file.hpp"

namespace stringwright::run_cases {
namespace {

/// What a table by edition says of one; empty where it says nothing.
std::optional<std::string> of_edition(const toml::table* by, const std::string& id) {
  if (by == nullptr) return std::nullopt;
  // "all" are the editions of the NEC; the other family is always named.
  if (const auto own = (*by)[id].value<std::string>()) return own;
  if (!text::starts_with(id, "nec_")) return std::nullopt;
  return (*by)["all"].value<std::string>();
}

std::vector<std::string> run(const toml::table& shared, const toml::table& one) {
  std::vector<std::string> misses;
  const auto* rule = codebook::find_rule(one["rule"].value_or<std::string>(""));
  if (rule == nullptr)
    return {"there is no rule " + text::quoted(one["rule"].value_or<std::string>(""))};
  static const std::set<std::string> words{"V", "M", "C"};
  if (!words.count(one["status"].value_or<std::string>("")))
    misses.push_back("status is V, M or C");
  toml::table given = shared;
  if (const auto* own = one["given"].as_table())
    for (const auto& [key, value] : *own) given.insert_or_assign(key, value);
  const auto facts = read_facts(given);
  if (!facts) return {facts.failure().message};
  int told = 0;
  for (const auto& id : codebook::Edition::offered()) {
    const auto expected = of_edition(one["expect"].as_table(), id);
    if (!expected) continue;
    ++told;
    const auto edition = codebook::Edition::open(id).value();
    if (!codebook::asked_in(*rule, edition)) {
      misses.push_back(id + " does not ask this rule");
      continue;
    }
    trail::Trail trail;
    const auto outcome = rule->check(*facts, edition, trail);
    if (*expected != trail::key(outcome.verdict))
      misses.push_back(id + ": expected " + *expected + ", found " +
                       std::string(trail::key(outcome.verdict)) + ": " + outcome.so);
    if (const auto so = of_edition(one["so"].as_table(), id); so && *so != outcome.so)
      misses.push_back(id + ": expected so: " + *so + "\n      found " + outcome.so);
  }
  if (told == 0) misses.emplace_back("expects nothing of any edition");
  return misses;
}

}  // namespace

bool is_edition_file(const std::string& path, std::string_view text) {
  const auto parsed = parse_toml(path, text);
  return parsed && parsed->contains("editions");
}

Result<Tally> run_edition_file(const std::string& path, std::string_view text) {
  const auto parsed = parse_toml(path, text);
  if (!parsed) return parsed.failure();
  const auto* shared = (*parsed)["facts"].as_table();
  const auto* list = (*parsed)["case"].as_array();
  if (shared == nullptr || list == nullptr || list->empty())
    return Failure{"cases.editions", path + ": needs [facts] and cases"};
  Tally tally;
  for (const auto& node : *list) {
    const auto* table = node.as_table();
    const auto misses = table ? run(*shared, *table) : std::vector<std::string>{"is not a table"};
    for (const auto& miss : misses)
      std::printf("%s: %s: %s\n", path.c_str(),
                  table ? (*table)["name"].value_or<std::string>("?").c_str() : "?", miss.c_str());
    ++(misses.empty() ? tally.passed : tally.failed);
  }
  return tally;
}

}  // namespace stringwright::run_cases
