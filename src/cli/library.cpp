#include "cli/library.hpp"

#include <cstdlib>
#include <ostream>

#include "base/text.hpp"

namespace stringwright::cli {

std::string library_path() {
  // The specification has a relative path ignored.
  const char* data = std::getenv("XDG_DATA_HOME");
  if (data && data[0] == '/') return std::string(data) + "/stringwright/parts.db";
  const char* home = std::getenv("HOME");
  if (home && home[0] == '/') return std::string(home) + "/.local/share/stringwright/parts.db";
  return {};
}

std::optional<std::vector<parts::Row>> own_rows(const Out& out) {
  const std::string path = library_path();
  if (path.empty()) return std::vector<parts::Row>{};
  auto rows = app::own_parts(path);
  if (rows) return *std::move(rows);
  out.err << "stringwright: " << rows.failure().message << " [" << rows.failure().id << "]\n";
  return {};
}

std::optional<parts::Library> whole_library(const Out& out) {
  const auto own = own_rows(out);
  if (!own) return {};
  auto all = app::whole_library(*own);
  for (const auto& d : all.diagnostics) out.err << render(d, "");
  return std::move(all.library);
}

}  // namespace stringwright::cli
