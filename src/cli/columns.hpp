#pragma once

#include <cstddef>
#include <string>

/// Text in columns for a terminal of 100 columns.
namespace stringwright::cli {

/// Filled with blanks to a width; at least one follows.
std::string padded(const std::string& s, std::size_t width);

/// A paragraph broken at blanks to fit a terminal, each line indented.
std::string paragraph(const std::string& words, std::size_t indent);

}  // namespace stringwright::cli
