#include "job/names.hpp"

#include <array>
#include <utility>

#include "base/text.hpp"

namespace stringwright::job {
namespace {

constexpr std::array dashes{std::string_view("-"), std::string_view("−"), std::string_view("–")};

/// Length of the dash that `s` begins with, 0 for none.
std::size_t dash_at_front(std::string_view s) {
  for (const auto dash : dashes)
    if (text::starts_with(s, dash)) return dash.size();
  return 0;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// Takes "R1.3" off the front of `rest`.
Result<ModulePlace> take_place(std::string_view& rest) {
  const auto dot = rest.find('.');
  const std::string_view row = text::trim(rest.substr(0, dot));
  if (dot == std::string_view::npos || row.empty() || bad_id(row))
    return Failure{"", "a place in a walk is row and number, such as R1.3"};
  std::size_t end = dot + 1;
  while (end < rest.size() && is_digit(rest[end])) ++end;
  const auto number = read_count(rest.substr(dot + 1, end - dot - 1));
  if (!number)
    return Failure{"", "after '" + std::string(row) + ".' there is no number of a place"};
  rest = text::trim(rest.substr(end));
  return ModulePlace{std::string(row), *number};
}

std::string print(const ModulePlace& p) { return p.row + "." + std::to_string(p.number); }

}  // namespace

std::optional<int> read_count(std::string_view digits) {
  constexpr std::size_t longest = 9;
  if (digits.empty() || digits.size() > longest) return std::nullopt;
  int value = 0;
  for (const char c : digits) {
    if (!is_digit(c)) return std::nullopt;
    value = 10 * value + (c - '0');
  }
  return value;
}

std::optional<std::string> bad_id(std::string_view word) {
  if (word.empty()) return "an id has at least one letter or digit";
  for (std::string_view rest = word; !rest.empty();) {
    const auto c = rest.substr(0, text::code_point_bytes(rest));
    rest.remove_prefix(c.size());
    const bool letter = c.size() > 1
                            ? text::printable(c) == c
                            : (c[0] >= 'a' && c[0] <= 'z') || (c[0] >= 'A' && c[0] <= 'Z') ||
                                  is_digit(c[0]) || c[0] == '_' || c[0] == '-';
    if (!letter) return "an id has letters, digits, '_' and '-' only";
  }
  if (word.back() == '-') return "an id does not end in '-', which marks a minus end";
  return std::nullopt;
}

Result<std::vector<ModulePlace>, BadPart> read_walk(std::string_view written) {
  std::vector<ModulePlace> walk;
  for (const auto piece : text::split(written, ',')) {
    const std::string_view range = text::trim(piece);
    std::string_view rest = range;
    const auto bad = [&](std::string message) {
      return BadPart{std::move(message), std::string(range)};
    };
    if (rest.empty()) return BadPart{"the walk has an empty place", std::string(written)};
    const auto from = take_place(rest);
    if (!from) return bad(from.failure().message);
    ModulePlace to = *from;
    if (!rest.empty()) {
      const std::size_t dash = dash_at_front(rest);
      if (dash == 0) return bad("after " + print(*from) + " a '-' or a ',' is needed");
      rest = text::trim(rest.substr(dash));
      const auto last = take_place(rest);
      if (!last) return bad(last.failure().message);
      if (!rest.empty()) return bad("after " + print(*last) + " a ',' is needed");
      if (last->row != from->row)
        return bad("a range stays in one row, but " + print(*from) + " and " + print(*last) +
                   " are in two; walk them as two ranges with a comma");
      to = *last;
    }
    const int steps =
        to.number > from->number ? to.number - from->number : from->number - to.number;
    if (steps >= longest_walk || walk.size() + static_cast<std::size_t>(steps) >= longest_walk)
      return bad("the walk goes over " + std::to_string(longest_walk) + " modules");
    const int step = to.number > from->number ? 1 : -1;
    for (int i = 0; i <= steps; ++i) walk.push_back({from->row, from->number + step * i});
  }
  return walk;
}

std::string print_walk(const std::vector<ModulePlace>& walk) {
  std::string all;
  for (std::size_t i = 0; i < walk.size();) {
    std::size_t end = i + 1;
    const auto follows = [&](std::size_t k, int step) {
      return k < walk.size() && walk[k].row == walk[i].row &&
             walk[k].number == walk[k - 1].number + step;
    };
    const int step = follows(end, 1) ? 1 : -1;
    while (follows(end, step)) ++end;
    if (!all.empty()) all += ", ";
    all += print(walk[i]);
    if (end - i > 1) all += "-" + print(walk[end - 1]);
    i = end;
  }
  return all;
}

Result<Landing, BadPart> read_landing(std::string_view written) {
  const std::string_view trimmed = text::trim(written);
  const auto bad = [&](std::string message) {
    return BadPart{std::move(message), std::string(trimmed)};
  };
  const std::string form =
      "a landing is box and slot (A1.1), equipment and input (CC1.PV1) or a hole (BA.minus.7)";
  const auto parts = text::split(trimmed, '.');
  if (parts.size() < 2 || parts.size() > 3) return bad(form);
  for (const auto part : parts)
    if (bad_id(part)) return bad(form);
  Landing landing;
  landing.text = trimmed;
  landing.owner = parts[0];
  const auto number = read_count(parts.back());
  if (parts.size() == 3) {
    if (parts[1] != "minus" && parts[1] != "earth")
      return bad("a hole is in the bar 'minus' or 'earth', not in " + text::quoted(parts[1]));
    if (!number) return bad("after '" + std::string(parts[1]) + ".' there is no number of a hole");
    landing.bar = parts[1];
    landing.number = *number;
  } else if (number) {
    landing.number = *number;
  } else {
    landing.bar = parts[1];
  }
  return landing;
}

Result<StringEnd, BadPart> read_string_end(std::string_view written) {
  std::string_view id = text::trim(written);
  StringEnd end;
  const BadPart bad{"an end is a string and its pole, such as S3+ or A7-", std::string(id)};
  if (text::ends_with(id, "+")) {
    id.remove_suffix(1);
  } else {
    std::size_t dash = 0;
    for (const auto d : dashes)
      if (text::ends_with(id, d)) dash = d.size();
    if (dash == 0) return bad;
    id.remove_suffix(dash);
    end.pole = Pole::minus;
  }
  if (bad_id(id)) return bad;
  end.string = id;
  return end;
}

bool is_date(std::string_view s) {
  if (s.size() != 10 || s[4] != '-' || s[7] != '-') return false;
  const auto year = read_count(s.substr(0, 4));
  const auto month = read_count(s.substr(5, 2));
  const auto day = read_count(s.substr(8, 2));
  if (!year || !month || !day || *month < 1 || *month > 12) return false;
  constexpr std::array days{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = (*year % 4 == 0 && *year % 100 != 0) || *year % 400 == 0;
  const int last = *month == 2 && leap ? 29 : days[static_cast<std::size_t>(*month - 1)];
  return *day >= 1 && *day <= last;
}

}  // namespace stringwright::job
