#include "base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace stringwright::text {
namespace {

constexpr std::string_view white = " \t\r\n\f\v";
constexpr std::string_view minus = "−";
constexpr std::string_view replacement = "\uFFFD";

unsigned byte_at(std::string_view s, std::size_t i) { return static_cast<unsigned char>(s[i]); }

/// The code points of a text as slices of it.
std::vector<std::string_view> code_points(std::string_view s) {
  std::vector<std::string_view> all;
  while (!s.empty()) {
    const std::size_t n = code_point_bytes(s);
    all.push_back(s.substr(0, n));
    s.remove_prefix(n);
  }
  return all;
}

/// C0 and C1 control characters and DEL, but not the tab.
bool is_control(std::string_view code_point) {
  const unsigned first = byte_at(code_point, 0);
  if (code_point.size() == 1) return (first < 0x20 && first != '\t') || first == 0x7F;
  return code_point.size() == 2 && first == 0xC2 && byte_at(code_point, 1) < 0xA0;
}

bool is_broken(std::string_view code_point) {
  return code_point.size() == 1 && byte_at(code_point, 0) >= 0x80;
}

/// A hair outwards, so that a half rounds away from zero even where float noise left it just under.
/// Only as long as the hair is far below the last digit printed.
double outwards(double magnitude, int decimals) {
  constexpr double hair = 1e-13;
  return magnitude * std::pow(10.0, decimals) < 1e10 ? magnitude * (1 + hair) : magnitude;
}

std::string not_finite(double value) {
  if (std::isnan(value)) return "not a number";
  return value < 0 ? "−∞" : "∞";
}

std::string without_trailing_zeros(std::string digits) {
  if (digits.find('.') == std::string::npos) return digits;
  digits.erase(digits.find_last_not_of('0') + 1);
  if (digits.back() == '.') digits.pop_back();
  return digits;
}

/// Edits between two words (optimal string alignment).
std::size_t distance(const std::vector<std::string_view>& a,
                     const std::vector<std::string_view>& b) {
  std::vector<std::size_t> before;
  std::vector<std::size_t> above(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    before = above;
    above = row;
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0 : 1;
      row[j] = std::min({above[j] + 1, row[j - 1] + 1, above[j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], before[j - 2] + 1);
    }
  }
  return row[b.size()];
}

std::size_t common_prefix(const std::vector<std::string_view>& a,
                          const std::vector<std::string_view>& b) {
  std::size_t n = 0;
  while (n < a.size() && n < b.size() && a[n] == b[n]) ++n;
  return n;
}

}  // namespace

std::string_view trim(std::string_view s) {
  const auto first = s.find_first_not_of(white);
  if (first == std::string_view::npos) return {};
  return s.substr(first, s.find_last_not_of(white) - first + 1);
}

std::vector<std::string_view> split(std::string_view s, char separator) {
  std::vector<std::string_view> parts;
  for (;;) {
    const auto at = s.find(separator);
    parts.push_back(s.substr(0, at));
    if (at == std::string_view::npos) return parts;
    s.remove_prefix(at + 1);
  }
}

std::string join(const std::vector<std::string>& parts, std::string_view between) {
  std::string all;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) all += between;
    all += parts[i];
  }
  return all;
}

bool starts_with(std::string_view s, std::string_view prefix) {
  return s.substr(0, prefix.size()) == prefix;
}

bool ends_with(std::string_view s, std::string_view suffix) {
  return s.size() >= suffix.size() && s.substr(s.size() - suffix.size()) == suffix;
}

std::string replace_all(std::string s, std::string_view from, std::string_view to) {
  if (from.empty()) return s;
  for (auto at = s.find(from); at != std::string::npos; at = s.find(from, at + to.size()))
    s.replace(at, from.size(), to);
  return s;
}

std::size_t code_point_bytes(std::string_view s) {
  if (s.empty()) return 0;
  const unsigned first = byte_at(s, 0);
  const std::size_t bytes = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : first >= 0xC2 ? 2 : 1;
  if (bytes == 1 || first > 0xF4 || s.size() < bytes) return 1;
  for (std::size_t i = 1; i < bytes; ++i)
    if ((byte_at(s, i) & 0xC0U) != 0x80U) return 1;
  const unsigned second = byte_at(s, 1);
  const bool overlong = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);
  const bool surrogate = first == 0xED && second >= 0xA0;
  const bool beyond = first == 0xF4 && second >= 0x90;
  return overlong || surrogate || beyond ? 1 : bytes;
}

std::size_t length(std::string_view s) {
  std::size_t n = 0;
  for (; !s.empty(); ++n) s.remove_prefix(code_point_bytes(s));
  return n;
}

std::string printable(std::string_view s) {
  std::string clean;
  clean.reserve(s.size());
  while (!s.empty()) {
    const auto c = s.substr(0, code_point_bytes(s));
    clean += is_broken(c) || is_control(c) ? replacement : c;
    s.remove_prefix(c.size());
  }
  return clean;
}

std::string quoted(std::string_view s) {
  constexpr int longest = 60;
  std::string_view rest = s;
  for (int i = 0; i < longest && !rest.empty(); ++i) rest.remove_prefix(code_point_bytes(rest));
  return "'" + printable(s.substr(0, s.size() - rest.size())) + (rest.empty() ? "'" : "…'");
}

std::string lower(std::string_view s) {
  std::string small(s);
  for (char& c : small)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return small;
}

std::string fixed(double value, int decimals) {
  if (!std::isfinite(value)) return not_finite(value);
  const std::string digits = fmt::format("{:.{}f}", outwards(std::fabs(value), decimals), decimals);
  const bool zero = digits.find_first_not_of("0.") == std::string::npos;
  return value < 0 && !zero ? std::string(minus) + digits : digits;
}

std::string shortest(double value, int significant) {
  if (!std::isfinite(value)) return not_finite(value);
  const double magnitude = std::fabs(value);
  if (magnitude == 0) return "0";
  if (magnitude >= 1e-4 && magnitude < 1e9) {
    const int before_point = static_cast<int>(std::floor(std::log10(magnitude))) + 1;
    return without_trailing_zeros(fixed(value, std::max(0, significant - before_point)));
  }
  const std::string text = fmt::format("{:.{}e}", outwards(magnitude, 0), significant - 1);
  const auto e = text.find('e');
  const bool small = text[e + 1] == '-';
  const auto exponent = text.find_first_not_of("+-0", e + 1);
  return (value < 0 ? std::string(minus) : "") + without_trailing_zeros(text.substr(0, e)) + "e" +
         (small ? std::string(minus) : "") +
         (exponent == std::string::npos ? "0" : text.substr(exponent));
}

std::optional<std::string> nearest(std::string_view word,
                                   const std::vector<std::string>& candidates) {
  const std::string folded = lower(word);
  const auto meant = code_points(folded);
  std::optional<std::string> best;
  std::size_t best_edits = 0;
  std::size_t best_prefix = 0;
  for (const auto& candidate : candidates) {
    const std::string small = lower(candidate);
    const auto points = code_points(small);
    const std::size_t longer = std::max(meant.size(), points.size());
    const std::size_t shorter = std::min(meant.size(), points.size());
    const std::size_t allowed = (longer + 1) / 3;
    if (longer - shorter > allowed) continue;
    const std::size_t edits = distance(meant, points);
    const std::size_t prefix = common_prefix(meant, points);
    if (edits > allowed) continue;
    if (best && (edits > best_edits || (edits == best_edits && prefix <= best_prefix))) continue;
    best = candidate;
    best_edits = edits;
    best_prefix = prefix;
  }
  return best;
}

std::vector<std::string> csv_row(std::string_view line) {
  while (!line.empty() && (line.back() == '\n' || line.back() == '\r')) line.remove_suffix(1);
  std::vector<std::string> cells(1);
  bool inside = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (inside) {
      if (c != '"') {
        cells.back() += c;
      } else if (i + 1 < line.size() && line[i + 1] == '"') {
        cells.back() += '"';
        ++i;
      } else {
        inside = false;
      }
    } else if (c == '"' && cells.back().empty()) {
      inside = true;
    } else if (c == ',') {
      cells.emplace_back();
    } else {
      cells.back() += c;
    }
  }
  return cells;
}

}  // namespace stringwright::text
