#include "job/read.hpp"

#include <utility>

#include "job/checks.hpp"
#include "job/fields.hpp"
#include "job/parts_file.hpp"
#include "job/patterns.hpp"
#include "job/toml_text.hpp"

namespace stringwright::job {
namespace {

constexpr Span whole_file{1, 1, 1, 1};

/// The records of a text, as far as they can be read.
template <class R>
std::vector<std::string> read_records(const toml::table& table, R& record, Messages& out) {
  RecordReader reader(&table, whole_file, "", "the file", out);
  describe(reader, record);
  reader.finish();
  return reader.broken();
}

}  // namespace

Reading read(std::string_view text, std::string_view file, const parts::Library& library) {
  Messages out(text, file);
  Reading reading;
  if (const auto table = parse_toml(text, out)) {
    JobFile found;
    Unsure unsure;
    unsure.sections = read_records(*table, found, out);
    unsure.patterns = expand(found, out);
    check_records(found.job, out);
    resolve(found.job, unsure, library, out);
    ask(found.job, out);
    if (!out.any_error()) reading.job = std::move(found.job);
  }
  reading.diagnostics = out.take();
  return reading;
}

LibraryReading read_library(std::string_view text, std::string_view file) {
  Messages out(text, file);
  LibraryReading reading;
  if (const auto table = parse_toml(text, out)) {
    PartsFile found;
    read_records(*table, found, out);
    check_parts(found.library.parts, out);
    for (const auto& module : found.library.modules) ask_of_module(module, out);
    reading.library = std::move(found.library);
  }
  reading.diagnostics = out.take();
  return reading;
}

}  // namespace stringwright::job
