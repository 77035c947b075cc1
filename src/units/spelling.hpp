#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"

/// What reading quantities and reading sizes share. Other rooms use read.hpp and sizes.hpp.
namespace stringwright::units::detail {

/// One spelling for what keyboards and word processors write in many: U+2212 becomes '-', every
/// Unicode space ' ', look-alikes of Ω, °, μ, Δ, ·, ′ and ″ one code point each, "½" becomes " 1/2".
/// Outer blanks go.
std::string plain_spelling(std::string_view text);

/// The words of a text in plain spelling.
std::vector<std::string> words(std::string_view plain);

/// The number at the front of a text, and what follows it without leading blanks.
struct Number {
  double value = 0;
  std::string_view rest;
};

/// @param plain  in plain spelling
/// @param shown  the text as it was written, for messages
Result<Number> take_number(std::string_view plain, std::string_view shown);

}  // namespace stringwright::units::detail
