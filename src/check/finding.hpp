#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/span.hpp"
#include "codebook/edition.hpp"
#include "codebook/labels.hpp"
#include "job/job.hpp"
#include "trail/outcome.hpp"
#include "trail/trail.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::check {

/// One rule's verdict on one thing, with its trail.
struct Finding {
  std::string id;  ///< "conductor.terminal-ampacity@OUT"
  std::string rule, thing;
  std::string title;
  trail::Outcome outcome;
  trail::Trail trail;
  std::optional<job::Waiver> waived;  ///< a flag on a fail, never a verdict of its own
  Span span;                          ///< where the job speaks of what is judged
};

/// A rule of the list that no built rule answers: NOT LOOKED AT.
using NotLookedAt = codebook::ListedRule;

struct Report {
  std::string edition;            ///< "NEC 2023"
  std::vector<Finding> findings;  ///< in order of rules, then things
  std::vector<NotLookedAt> not_looked_at;
  std::vector<codebook::LabelAnswer> labels;  ///< due, or not known whether
};

struct Tally {
  int pass = 0, caution = 0, fail = 0, waived = 0, cannot_tell = 0, on_site = 0, not_applicable = 0,
      not_looked_at = 0;
};
Tally tally(const Report& r);
std::string tally_line(
    const Report&
        r);  ///< "0 fail · 2 cannot tell · 1 caution · 9 to check on site · 31 pass · 71 rules NOT LOOKED AT"

/// True when nothing but passes, cautions, waived fails, points to check on site and not-applicable
/// is found.
bool fine(const Report& r);

}  // namespace stringwright::check
