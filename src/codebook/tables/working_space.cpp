#include <string>
#include <vector>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "units/print.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  units::Voltage v_max;
  units::Length nothing, grounded, live;
  std::string status;
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("working_space.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i) {
      const auto feet = [&](const char* column) {
        return units::feet(csv.number(i, column).value_or(0));
      };
      all.push_back({units::volts(csv.number(i, "v_max").value_or(0)), feet("nothing"),
                     feet("grounded"), feet("live"), csv.text(i, "status")});
    }
    return all;
  }();
  return rows;
}

}  // namespace

Looked<units::Length> Edition::working_depth(units::Voltage v, std::string_view opposite) const {
  Looked<units::Length> looked;
  looked.source = cite("table.working-space");
  for (const auto& row : all_rows()) {
    if (!units::at_most(v, row.v_max)) continue;
    looked.value = opposite == "nothing"    ? row.nothing
                   : opposite == "grounded" ? row.grounded
                                            : row.live;
    looked.where =
        "up to " + units::print(row.v_max, 0) + ", " + std::string(opposite) + " opposite";
    if (looked.source.status == "verified") looked.source.status = row.status;
    return looked;
  }
  looked.why = "the table of working space ends at " + units::print(all_rows().back().v_max, 0);
  return looked;
}

}  // namespace stringwright::codebook
