#include "job/recover.hpp"

#include <algorithm>
#include <cstddef>

#include "base/text.hpp"

namespace stringwright::job {
namespace {

/// First byte of a line, and the one behind its last; both the text's end where it has fewer lines.
std::pair<std::size_t, std::size_t> bytes_of(const std::string& text, int line) {
  std::size_t at = 0;
  for (int n = 1; n < line && at != std::string::npos; ++n) {
    at = text.find('\n', at);
    if (at != std::string::npos) ++at;
  }
  if (at == std::string::npos) return {text.size(), text.size()};
  const auto end = text.find('\n', at);
  return {at, end == std::string::npos ? text.size() : end};
}

/// Length of a key at the beginning of a line, blanks in front of it included; 0: no key.
std::size_t key_length(std::string_view line) {
  std::size_t i = 0;
  while (i < line.size() && (line[i] == ' ' || line[i] == '\t')) ++i;
  const std::size_t from = i;
  const auto is_bare = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
           c == '-' || c == '.';
  };
  while (i < line.size() && is_bare(line[i])) ++i;
  if (i == from || line[from] == '.' || line[i - 1] == '.') return 0;
  if (line.substr(from, i - from).find("..") != std::string_view::npos) return 0;
  return i;
}

/// Skips the string that begins at `i`, which is left on its last byte; one line only ends before its line
/// break. Returns the line breaks in it.
int skip_text(std::string_view s, std::size_t& i) {
  const char quote = s[i];
  const bool many_lines = s.substr(i, 3) == std::string(3, quote);
  if (many_lines) i += 2;
  int lines = 0;
  for (++i; i < s.size(); ++i) {
    if (s[i] == '\n') {
      if (!many_lines) {
        --i;
        return lines;
      }
      ++lines;
    } else if (s[i] == '\\' && quote == '"' && i + 1 < s.size() && s[i + 1] != '\n') {
      ++i;
    } else if (s[i] == quote && (!many_lines || s.substr(i, 3) == std::string(3, quote))) {
      if (many_lines) i += 2;
      return lines;
    }
  }
  return lines;
}

/// Whether a line is a header and nothing else: "[run.OUT]".
bool is_header(std::string_view line) {
  line = line.substr(0, line.find('#'));
  const auto last = line.find_last_not_of(" \t\r");
  return !line.empty() && line[0] == '[' && last != std::string_view::npos && line[last] == ']' &&
         line.find_first_of("{}=,\"'") == std::string_view::npos;
}

}  // namespace

std::vector<Statement> statements_of(std::string_view s) {
  std::vector<Statement> all;
  std::string open;  // brackets
  int line = 1;
  bool line_is_empty = true;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const char c = s[i];
    if (c == '\n') {
      if (!all.empty() && (!open.empty() || !line_is_empty)) all.back().last = line;
      ++line;
      line_is_empty = true;
      continue;
    }
    if (c == ' ' || c == '\t' || c == '\r') continue;
    if (c == '#') {
      while (i + 1 < s.size() && s[i + 1] != '\n') ++i;
      continue;
    }
    if (line_is_empty && !open.empty() && open.back() == '{' &&
        is_header(s.substr(i, s.find('\n', i) - i))) {
      all.back().last = all.back().first;
      open.clear();
    }
    if (line_is_empty && open.empty()) all.push_back({line, line, c == '[', true});
    line_is_empty = false;
    if (c == '"' || c == '\'')
      line += skip_text(s, i);
    else if (c == '[' || c == '{')
      open += c;
    else if ((c == ']' || c == '}') && !open.empty())
      open.pop_back();
  }
  if (all.empty()) return all;
  if (!open.empty() && open.back() == '{')
    all.back().last = all.back().first;
  else if (!open.empty() || !line_is_empty)
    all.back().last = line;
  all.back().closed = open.empty() || open.back() == '{';
  return all;
}

void Recovery::blank(int first, int last) {
  const auto from = bytes_of(text_, first).first, to = bytes_of(text_, last).second;
  std::replace_if(
      text_.begin() + static_cast<std::ptrdiff_t>(from),
      text_.begin() + static_cast<std::ptrdiff_t>(to), [](char c) { return c != '\n'; }, ' ');
}

bool Recovery::put_value(const Statement& s) {
  const auto [from, to] = bytes_of(text_, s.first);
  const std::size_t key = key_length(std::string_view(text_).substr(from, to - from));
  if (key == 0) return false;
  const std::string name = text_.substr(from, key);
  blank(s.first, s.last);
  // What is too short for the value grows; lines keep their numbers.
  text_.replace(from, to - from, name + " = \"\"");
  return true;
}

Recovery::Lines Recovery::mend(int line, bool is_duplicate) {
  const auto found = std::find_if(statements_.begin(), statements_.end(), [&](const Statement& s) {
    return s.first <= line && line <= s.last;
  });
  if (found == statements_.end() || !found->closed) return {};
  if (found->header) {
    if (!is_duplicate) return {};
    int last = found->last;
    for (auto next = found + 1; next != statements_.end() && !next->header; ++next) {
      if (!next->closed) return {};
      last = next->last;
    }
    blank(found->first, last);
    return {found->first, last};
  }
  const bool again = std::find(tried_.begin(), tried_.end(), found->first) != tried_.end();
  tried_.push_back(found->first);
  if (again)
    blank(found->first, found->last);
  else if (!put_value(*found))
    return {};
  return {found->first, found->last};
}

}  // namespace stringwright::job
