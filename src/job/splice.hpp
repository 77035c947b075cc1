#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "base/span.hpp"

namespace stringwright::job {

/// One stretch of a job's text, put otherwise. All else stays as it is, comments and order too.
struct Splice {
  Span
      span;  ///< as a message gives it: lines and columns from 1, columns in code points, end exclusive
  std::string text;
};

/// The text with all splices made. Fails where a span lies outside the text or two of them overlap; then
/// nothing is changed.
Result<std::string> splice(std::string_view text, std::vector<Splice> splices);

/// A further key right behind the value at `value`, in the table it stands in: on a line of its own, or
/// behind a comma where the table is written in braces on that line.
Splice key_behind(std::string_view text, Span value, std::string_view key_and_value);

}  // namespace stringwright::job
