#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

namespace stringwright::codebook::tables {

/// One published edition; an index into `editions()` stands for it.
struct EditionRow {
  std::string id, name, title;
  int base = -1;  ///< the edition it is a change list of; -1 begins a family
  int year = 0;
  bool offered = false;
};

/// All of them, each after its base.
const std::vector<EditionRow>& editions();
int edition_index(std::string_view id);  ///< -1 where there is none
/// True when a row with this `since` holds in `edition`, unless a later one replaces it.
bool reaches(int since, int edition);

/// The rows of a table that a later `since` replaces as a whole, as they hold in `edition`.
template <class Row>
std::vector<Row> as_of(const std::vector<Row>& all, int edition) {
  int newest = -1;
  for (const auto& row : all)
    if (reaches(row.since, edition)) newest = std::max(newest, row.since);
  std::vector<Row> rows;
  for (const auto& row : all)
    if (row.since == newest) rows.push_back(row);
  return rows;
}

/// The row of a table keyed by something, as it holds in `edition`; null where there is none.
template <class Row, class Is>
const Row* newest(const std::vector<Row>& all, int edition, Is is) {
  const Row* best = nullptr;
  for (const auto& row : all)
    if (is(row) && reaches(row.since, edition) && (best == nullptr || row.since > best->since))
      best = &row;
  return best;
}

}  // namespace stringwright::codebook::tables
