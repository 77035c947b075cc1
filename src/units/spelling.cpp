#include "units/spelling.hpp"

#include <array>
#include <cmath>
#include <locale>
#include <optional>
#include <sstream>
#include <utility>

#include "base/text.hpp"

namespace stringwright::units::detail {
namespace {

using Pair = std::pair<std::string_view, std::string_view>;

constexpr std::array look_alikes{
    Pair{"−", "-"},            // minus sign
    Pair{"\u2044", "/"},       // fraction slash
    Pair{"\u22C5", "·"},       // dot operator
    Pair{"\u2219", "·"},       // bullet operator
    Pair{"\u2022", "·"},       // bullet
    Pair{"\u2126", "Ω"},       // ohm sign, as against the Greek letter
    Pair{"\u00B5", "\u03BC"},  // micro sign
    Pair{"\u2206", "Δ"},       // increment
    Pair{"\u00BA", "°"},       // masculine ordinal
    Pair{"\u02DA", "°"},       // ring above
    Pair{"\u2103", "°C"},     Pair{"\u2109", "°F"},   Pair{"\u2032", "'"},  // prime
    Pair{"\u2033", "\""},                                                   // double prime
    Pair{"\u00BC", " 1/4"},   Pair{"\u00BD", " 1/2"}, Pair{"\u00BE", " 3/4"},
    Pair{"\u215B", " 1/8"},   Pair{"\u215C", " 3/8"}, Pair{"\u215D", " 5/8"},
    Pair{"\u215E", " 7/8"},
};

bool is_space(std::string_view code_point) {
  constexpr std::array spaces{" ",      "\t",     "\n",     "\r",     "\f",     "\v",     "\u00A0",
                              "\u2000", "\u2001", "\u2002", "\u2003", "\u2004", "\u2005", "\u2006",
                              "\u2007", "\u2008", "\u2009", "\u200A", "\u202F", "\u205F", "\u3000"};
  for (std::string_view space : spaces)
    if (code_point == space) return true;
  return false;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

Failure not_a_number(std::string message) { return {"units.not-a-number", std::move(message)}; }

std::string without(std::string_view s, std::string_view unwanted) {
  std::string left;
  for (char c : s)
    if (unwanted.find(c) == std::string_view::npos) left += c;
  return left;
}

/// Reads forward through a text in plain spelling.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  std::string_view rest() const { return text_.substr(at_); }
  char peek(std::size_t ahead = 0) const {
    return at_ + ahead < text_.size() ? text_[at_ + ahead] : '\0';
  }
  void skip(std::size_t n = 1) { at_ += n; }
  void skip_spaces() {
    while (peek() == ' ') skip();
  }
  std::string_view digits() {
    const std::size_t start = at_;
    while (is_digit(peek())) skip();
    return text_.substr(start, at_ - start);
  }
  /// How many digits stand from `ahead` on.
  std::size_t digits_ahead(std::size_t ahead) const {
    std::size_t n = 0;
    while (is_digit(peek(ahead + n))) ++n;
    return n;
  }

 private:
  std::string_view text_;
  std::size_t at_ = 0;
};

/// A decimal of ASCII digits, point and exponent, correctly rounded, whatever the locale.
/// Nothing where it is beyond a double, or not zero and too small for one.
std::optional<double> decimal(const std::string& digits) {
  constexpr std::size_t longest =
      35;  // more digits than any quantity has; some libraries read no further
  if (digits.size() > longest) return std::nullopt;
  std::istringstream in(digits);
  in.imbue(std::locale::classic());
  double value = 0;
  in >> value;
  if (in.fail() || !std::isfinite(value)) return std::nullopt;
  const auto mantissa = std::string_view(digits).substr(0, digits.find('e'));
  if (value == 0 && mantissa.find_first_of("123456789") != std::string_view::npos)
    return std::nullopt;
  return value;
}

/// What to write instead of a number with a comma in it.
/// @param unsigned_text  from the first digit on
Failure comma_advice(std::string_view unsigned_text, bool minus, std::string_view shown) {
  const std::size_t end =
      std::min(unsigned_text.find_first_not_of("0123456789.,"), unsigned_text.size());
  const std::string number(unsigned_text.substr(0, end));
  const auto write = [&](const std::string& better) {
    return text::quoted((minus ? "-" : "") + better + std::string(unsigned_text.substr(end)));
  };
  const auto groups = text::split(number, ',');
  const std::string_view last = groups.back();

  bool thousands = groups.front().size() <= 3 && groups.front() != "0";
  for (std::size_t i = 1; i < groups.size(); ++i)
    thousands = thousands && groups[i].substr(0, groups[i].find('.')).size() == 3;
  const bool has_point = number.find('.') != std::string::npos;
  if (thousands && groups.size() == 2 && !has_point)
    return {"units.thousands-separator",
            text::quoted(shown) + " has a comma in the number: write " +
                write(without(number, ",")) + ", or " + write(text::replace_all(number, ",", ".")) +
                " if the comma is a decimal one"};
  if (thousands)
    return {"units.thousands-separator", text::quoted(shown) + " has thousands separators: write " +
                                             write(without(number, ","))};
  if (groups.size() == 2 && !last.empty() && last.find('.') == std::string_view::npos)
    return {"units.decimal-comma",
            text::quoted(shown) + " has a decimal comma: write " +
                write(without(groups.front(), ".") + "." + std::string(last))};
  return not_a_number(text::quoted(shown) +
                      " is not one number: write it without commas, with a point as decimal sign");
}

Failure out_of_range(std::string_view shown) {
  return {"units.out-of-range",
          text::quoted(shown) + " is a number too large, too small or too long to reckon with"};
}

}  // namespace

std::string plain_spelling(std::string_view text) {
  std::string plain;
  while (!text.empty()) {
    const auto c = text.substr(0, text::code_point_bytes(text));
    text.remove_prefix(c.size());
    std::string_view becomes = is_space(c) ? " " : c;
    for (const auto& [from, to] : look_alikes)
      if (c == from) becomes = to;
    plain += becomes;
  }
  return std::string(text::trim(plain));
}

std::vector<std::string> words(std::string_view plain) {
  std::vector<std::string> all;
  for (const auto word : text::split(plain, ' '))
    if (!word.empty()) all.emplace_back(word);
  return all;
}

Result<Number> take_number(std::string_view plain, std::string_view shown) {
  const std::string quoted = text::quoted(shown);
  Scanner in(plain);
  bool minus = false;
  if (in.peek() == '-' || in.peek() == '+') {
    minus = in.peek() == '-';
    in.skip();
    in.skip_spaces();
  }
  const auto finish = [&](double magnitude) -> Result<Number> {
    in.skip_spaces();
    return Number{minus ? -magnitude : magnitude, in.rest()};
  };

  // Words and signs that stand where a number should.
  std::size_t letters = 0;
  while (is_letter(in.peek(letters))) ++letters;
  const std::string word = text::lower(in.rest().substr(0, letters));
  if (word == "inf" || word == "infinity" || word == "nan" || text::starts_with(in.rest(), "∞"))
    return Failure{
        "units.not-finite",
        quoted + " is not a number that can be measured: leave it out if it is not known"};
  if (text::starts_with(in.rest(), "–") || text::starts_with(in.rest(), "‐") ||
      text::starts_with(in.rest(), "‑") || text::starts_with(in.rest(), "—"))
    return not_a_number(quoted + " begins with a dash: write a minus sign, '-' or '−'");

  const std::string_view from_digits = in.rest();
  const std::string_view whole = in.digits();
  std::string digits(whole);
  if (in.peek() == '.') {
    in.skip();
    digits += '.';
    digits += in.digits();
  }
  if (digits.empty() || digits == ".")
    return not_a_number(quoted +
                        " does not begin with a number: write number and unit, such as '85 ft'");

  if (in.peek() == ',') return comma_advice(from_digits, minus, shown);
  if (in.peek() == '.') return not_a_number(quoted + " has two decimal points");
  if ((in.peek() == '\'' || in.peek() == '_') && in.digits_ahead(1) == 3)
    return Failure{"units.thousands-separator", quoted + " has thousands separators: write " +
                                                    text::quoted(without(plain, "'_"))};

  if (in.peek() == 'e' || in.peek() == 'E') {
    const bool sign = in.peek(1) == '-' || in.peek(1) == '+';
    if (is_digit(in.peek(sign ? 2 : 1))) {
      in.skip();
      digits += 'e';
      if (sign) {
        digits += in.peek();
        in.skip();
      }
      digits += in.digits();
      const auto value = decimal(digits);
      return value ? finish(*value) : out_of_range(shown);
    }
  }

  const auto value = decimal(digits);
  if (!value) return out_of_range(shown);
  const bool is_whole = digits.size() == whole.size();

  // "3/4", "1 1/2", "1-1/2"; else digits after the number are a mistake.
  std::string_view numerator;
  double before = 0;
  if (is_whole && in.peek() == '/' && is_digit(in.peek(1))) {
    numerator = whole;
  } else if (in.peek() == ' ' || in.peek() == '-') {
    std::size_t blanks = 0;
    while (in.peek(blanks) == ' ') ++blanks;
    const std::size_t gap = blanks > 0 ? blanks : 1;
    const std::size_t n = in.digits_ahead(gap);
    if (n > 0 && is_whole && in.peek(gap + n) == '/' && is_digit(in.peek(gap + n + 1))) {
      before = *value;
      in.skip(gap);
      numerator = in.digits();
    } else if (n > 0 && in.peek() == '-') {
      return not_a_number(quoted + " looks like a range: write one number");
    } else if (n == 3 && blanks > 0) {
      return Failure{"units.thousands-separator",
                     quoted + " has a blank inside the number: write it in one, such as " +
                         text::quoted(digits + std::string(in.rest().substr(gap)))};
    } else if (n > 0) {
      return not_a_number(quoted + " holds two numbers: write one number and its unit");
    }
  }
  if (numerator.empty()) return finish(*value);

  in.skip();  // the '/'
  const auto top = decimal(std::string(numerator));
  const auto bottom = decimal(std::string(in.digits()));
  if (!top || !bottom) return out_of_range(shown);
  if (*bottom == 0) return not_a_number(quoted + " divides by zero");
  if (in.peek() == '.' || in.peek() == '/' || in.peek() == ',')
    return not_a_number(quoted + " is not a fraction of two whole numbers, such as '3/4 in'");
  return finish(before + *top / *bottom);
}

}  // namespace stringwright::units::detail
