#pragma once

#include <set>
#include <string>
#include <string_view>
#include <tuple>
#include <utility>
#include <vector>

#include "base/diagnostic.hpp"

namespace stringwright::job {

/// Collects what one reading finds. One mistake in the text gives one message: the same kind of
/// mistake at the same place is kept once (a pattern stands for many strings).
class Messages {
 public:
  Messages(std::string_view text, std::string_view file) : text_(text), file_(file) {}

  void error(std::string_view id, Span span, std::string message, std::string help = {});
  void question(Span span, std::string message, std::string help = {});

  /// Where `part` stands inside the value at `span`, for a caret under it; else `span` itself.
  Span inside(Span span, std::string_view part);

  /// No more messages about these lines: they are known not to say what was meant.
  void mute(int first, int last) { muted_.emplace_back(first, last); }

  /// Whether another message of that kind at that place would be dropped; saves its making.
  bool has(std::string_view id, Span span) const {
    return said_.count({span.line, span.column, std::string(id)}) > 0;
  }
  /// So many that advice on further ones is not worth its time.
  bool many() const { return found_.size() > 200; }

  bool any_error() const { return stringwright::any_error(found_); }
  Diagnostics take();  ///< all, in the order of the text

 private:
  void add(Severity severity, std::string_view id, Span span, std::string message,
           std::string help);
  std::string_view line(int number);

  std::string_view text_;
  std::string file_;
  std::vector<std::string_view> lines_;  ///< filled when first asked for
  std::set<std::tuple<int, int, std::string>> said_;
  std::vector<std::pair<int, int>> muted_;
  Diagnostics found_;
};

/// "did you mean 'length'? " where one is near, then `lead` and the list, cut off when it is long.
std::string suggest(std::string_view word, const std::vector<std::string>& known,
                    std::string_view lead);

/// "a, b and c".
std::string listed(const std::vector<std::string>& words);

}  // namespace stringwright::job
