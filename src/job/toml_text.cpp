#include "job/toml_text.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "job/recover.hpp"

namespace stringwright::job {
namespace {

constexpr std::size_t most_bytes = 8U << 20U;
constexpr int deepest = 32;

/// What a first look at the text tells: how deep it nests and where its table headers stand. Values
/// are not looked at, so any bytes will do.
struct Outline {
  int too_deep_line = 0;     ///< 0: nowhere
  std::vector<int> headers;  ///< lines that begin with '['
};

/// Skips the string that begins at `i`, which is left on its last quote; counts its lines.
void skip_string(std::string_view s, std::size_t& i, int& line) {
  const char quote = s[i];
  const std::string three(3, quote);
  const bool many_lines = s.substr(i, 3) == three;
  if (many_lines) i += 2;
  for (++i; i < s.size(); ++i) {
    if (s[i] == '\n') {
      ++line;
      if (!many_lines) return;
    } else if (s[i] == '\\' && quote == '"') {
      if (i + 1 < s.size() && s[i + 1] != '\n') ++i;
    } else if (s[i] == quote && (!many_lines || s.substr(i, 3) == three)) {
      if (many_lines) i += 2;
      return;
    }
  }
}

/// A tree is destroyed by recursion, and a dotted key makes one level a dot: depth is bounded before
/// the parser sees the text.
Outline outline_of(std::string_view s) {
  Outline found;
  int line = 1;
  int brackets = 0;
  int dots = 0;
  bool line_is_empty = true;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const char c = s[i];
    switch (c) {
      case '\n':
        ++line;
        dots = 0;
        line_is_empty = true;
        continue;
      case ' ':
      case '\t':
      case '\r':
        continue;
      case '#':
        while (i + 1 < s.size() && s[i + 1] != '\n') ++i;
        continue;
      case '"':
      case '\'':
        skip_string(s, i, line);
        break;
      case '[':
      case '{':
        if (c == '[' && line_is_empty && brackets == 0) found.headers.push_back(line);
        ++brackets;
        dots = 0;
        break;
      case ']':
      case '}':
        if (brackets > 0) --brackets;
        dots = 0;
        break;
      case '=':
      case ',':
        dots = 0;
        break;
      case '.':
        ++dots;
        break;
      default:
        break;
    }
    line_is_empty = false;
    if ((brackets > deepest || dots > deepest) && found.too_deep_line == 0)
      found.too_deep_line = line;
  }
  return found;
}

/// The text before line `number`.
std::string_view before_line(std::string_view text, int number) {
  std::size_t at = 0;
  for (int line = 1; line < number; ++line) {
    const auto end = text.find('\n', at);
    if (end == std::string_view::npos) return text;
    at = end + 1;
  }
  return text.substr(0, at);
}

/// The first key of that name at or below `line`.
void find_key(const toml::table& table, std::string_view name, int line, Span& first) {
  for (const auto& [key, node] : table) {
    const Span here = span_of(key);
    if (key.str() == name && here.line >= line && (!first.known() || here.line < first.line))
      first = here;
    if (const auto* inner = node.as_table()) find_key(*inner, name, line, first);
  }
}

/// Where a thing that is written twice stands first; unknown where that can't be told.
Span first_place(std::string_view text, std::string_view name, const Outline& outline, int line) {
  Span first;
  try {
    const toml::table before = toml::parse(before_line(text, line));
    const bool is_header =
        std::find(outline.headers.begin(), outline.headers.end(), line) != outline.headers.end();
    if (is_header) {
      const toml::table* at = &before;
      for (const auto part : text::split(name, '.')) {
        const auto found = at ? at->find(part) : before.end();
        if (!at || found == at->end()) return {};
        first = span_of(found->first);
        at = found->second.as_table();
      }
      return first;
    }
    int header = 0;
    for (const int h : outline.headers)
      if (h < line) header = h;
    find_key(before, name, header, first);
  } catch (const toml::parse_error&) {
    return {};  // the text so far is cut off inside a list
  }
  return first;
}

bool has(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

std::string_view quoted_part(std::string_view text) {
  const auto first = text.find('\'');
  const auto last = text.rfind('\'');
  return first == last ? std::string_view{} : text.substr(first + 1, last - first - 1);
}

std::string_view line_text(std::string_view text, int number) {
  const auto rest = text.substr(before_line(text, number).size());
  return rest.substr(0, rest.find('\n'));
}

/// The parser's sentence and a way out of it, in the words of this format.
struct Advice {
  std::string_view said, also;  ///< what is in the parser's sentence
  std::string_view message;     ///< "@" stands for the character it met
  std::string_view help;
};

constexpr std::string_view in_quotes =
    "texts, and so all quantities, stand in quotes: length = \"36.5 m\"";

constexpr std::array advices{
    Advice{"invalid utf-8", "", "a byte here is not valid UTF-8", "save the file as UTF-8 text"},
    Advice{"\\u0000", "", "there is a NUL byte here", "a job file is plain text"},
    Advice{"expected value", "saw '\\n'", "there is no value after '='", in_quotes},
    Advice{"could not determine value type", "", "this value is not understood", in_quotes},
    Advice{"expected a comment or whitespace", "",
           "after this value the line should end, but there is @", in_quotes},
    Advice{"unescaped control characters", "",
           "this text has no closing quote on its line, or holds a control character",
           "end it with the quote it began with"},
    Advice{"expected '='", "", "after this key '=' is needed, not @",
           "write key = value, one a line"},
    Advice{"not representable in 64 bits", "", "this number is too large", ""},
    Advice{"could not be interpreted as a value", "", "this number can't be read", in_quotes},
    Advice{"inline table", "saw '\\n'", "this { ... } goes on past the end of its line",
           "keep { ... } on one line, or give the table its own [heading]"},
    Advice{"inline table", "saw", "in { ... } a ',' or '}' is needed here, not @", in_quotes},
    Advice{"parsing array", "saw", "in [ ... ] a ',' or ']' is needed here, not @", in_quotes},
    Advice{"leading zeroes", "", "a number does not begin with 0", in_quotes},
};

/// @param said  the parser's sentence
std::pair<std::string, std::string> advise(std::string_view said, std::string_view line) {
  if (has(line, "“") || has(line, "”") || has(line, "„"))
    return {"a typographic quote can't begin or end a text", "write plain quotes: \""};
  for (const auto& advice : advices) {
    if (!has(said, advice.said) || !has(said, advice.also)) continue;
    const auto saw = said.find("saw ");
    const std::string met(saw == std::string_view::npos ? "this" : said.substr(saw + 4));
    return {text::replace_all(std::string(advice.message), "@", met), std::string(advice.help)};
  }
  constexpr std::string_view begin = "Error while parsing ";
  if (text::starts_with(said, begin)) said.remove_prefix(begin.size());
  return {"this is not valid TOML: " + std::string(said), ""};
}

/// The key of that name in front of `span`, or behind it where none is in front.
Span key_near(std::string_view text, Span span, std::string_view name) {
  const auto line = line_text(text, span.line);
  const std::string_view word = name.substr(name.rfind('.') + 1);
  std::size_t best = std::string_view::npos;
  for (auto at = line.find(word); at != std::string_view::npos && !word.empty();
       at = line.find(word, at + 1)) {
    if (best != std::string_view::npos &&
        static_cast<int>(text::length(line.substr(0, at))) + 1 >= span.column)
      break;
    best = at;
  }
  if (best == std::string_view::npos) return span;
  const int column = static_cast<int>(text::length(line.substr(0, best))) + 1;
  return {span.line, column, span.line, column + static_cast<int>(text::length(word))};
}

void report(const toml::parse_error& failed, std::string_view text, const Outline& outline,
            Messages& out) {
  Span span = span_of(failed.source());
  if (span.line == span.end_line && span.end_column <= span.column)
    span.end_column = span.column + 1;
  const std::string_view said = failed.description();

  if (has(said, "cannot redefine") || has(said, "cannot insert")) {
    const std::string name(quoted_part(said));
    const Span first = name.empty() ? Span{} : first_place(text, name, outline, span.line);
    const std::string what = name.empty() ? "this key" : text::quoted(name);
    out.error(
        "job.duplicate", key_near(text, span, name),
        what + " is given twice" +
            (first.known() ? "; it stands first at line " + std::to_string(first.line) : ""),
        "keep one of them; a table is written in one place, and [table.name] goes on below it");
    return;
  }
  const auto [message, help] = advise(said, line_text(text, span.line));
  out.error("job.syntax", span, text::printable(message), help);
}

}  // namespace

std::optional<toml::table> parse_toml(std::string_view text, Messages& out) {
  if (text.size() > most_bytes) {
    out.error("job.syntax", {1, 1, 1, 1},
              "the file has " + std::to_string(text.size()) + " bytes; a job file has at most " +
                  std::to_string(most_bytes));
    return std::nullopt;
  }
  const Outline outline = outline_of(text);
  if (outline.too_deep_line > 0) {
    const int line = outline.too_deep_line;
    out.error(
        "job.syntax", {line, 1, line, 2},
        "brackets or dotted keys nest deeper than " + std::to_string(deepest) + " levels here");
    return std::nullopt;
  }
  // The parser stops at its first mistake: each is taken out in turn, so that the rest is read too.
  Recovery recovery(text);
  const int most_mistakes = text.size() > (1U << 20U) ? 5 : 50;
  int last_line = 0;
  for (int mistakes = 0; mistakes < most_mistakes; ++mistakes) {
    try {
      return toml::parse(recovery.text());
    } catch (const toml::parse_error& failed) {
      const int line = span_of(failed.source()).line;
      const bool is_duplicate = has(failed.description(), "cannot redefine") ||
                                has(failed.description(), "cannot insert");
      if (line != last_line) report(failed, recovery.text(), outline, out);
      last_line = line;
      const auto gone = recovery.mend(line, is_duplicate);
      const bool is_text =
          !has(failed.description(), "utf-8") && !has(failed.description(), "\\u0000");
      if (gone.first == 0 || !is_text) return std::nullopt;
      out.mute(gone.first, gone.last);
    }
  }
  return std::nullopt;
}

Span span_of(const toml::source_region& r) {
  return {static_cast<int>(r.begin.line), static_cast<int>(r.begin.column),
          static_cast<int>(r.end.line), static_cast<int>(r.end.column)};
}

std::string_view kind_of(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::string:
      return "a text";
    case toml::node_type::integer:
      return "a whole number";
    case toml::node_type::floating_point:
      return "a number";
    case toml::node_type::boolean:
      return "true or false";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::table:
      return "a table";
    case toml::node_type::date:
    case toml::node_type::time:
    case toml::node_type::date_time:
      return "a date or time";
    default:
      return "nothing";
  }
}

}  // namespace stringwright::job
