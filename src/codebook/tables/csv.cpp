#include "codebook/tables/csv.hpp"

#include <algorithm>
#include <cassert>
#include <charconv>

#include "base/text.hpp"
#include "codebook/data_files.hpp"

namespace stringwright::codebook::tables {
namespace {

std::optional<double> parse(std::string_view cell) {
  double number = 0;
  const auto [end, trouble] = std::from_chars(cell.data(), cell.data() + cell.size(), number);
  if (trouble != std::errc{} || end != cell.data() + cell.size()) return std::nullopt;
  return number;
}

}  // namespace

Result<Csv> Csv::read(std::string_view source) {
  Csv csv;
  for (std::string_view line : text::split(source, '\n')) {
    line = text::trim(line);
    if (line.empty() || line.front() == '#') continue;
    auto cells = text::csv_row(line);
    if (csv.header_.empty()) {
      auto names = cells;
      std::sort(names.begin(), names.end());
      const auto twice = std::adjacent_find(names.begin(), names.end());
      if (twice != names.end())
        return Failure{"codebook.table", "column '" + *twice + "' stands twice"};
      csv.header_ = std::move(cells);
    } else if (cells.size() == csv.header_.size()) {
      csv.rows_.push_back(std::move(cells));
    } else {
      return Failure{"codebook.table",
                     "a row has " + std::to_string(cells.size()) + " cells, the header " +
                         std::to_string(csv.header_.size()) + ": " + std::string(line)};
    }
  }
  if (csv.header_.empty()) return Failure{"codebook.table", "no header line"};
  return csv;
}

bool Csv::has(std::string_view column) const {
  return std::find(header_.begin(), header_.end(), column) != header_.end();
}

std::size_t Csv::column(std::string_view name) const {
  const auto found = std::find(header_.begin(), header_.end(), name);
  assert(found != header_.end());
  return static_cast<std::size_t>(found - header_.begin());
}

const std::string& Csv::text(std::size_t row, std::string_view name) const {
  return rows_[row][column(name)];
}

std::optional<double> Csv::number(std::size_t row, std::string_view name) const {
  const auto& cell = text(row, name);
  const auto number = parse(cell);
  assert(number || cell.empty());
  return number;
}

Csv compiled_in(std::string_view file) {
  const auto files = data_files();
  const auto found =
      std::find_if(files.begin(), files.end(), [&](const DataFile& f) { return f.name == file; });
  assert(found != files.end());
  auto csv = Csv::read(found->text);
  assert(csv);
  return std::move(csv).value();
}

}  // namespace stringwright::codebook::tables
