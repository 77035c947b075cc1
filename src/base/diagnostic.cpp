#include "base/diagnostic.hpp"

#include <algorithm>
#include <optional>

#include "base/text.hpp"

namespace stringwright {
namespace {

std::string_view word(Severity s) {
  switch (s) {
    case Severity::error:
      return "error";
    case Severity::question:
      return "question";
    case Severity::note:
      return "note";
  }
  return "error";
}

/// Line `number` (from 1) without its line end.
std::optional<std::string_view> line_of(std::string_view text, int number) {
  for (int n = 1; n < number; ++n) {
    const auto end = text.find('\n');
    if (end == std::string_view::npos) return std::nullopt;
    text.remove_prefix(end + 1);
  }
  if (text.empty()) return std::nullopt;
  std::string_view line = text.substr(0, text.find('\n'));
  if (text::ends_with(line, "\r")) line.remove_suffix(1);
  return line;
}

/// White space as wide as what stands before the span, then carets under the span. Tabs stay tabs, so
/// that both lines are indented alike whatever the tab width.
std::string carets(std::string_view line, Span span) {
  const int end_of_line = static_cast<int>(text::length(line)) + 1;
  const int from = std::clamp(span.column, 1, end_of_line);
  const int to = std::min(span.end_line > span.line ? end_of_line : span.end_column, end_of_line);
  std::string under;
  for (int column = 1; column < from; ++column) {
    under += line.front() == '\t' ? '\t' : ' ';
    line.remove_prefix(text::code_point_bytes(line));
  }
  return under + std::string(static_cast<std::size_t>(std::max(1, to - from)), '^');
}

std::string quote(std::string_view line, Span span) {
  constexpr std::size_t width = 5;
  std::string number = std::to_string(span.line);
  if (number.size() < width) number.insert(0, width - number.size(), ' ');
  return number + " | " + text::printable(line) + "\n" + std::string(number.size(), ' ') + " | " +
         carets(line, span) + "\n";
}

}  // namespace

bool any_error(const Diagnostics& all) {
  return std::any_of(all.begin(), all.end(),
                     [](const Diagnostic& d) { return d.severity == Severity::error; });
}

std::string render_at(std::string_view file, Span span, std::string_view word,
                      std::string_view message, std::string_view id, std::string_view text) {
  std::string place(file);
  if (span.known()) {
    if (!place.empty()) place += ':';
    place += std::to_string(span.line) + ":" + std::to_string(span.column);
  }
  std::string all = place.empty() ? "" : place + ": ";
  all.append(word).append(": ").append(message);
  if (!id.empty()) all.append(" [").append(id).append("]");
  all += '\n';
  if (span.known())
    if (const auto line = line_of(text, span.line)) all += quote(*line, span);
  return all;
}

std::string render(const Diagnostic& d, std::string_view text) {
  std::string all = render_at(d.file, d.span, word(d.severity), d.message, d.id, text);
  if (!d.help.empty()) all += "   help: " + d.help + "\n";
  return all;
}

}  // namespace stringwright
