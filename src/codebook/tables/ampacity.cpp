#include <cmath>
#include <cstddef>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

constexpr const char* column_names[2][3] = {{"cu_60", "cu_75", "cu_90"},
                                            {"al_60", "al_75", "al_90"}};

struct Row {
  int since = -1;
  units::WireSize size;
  std::optional<double> amps[2][3];  ///< [copper, aluminium][60, 75, 90 °C]
  std::string status;
};

std::vector<Row> read(std::string_view file) {
  const auto csv = tables::compiled_in(file);
  std::vector<Row> all;
  all.reserve(csv.size());
  for (std::size_t i = 0; i < csv.size(); ++i) {
    Row row;
    row.since = tables::edition_index(csv.text(i, "since"));
    row.size = units::WireSize::from_table(csv.text(i, "size")).value_or(units::WireSize{});
    for (int metal = 0; metal < 2; ++metal)
      for (int column = 0; column < 3; ++column)
        row.amps[metal][column] = csv.number(i, column_names[metal][column]);
    row.status = csv.text(i, "status");
    all.push_back(std::move(row));
  }
  return all;
}

const std::vector<Row>& raceway() {
  static const std::vector<Row> rows = read("ampacity.csv");
  return rows;
}
const std::vector<Row>& free_air() {
  static const std::vector<Row> rows = read("ampacity_free_air.csv");
  return rows;
}

/// 0, 1, 2 for the 60, 75 and 90 °C column; -1 for any other temperature.
int column_of(units::Temperature t) {
  constexpr double columns[] = {60, 75, 90};
  for (int i = 0; i < 3; ++i)
    if (std::fabs(t.celsius() - columns[i]) < 1e-6) return i;
  return -1;
}

Looked<units::Current> look(const std::vector<Row>& rows, int edition, const units::WireSize& size,
                            units::Metal metal, units::Temperature column, trail::Source source) {
  Looked<units::Current> looked;
  looked.where = size.print() + " " + std::string(units::print(metal)) + ", " +
                 units::print(column) + " column";
  looked.source = std::move(source);
  const int c = column_of(column);
  const Row* row = tables::newest(rows, edition, [&](const Row& r) { return r.size == size; });
  if (size.metric()) {
    looked.why = "the table lists AWG and kcmil sizes, not " + size.print();
  } else if (row == nullptr) {
    looked.why = "the table does not list " + size.print();
  } else if (c < 0) {
    looked.why = "the table has columns for 60, 75 and 90 °C, not " + units::print(column);
  } else {
    if (looked.source.status == "verified") looked.source.status = row->status;
    if (const auto cell = row->amps[metal == units::Metal::copper ? 0 : 1][c])
      looked.value = units::amps(*cell);
    else
      looked.why = "the table has no value for " + looked.where;
  }
  return looked;
}

}  // namespace

Looked<units::Current> Edition::ampacity(const units::WireSize& size, units::Metal metal,
                                         units::Temperature column) const {
  return look(raceway(), index_, size, metal, column, cite("table.raceway"));
}

Looked<units::Current> Edition::ampacity_free_air(const units::WireSize& size, units::Metal metal,
                                                  units::Temperature column) const {
  return look(free_air(), index_, size, metal, column, cite("table.free-air"));
}

}  // namespace stringwright::codebook
