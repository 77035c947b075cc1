#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/diagnostic.hpp"
#include "job/job.hpp"

namespace stringwright::job {

/// What reading a job file gives: the job where it can be used, and every mistake and question found
/// in one pass. `job` is empty when any diagnostic is an error.
struct Reading {
  std::optional<Job> job;
  Diagnostics diagnostics;
};

/// Read the text of a job file. Every mistake is found in one pass: syntax (the first), unknown keys
/// with the near miss, wrong kinds of unit, missing, out of range, duplicates, dangling references,
/// fields of another part kind, and implausible labels (asked back as questions).
///
/// `rows` and `strings` are expanded; references are resolved against the job and then `library`,
/// whose used records are copied into the job so that later stages need no library.
///
/// @param file  name for messages; nothing is opened
Reading read(std::string_view text, std::string_view file, const parts::Library& library = {});

/// What reading a parts file gives: `[module.*]` and `[part.*]`, the same records as in a job.
struct LibraryReading {
  parts::Library library;
  Diagnostics diagnostics;
};
LibraryReading read_library(std::string_view text, std::string_view file);

/// The records of a library as a parts file; it reads back as the same records.
std::string write_library(const parts::Library& library);

/// A whole job as a job file, every known field once, in the order of the field lists (for tests and
/// new files; a user's own file is never re-written but spliced).
std::string write(const Job& job);

/// JSON Schema (2020-12) of the job file, and its reference page in Markdown; from the field lists.
std::string schema_json();
std::string reference_markdown();

/// A commented starter job that reads without a mistake and can be checked at once.
std::string starter();

}  // namespace stringwright::job
