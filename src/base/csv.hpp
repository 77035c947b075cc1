#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/span.hpp"

namespace stringwright {

/// One cell of a CSV text, and where it stands (quotes included).
struct CsvCell {
  std::string text;
  Span span;
};

/// Rows of a CSV text (RFC 4180: commas, cells in '"' may hold commas, line breaks and '""'). Empty lines
/// are passed over. A byte order mark is too.
struct CsvTable {
  std::vector<std::vector<CsvCell>> rows;
};

/// Never fails: a quote that is not closed, or text behind a closing quote, is an error in `out`, and
/// what could be read is there.
/// @param file  name for messages
CsvTable read_csv(std::string_view text, std::string_view file, Diagnostics& out);

/// A cell as it has to be written: in quotes where it needs them.
std::string csv_cell(std::string_view text);

}  // namespace stringwright
