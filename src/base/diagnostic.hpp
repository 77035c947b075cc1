#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/span.hpp"

namespace stringwright {

/// error: the input can't be used as it stands. question: readable, but implausible; asked back.
/// note: something worth knowing.
enum class Severity { error, question, note };

/// One mistake in the input. Ids are `room.what-is-wrong` and are never renamed.
struct Diagnostic {
  Severity severity = Severity::error;
  std::string id;
  std::string message;  ///< what is wrong, with what was found and what is allowed
  std::string help;     ///< a way out; may be empty
  std::string file;
  Span span;
};

using Diagnostics = std::vector<Diagnostic>;

bool any_error(const Diagnostics& all);

/// `file:line:column: error: message [id]`, the source line, a caret line, `help: ...`; every line
/// ends in '\n'. What stands nowhere in the text has no line:column and quotes nothing.
/// @param text  the whole text of the file, to quote the line from; may be empty
std::string render(const Diagnostic& d, std::string_view text);

/// The same for a finding or any other message with a place: `word` takes the place of "error".
std::string render_at(std::string_view file, Span span, std::string_view word,
                      std::string_view message, std::string_view id, std::string_view text);

}  // namespace stringwright
