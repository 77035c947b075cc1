#include <cstddef>
#include <string>

#include "base/text.hpp"
#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  ListedRule rule;
  std::string code;  ///< nec, iec, both
  int since, until;  ///< -1: no bound
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("rule_list.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({{csv.text(i, "id"), csv.text(i, "title")},
                     csv.text(i, "code"),
                     tables::edition_index(csv.text(i, "since")),
                     tables::edition_index(csv.text(i, "until"))});
    return all;
  }();
  return rows;
}

}  // namespace

const std::vector<ListedRule>& listed_rules() {
  static const std::vector<ListedRule> rules = [] {
    std::vector<ListedRule> all;
    for (const auto& row : all_rows()) all.push_back(row.rule);
    return all;
  }();
  return rules;
}

std::vector<ListedRule> listed_rules(const Edition& edition) {
  const int index = tables::edition_index(edition.id());
  std::vector<ListedRule> all;
  for (const auto& row : all_rows()) {
    const bool family = row.code == "both" || text::starts_with(edition.id(), row.code + "_");
    const bool begun = row.since < 0 || tables::reaches(row.since, index);
    const bool ended = row.until >= 0 && tables::reaches(row.until, index);
    if (family && begun && !ended) all.push_back(row.rule);
  }
  return all;
}

}  // namespace stringwright::codebook
