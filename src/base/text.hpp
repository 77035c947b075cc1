#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace stringwright::text {

std::string_view trim(std::string_view s);
std::vector<std::string_view> split(std::string_view s, char separator);
std::string join(const std::vector<std::string>& parts, std::string_view between);
bool starts_with(std::string_view s, std::string_view prefix);
bool ends_with(std::string_view s, std::string_view suffix);
std::string replace_all(std::string s, std::string_view from, std::string_view to);

/// Number of code points of a UTF-8 text; a broken byte counts as one.
std::size_t length(std::string_view utf8);

/// Bytes of the code point that `utf8` begins with: 1 to 4; 0 where nothing is left. A broken byte
/// (stray, overlong, cut off, a surrogate) is 1.
std::size_t code_point_bytes(std::string_view utf8);

/// The text as valid UTF-8 without control characters, tab apart: each broken byte and each control
/// character becomes one U+FFFD, so columns stay where they are.
std::string printable(std::string_view utf8);

/// What a message shows of a text it met: printable, in single quotes, cut off after 60 code points.
std::string quoted(std::string_view utf8);

/// ASCII letters in lower case, all else as it is.
std::string lower(std::string_view s);

/// Fixed-point decimal, '.' as the point, '−' (U+2212) as the sign; never "-0.00". A half rounds away
/// from zero as by hand, and float noise does not count: 11.35 · 2 · 1.25 gives 28.38, not 28.37.
/// What is not finite prints as "∞", "−∞" or "not a number".
std::string fixed(double value, int decimals);

/// The shortest decimal that reads back as `value` to `significant` digits, no exponent for
/// 1e-4 <= |value| < 1e9 (there whole digits are kept all); else "1.5e−7". Signs are '−' (U+2212).
std::string shortest(double value, int significant = 6);

/// The candidate nearest to `word` by edits (insert, drop, change, swap of neighbours; small and
/// capital letters alike), if it is near enough to be meant: one edit in three code points.
/// Of equally near ones the one with the longer common beginning.
std::optional<std::string> nearest(std::string_view word,
                                   const std::vector<std::string>& candidates);

/// One row of a CSV file: comma separated, cells may be quoted with '"'; '""' is a quote.
std::vector<std::string> csv_row(std::string_view line);

}  // namespace stringwright::text
