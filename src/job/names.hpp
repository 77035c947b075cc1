#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "job/job.hpp"

/// Texts that name things: ids, places, walks, landings, dates.
namespace stringwright::job {

/// A part of a text that can't be used, and why.
struct BadPart {
  std::string message;
  std::string part;  ///< as it stands in the text, for a caret under it
};

/// Why a word can't be an id, or nothing. An id stands in walks, landings and findings, so it has no
/// blank and none of . , @ + { } and does not end in '-'.
std::optional<std::string> bad_id(std::string_view word);

/// Modules of one string at most; longer walks are a slip of the pen, not a string.
inline constexpr int longest_walk = 1000;

/// "R1.3-R1.1", "X.1-X.4, X.6-X.9", "R1.2": ranges of places, up or down, in the order walked.
Result<std::vector<ModulePlace>, BadPart> read_walk(std::string_view text);

/// The shortest text that reads as this walk.
std::string print_walk(const std::vector<ModulePlace>& walk);

/// "A1.1" (a number is taken as a slot), "CC1.PV1", "BA.minus.7", "BA.earth.2".
Result<Landing, BadPart> read_landing(std::string_view text);

/// "S3+" or "A7-": string and pole.
struct StringEnd {
  std::string string;
  Pole pole = Pole::plus;
};
Result<StringEnd, BadPart> read_string_end(std::string_view text);

/// Whether a text is a day of the calendar, year-month-day.
bool is_date(std::string_view text);

/// A whole number of at most nine digits, without sign.
std::optional<int> read_count(std::string_view digits);

}  // namespace stringwright::job
