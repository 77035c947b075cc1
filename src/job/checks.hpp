#pragma once

#include <string>
#include <vector>

#include "job/job.hpp"
#include "job/messages.hpp"
#include "job/patterns.hpp"

/// What is asked of a job once its values are read. Whatever could not be read is passed over here: it
/// has its message already.
namespace stringwright::job {

/// Each record for itself: editions, dates, fields of another part kind, segments, grounding.
void check_records(const Job& job, Messages& out);
void check_parts(const std::vector<parts::Part>& parts, Messages& out);

/// What can't be referred to with certainty, because it was written but could not be read.
struct Unsure {
  std::vector<std::string> sections;  ///< "row", "box" ...
  BrokenPatterns patterns;
};

/// References between records: what they name exists, is of the right kind, and is used once. Records
/// of the library that the job uses are copied into it; `lands` of a box and `from` of a run are
/// filled in from each other.
void resolve(Job& job, const Unsure& unsure, const parts::Library& library, Messages& out);

/// Values that can be read but are hardly meant, asked back.
void ask(const Job& job, Messages& out);
void ask_of_module(const parts::Module& module, Messages& out);

}  // namespace stringwright::job
