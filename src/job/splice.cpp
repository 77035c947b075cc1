#include "job/splice.hpp"

#include <algorithm>

#include "base/text.hpp"

namespace stringwright::job {
namespace {

/// Byte of a place in the text; npos where there is none.
std::size_t byte_at(std::string_view text, int line, int column) {
  std::size_t at = 0;
  for (int l = 1; l < line; ++l) {
    at = text.find('\n', at);
    if (at == std::string_view::npos) return at;
    ++at;
  }
  for (int c = 1; c < column; ++c) {
    if (at >= text.size() || text[at] == '\n') return std::string_view::npos;
    at += text::code_point_bytes(text.substr(at));
  }
  return at <= text.size() ? at : std::string_view::npos;
}

/// What stands before the last dot of the key of the value at byte `value`: "slot." of `slot.device = ...`.
std::string prefix_of_key(std::string_view text, std::size_t value) {
  const std::size_t equals = text.rfind('=', value);
  if (equals == std::string_view::npos) return {};
  const std::size_t before = text.find_last_of("\n,{", equals);
  const std::size_t start = before == std::string_view::npos ? 0 : before + 1;
  const std::string_view key = text::trim(text.substr(start, equals - start));
  const std::size_t dot = key.rfind('.');
  return dot == std::string_view::npos ? std::string{} : std::string(key.substr(0, dot + 1));
}

}  // namespace

Result<std::string> splice(std::string_view text, std::vector<Splice> splices) {
  struct Cut {
    std::size_t from, to;
    std::string text;
  };
  std::vector<Cut> cuts;
  for (auto& s : splices) {
    const auto from = byte_at(text, s.span.line, s.span.column);
    const auto to = byte_at(text, s.span.end_line, s.span.end_column);
    if (!s.span.known() || from == std::string_view::npos || to == std::string_view::npos ||
        to < from)
      return Failure{"job.bad-splice", "line " + std::to_string(s.span.line) + ", column " +
                                           std::to_string(s.span.column) +
                                           " is no place in the text"};
    cuts.push_back({from, to, std::move(s.text)});
  }
  std::sort(cuts.begin(), cuts.end(), [](const Cut& x, const Cut& y) {
    return x.from < y.from || (x.from == y.from && x.to < y.to);
  });
  std::string made;
  std::size_t done = 0;
  for (const auto& c : cuts) {
    if (c.from < done) return Failure{"job.bad-splice", "two changes overlap in the text"};
    made += text.substr(done, c.from - done);
    made += c.text;
    done = c.to;
  }
  made += text.substr(done);
  return made;
}

Splice key_behind(std::string_view text, Span value, std::string_view key_and_value) {
  const std::size_t start_of_value = byte_at(text, value.line, value.column);
  const std::string added =
      (start_of_value == std::string_view::npos ? "" : prefix_of_key(text, start_of_value)) +
      std::string(key_and_value);
  const Span at{value.end_line, value.end_column, value.end_line, value.end_column};
  // In braces if one opens on the line before the value and is not closed again.
  const std::size_t end = start_of_value;
  int open = 0;
  if (end != std::string_view::npos) {
    const std::size_t start = text.rfind('\n', end == 0 ? 0 : end - 1);
    bool in_text = false;
    for (std::size_t i = start == std::string_view::npos ? 0 : start + 1; i < end; ++i) {
      if (text[i] == '"') in_text = !in_text;
      if (in_text) continue;
      open += text[i] == '{';
      open -= text[i] == '}';
    }
  }
  if (open > 0) return {at, ", " + added};
  // On a line of its own, before what follows the value (a remark stays with the value).
  const std::size_t behind = byte_at(text, value.end_line, value.end_column);
  std::size_t line_end = behind == std::string_view::npos ? behind : text.find('\n', behind);
  if (line_end == std::string_view::npos) line_end = text.size();
  int column = value.end_column;
  if (behind != std::string_view::npos) {
    std::string_view rest = text.substr(behind, line_end - behind);
    if (!rest.empty() && rest.back() == '\r') rest.remove_suffix(1);
    column += static_cast<int>(text::length(rest));
  }
  return {{value.end_line, column, value.end_line, column}, "\n" + added};
}

}  // namespace stringwright::job
