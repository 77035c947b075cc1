#include "codebook/tables/editions.hpp"

#include <cassert>

#include "codebook/tables/csv.hpp"

namespace stringwright::codebook::tables {
namespace {

int index_in(const std::vector<EditionRow>& rows, std::string_view id) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (rows[i].id == id) return static_cast<int>(i);
  return -1;
}

}  // namespace

const std::vector<EditionRow>& editions() {
  static const std::vector<EditionRow> rows = [] {
    const Csv csv = compiled_in("editions.csv");
    std::vector<EditionRow> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i) {
      EditionRow row;
      row.id = csv.text(i, "id");
      row.name = csv.text(i, "name");
      row.title = csv.text(i, "title");
      row.base = index_in(all, csv.text(i, "base"));
      row.year = static_cast<int>(csv.number(i, "year").value_or(0));
      row.offered = csv.text(i, "offered") == "yes";
      assert(row.base >= 0 || csv.text(i, "base").empty());
      all.push_back(std::move(row));
    }
    return all;
  }();
  return rows;
}

int edition_index(std::string_view id) { return index_in(editions(), id); }

bool reaches(int since, int edition) {
  for (int i = edition; i >= 0; i = editions()[static_cast<std::size_t>(i)].base)
    if (i == since) return true;
  return false;
}

}  // namespace stringwright::codebook::tables
