#pragma once

#include <string>
#include <vector>

#include "base/span.hpp"
#include "codebook/edition.hpp"
#include "job/job.hpp"

namespace stringwright::design {

/// One choice that the job left open, and what was put there.
struct Choice {
  std::string key;     ///< "run.OUT.wire.egc"
  std::string value;   ///< as it would be written in the job: "10 AWG Cu XHHW-2"
  std::string reason;  ///< one sentence, with the rule that decided
  Span span;           ///< of the open choice in the job file
};

/// A design: the job with its choices made, and which they were. A choice that can't be made yet stays
/// open, and what depends on it ends as cannot-tell.
struct Design {
  job::Job job;
  std::vector<Choice> choices;
};

/// Fill what the job leaves open, asking the same rules as the inspection. So far: the equipment
/// grounding conductor of a run, as the smallest copper size that `egc.size` passes.
Design fill(const job::Job& job, const codebook::Edition& edition);

}  // namespace stringwright::design
