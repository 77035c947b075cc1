#include "base/text.hpp"
#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  std::string key;
  int since = -1;
  std::string cite, status;
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("citations.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.text(i, "key"), tables::edition_index(csv.text(i, "since")),
                     csv.text(i, "cite"), csv.text(i, "status")});
    return all;
  }();
  return rows;
}

}  // namespace

bool Edition::has_cite(std::string_view key) const {
  return tables::newest(all_rows(), index_, [&](const Row& r) { return r.key == key; }) != nullptr;
}

trail::Source Edition::cite(std::string_view key) const {
  const Row* found = tables::newest(all_rows(), index_, [&](const Row& r) { return r.key == key; });
  // A table of the other family may be asked by what serves both; a test lists what a rule would miss.
  if (found == nullptr) return {std::string(title()), "memory"};
  if (text::starts_with(found->cite, "=")) return {found->cite.substr(1), found->status};
  return {std::string(title()) + ", " + found->cite, found->status};
}

}  // namespace stringwright::codebook
