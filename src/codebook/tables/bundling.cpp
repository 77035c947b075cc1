#include <cstddef>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  double from;
  std::optional<double> to;  ///< absent: and above
  double percent;
  std::string status;
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("bundling.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.number(i, "n_min").value_or(0), csv.number(i, "n_max"),
                     csv.number(i, "factor_percent").value_or(0), csv.text(i, "status")});
    return all;
  }();
  return rows;
}

}  // namespace

Looked<units::Ratio> Edition::bundling_factor(int wires) const {
  Looked<units::Ratio> looked;
  looked.source = cite("table.bundling");
  looked.where = std::to_string(wires) + " current-carrying";
  for (const auto& row : all_rows()) {
    if (wires < row.from || (row.to && wires > *row.to)) continue;
    looked.value = units::percent(row.percent);
    if (looked.source.status == "verified") looked.source.status = row.status;
    return looked;
  }
  looked.why = "a count of " + std::to_string(wires) + " conductors makes no sense";
  return looked;
}

}  // namespace stringwright::codebook
