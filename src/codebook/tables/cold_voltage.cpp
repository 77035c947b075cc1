#include <cstddef>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  int since = -1;
  double warm, cold;  ///< °C, inclusive
  double factor;
  std::string status;
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("cold_voltage.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({tables::edition_index(csv.text(i, "since")),
                     csv.number(i, "t_warm_c").value_or(0), csv.number(i, "t_cold_c").value_or(0),
                     csv.number(i, "factor").value_or(0), csv.text(i, "status")});
    return all;
  }();
  return rows;
}

}  // namespace

Looked<units::Ratio> Edition::cold_voltage_factor(units::Temperature t_min) const {
  Looked<units::Ratio> looked;
  looked.source = cite("table.cold-voltage");
  const auto rows = tables::as_of(all_rows(), index_);
  const auto warmest = temperature("voltage.warmest-corrected");
  const double celsius = t_min.celsius();
  const auto shown = [](double t) { return units::print(units::celsius(t)); };
  if (rows.empty() || !warmest.value) {
    looked.why = family() == Family::iec ? "no table of the IEC family is held here"
                                         : std::string(name()) + " has no such table";
    return looked;
  }
  if (t_min >= *warmest.value && celsius > rows.front().warm + 1e-9) {
    looked.value = 1.0;
    looked.where = units::print(*warmest.value) + " and warmer";
    return looked;
  }
  for (const auto& row : rows) {
    if (celsius < row.cold - 1e-9) continue;
    looked.value = row.factor;
    looked.where = shown(row.warm) + " to " + shown(row.cold);
    if (looked.source.status == "verified") looked.source.status = row.status;
    return looked;
  }
  looked.why =
      "the table ends at " + shown(rows.back().cold) + "; colder, the maker's data must be used";
  return looked;
}

}  // namespace stringwright::codebook
