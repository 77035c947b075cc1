#include <algorithm>
#include <map>
#include <string_view>
#include <utility>

#include "base/text.hpp"
#include "parts/data_files.hpp"
#include "parts/store.hpp"

namespace stringwright::parts {
namespace {

/// Section and id of a header line such as `[part."a b"]`; empty where the line is something else.
std::pair<std::string, std::string> header(std::string_view line) {
  const auto s = text::trim(line);
  for (const std::string_view section : {"module", "part"}) {
    const std::string begins = "[" + std::string(section) + ".";
    if (!text::starts_with(s, begins)) continue;
    auto id = s.substr(begins.size());
    const auto end = id.find(']');
    if (end == std::string_view::npos) continue;
    id = id.substr(0, end);
    if (id.size() >= 2 && id.front() == '"' && id.back() == '"') id = id.substr(1, id.size() - 2);
    return {std::string(section), std::string(id)};
  }
  return {};
}

/// The text of `key = "text"`, where the line is that.
std::string value(std::string_view line, std::string_view key) {
  const auto equals = line.find('=');
  if (equals == std::string_view::npos || text::trim(line.substr(0, equals)) != key) return {};
  const auto open = line.find('"', equals);
  const auto close = open == std::string_view::npos ? open : line.find('"', open + 1);
  return close == std::string_view::npos ? std::string{}
                                         : std::string(line.substr(open + 1, close - open - 1));
}

}  // namespace

std::vector<Row> split_rows(std::string_view text) {
  std::vector<Row> rows;
  for (const auto line : text::split(text, '\n')) {
    if (auto [section, id] = header(line); !section.empty())
      rows.push_back({section, std::move(id), section == "module" ? "module" : "", "", ""});
    if (rows.empty()) continue;
    Row& row = rows.back();
    row.text += std::string(line) + "\n";
    if (const auto kind = value(line, "kind"); !kind.empty() && row.section == "part")
      row.kind = kind;
    if (const auto title = value(line, "title"); !title.empty()) row.title = title;
  }
  return rows;
}

std::vector<Row> default_rows() {
  std::vector<Row> all;
  for (const auto& file : data_files())
    if (text::ends_with(file.name, ".toml"))
      for (auto& row : split_rows(file.text)) all.push_back(std::move(row));
  return over({}, all);
}

std::vector<Row> over(std::vector<Row> base, const std::vector<Row>& own) {
  std::map<std::pair<std::string, std::string>, Row> by_id;
  for (auto& row : base) by_id[{row.section, row.id}] = std::move(row);
  for (const auto& row : own) by_id[{row.section, row.id}] = row;
  std::vector<Row> all;
  all.reserve(by_id.size());
  for (auto& [key, row] : by_id) all.push_back(std::move(row));
  return all;
}

}  // namespace stringwright::parts
