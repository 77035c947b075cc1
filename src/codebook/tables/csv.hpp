#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

/// The compiled-in tables of data/codebook. Each file of this folder parses one table, once, when it is
/// first asked for.
namespace stringwright::codebook::tables {

/// A CSV file: lines that begin with '#' say what, units, source and status; then one header line.
class Csv {
 public:
  /// A row shorter or longer than the header, a repeated column or a file without header is a failure.
  static Result<Csv> read(std::string_view text);

  std::size_t size() const { return rows_.size(); }
  bool has(std::string_view column) const;
  /// The cell as text; the column must exist.
  const std::string& text(std::size_t row, std::string_view column) const;
  /// The cell as a number; empty where the cell is.
  std::optional<double> number(std::size_t row, std::string_view column) const;

 private:
  std::size_t column(std::string_view name) const;
  std::vector<std::string> header_;
  std::vector<std::vector<std::string>> rows_;
};

/// A file of data/codebook by name ("ampacity.csv"). That it exists and is sound is ours to keep.
Csv compiled_in(std::string_view file);

}  // namespace stringwright::codebook::tables
