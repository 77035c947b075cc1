#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/parts.hpp"
#include "cli/cli.hpp"

namespace stringwright::cli {

/// Where a person's own parts lie: $XDG_DATA_HOME/stringwright/parts.db, or below ~/.local/share.
/// Empty where neither is set.
std::string library_path();

/// The rows of it. Prints why they can't be read; empty then.
std::optional<std::vector<parts::Row>> own_rows(const Out& out);

/// The whole library, with a message for each own record that can't be read; empty after a message.
std::optional<parts::Library> whole_library(const Out& out);

}  // namespace stringwright::cli
