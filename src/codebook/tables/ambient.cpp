#include <cmath>
#include <cstddef>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  int since = -1;
  std::optional<double> low, high;  ///< °C, inclusive
  std::optional<double> k[3];       ///< 60, 75, 90 °C
  std::string status;
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("ambient_correction.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({tables::edition_index(csv.text(i, "since")),
                     csv.number(i, "t_min_c"),
                     csv.number(i, "t_max_c"),
                     {csv.number(i, "k_60"), csv.number(i, "k_75"), csv.number(i, "k_90")},
                     csv.text(i, "status")});
    return all;
  }();
  return rows;
}

/// The row that holds at `ambient`: the coolest whose upper bound is not below it. 40.000000001 °C out of
/// a conversion is 40 °C.
std::optional<Row> row_at(units::Temperature ambient, int edition) {
  for (const auto& row : tables::as_of(all_rows(), edition))
    if (row.high && ambient.celsius() <= *row.high + 1e-9) return row;
  return std::nullopt;
}

}  // namespace

Looked<units::Ratio> Edition::ambient_factor(units::Temperature ambient,
                                             units::Temperature column) const {
  Looked<units::Ratio> looked;
  looked.source = cite("table.ambient");
  const auto row = row_at(ambient, index_);
  int c = -1;
  for (int i = 0; i < 3; ++i)
    if (std::fabs(column.celsius() - (60 + 15 * i)) < 1e-6) c = i;
  if (c < 0) {
    looked.why = "the table has columns for 60, 75 and 90 °C, not " + units::print(column);
    return looked;
  }
  if (!row) {
    looked.why = "the table ends below " + units::print(ambient);
    return looked;
  }
  const auto shown = [](double t) { return units::print(units::celsius(t)); };
  looked.where =
      (row->low ? shown(*row->low) + " to " + shown(*row->high) : shown(*row->high) + " or less") +
      ", " + units::print(column) + " column";
  if (looked.source.status == "verified") looked.source.status = row->status;
  if (row->k[c])
    looked.value = *row->k[c];
  else
    looked.why =
        "conductors rated " + units::print(column) + " may not be used at " + units::print(ambient);
  return looked;
}

std::optional<AmbientBand> Edition::ambient_band(units::Temperature ambient) const {
  const auto row = row_at(ambient, index_);
  if (!row) return std::nullopt;
  AmbientBand band;
  if (row->low) band.low = units::celsius(*row->low);
  band.high = units::celsius(*row->high);
  return band;
}

Looked<units::Ratio> Edition::ambient_factor_equation(units::Temperature ambient,
                                                      units::Temperature column) const {
  const auto base = temperature("conductor.ampacity-ambient");
  Looked<units::Ratio> looked;
  looked.where = "ambient " + units::print(ambient) + ", conductor " + units::print(column);
  looked.source = cite("table.ambient-equation");
  if (!base.value || ambient >= column || *base.value >= column) {
    looked.why =
        "conductors rated " + units::print(column) + " may not be used at " + units::print(ambient);
    return looked;
  }
  looked.value = std::sqrt((column - ambient) / (column - *base.value));
  return looked;
}

}  // namespace stringwright::codebook
