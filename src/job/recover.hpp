#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace stringwright::job {

/// A statement of a TOML text: a header, or a key with its value, which may go on over several lines.
struct Statement {
  int first = 0, last = 0;  ///< lines, from 1
  bool header = false;      ///< begins with '['
  bool closed = true;       ///< its brackets end before the text does
};

/// All of them, in order. An inline table { ... } that is left open ends with the next header.
std::vector<Statement> statements_of(std::string_view text);

/// Takes a broken statement out of a text so that what stands behind it can still be read. No line moves.
///
/// First its value gives way to a plain text, so that the key and all that refers to it stay; if the same
/// line fails again (a key that stands twice), the whole statement goes. A table whose header stands twice
/// goes with all its keys.
class Recovery {
 public:
  explicit Recovery(std::string_view text) : text_(text), statements_(statements_of(text)) {}

  const std::string& text() const { return text_; }

  /// Lines that no longer say what was written.
  struct Lines {
    int first = 0, last = 0;
  };
  /// Mends the text at the line where the parser stopped. Empty (0, 0): it can't.
  Lines mend(int line, bool is_duplicate);

 private:
  void blank(int first, int last);
  bool put_value(const Statement& s);

  std::string text_;
  std::vector<Statement> statements_;
  std::vector<int> tried_;  ///< first lines of statements whose value has been replaced
};

}  // namespace stringwright::job
