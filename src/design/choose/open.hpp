#pragma once

#include <functional>
#include <string>
#include <vector>

#include "base/span.hpp"
#include "job/job.hpp"
#include "parts/part.hpp"

namespace stringwright::design {

/// One thing that could stand where the job says "choose".
struct Candidate {
  std::string value;                    ///< as it is written in the job: "breaker-20A-150V-1p"
  std::string what;                     ///< in words, where the value does not say it
  std::function<void(job::Job&)> put;   ///< makes the choice in a job
  std::vector<std::string> also_write;  ///< further keys that go with it: "poles = 2"
};

/// One open choice with its candidates, the one to be preferred first: small before large.
struct Open {
  std::string key;  ///< "box.A1.slot.device"
  Span span;        ///< of "choose" in the job file
  std::vector<Candidate> candidates;
  std::string none;  ///< why there is no candidate, where there is none
};

/// Everything a job leaves open, in the order in which it is decided: string devices, boxes, conductors of
/// home runs, of runs, raceways, devices at inputs, arresters. Equipment grounds follow from the rest and
/// are filled by `fill`.
///
/// Candidates come from the job's own parts and from the library; what can't go together for reasons of form
/// (too few slots, poles that do not suit the grounding) is not among them. Whether one is good is not
/// decided here: check decides.
std::vector<Open> open_choices(const job::Job& job, const parts::Library& library);

}  // namespace stringwright::design
