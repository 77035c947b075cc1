#include "job/messages.hpp"

#include <algorithm>
#include <utility>

#include "base/text.hpp"
#include "job/place.hpp"

namespace stringwright::job {
namespace {

/// The slice of a line between two columns, both counted in code points from 1.
std::string_view slice(std::string_view line, int from, int to) {
  std::size_t first = std::string_view::npos;
  std::size_t at = 0;
  for (int column = 1; column < to && at < line.size(); ++column) {
    if (column == from) first = at;
    at += text::code_point_bytes(line.substr(at));
  }
  return first == std::string_view::npos ? std::string_view{} : line.substr(first, at - first);
}

}  // namespace

void Messages::add(Severity severity, std::string_view id, Span span, std::string message,
                   std::string help) {
  for (const auto& [first, last] : muted_)
    if (first <= span.line && span.line <= last) return;
  // What a record lacks has no place of its own: two missing fields stand at one span.
  if (id != "job.missing" && !said_.emplace(span.line, span.column, std::string(id)).second) return;
  found_.push_back({severity, std::string(id), std::move(message), std::move(help), file_, span});
}

void Messages::error(std::string_view id, Span span, std::string message, std::string help) {
  add(Severity::error, id, span, std::move(message), std::move(help));
}

void Messages::question(Span span, std::string message, std::string help) {
  add(Severity::question, "job.implausible", span, std::move(message), std::move(help));
}

std::string_view Messages::line(int number) {
  if (lines_.empty()) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    lines_ = text::split(text_, '\n');
    if (text::starts_with(lines_.front(), byte_order_mark))
      lines_.front().remove_prefix(byte_order_mark.size());
  }
  const auto i = static_cast<std::size_t>(number - 1);
  return number > 0 && i < lines_.size() ? lines_[i] : std::string_view{};
}

Span Messages::inside(Span span, std::string_view part) {
  if (!span.known() || span.line != span.end_line || part.empty()) return span;
  const std::string_view value = slice(line(span.line), span.column, span.end_column);
  const auto at = value.find(part);
  if (at == std::string_view::npos) return span;
  const int from = span.column + static_cast<int>(text::length(value.substr(0, at)));
  return {span.line, from, span.line, from + static_cast<int>(text::length(part))};
}

Diagnostics Messages::take() {
  sort_by_place(found_);
  return std::move(found_);
}

std::string suggest(std::string_view word, const std::vector<std::string>& known,
                    std::string_view lead) {
  constexpr std::size_t most = 30;
  std::string help;
  if (const auto near = text::nearest(word, known)) help = "did you mean '" + *near + "'? ";
  std::vector<std::string> shown(known.begin(), known.begin() + std::min(known.size(), most));
  if (shown.size() < known.size()) shown.push_back("…");
  return help + std::string(lead) + text::join(shown, ", ");
}

std::string listed(const std::vector<std::string>& words) {
  if (words.size() < 2) return text::join(words, "");
  const std::vector<std::string> first(words.begin(), words.end() - 1);
  return text::join(first, ", ") + " and " + words.back();
}

}  // namespace stringwright::job
