#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/evaluate.hpp"
#include "base/result.hpp"
#include "codebook/edition.hpp"

namespace stringwright::app {

/// The same job under several editions of one family: what changes, and nothing else. Families are not
/// compared with each other: an IEC result beside a NEC one would mix factors, cables and words that
/// belong together.
struct Comparison {
  struct Side {
    std::string id, name;  ///< "nec_2017", "NEC 2017"
    check::Tally tally;
    bool own = false;  ///< the edition that the job names
  };
  struct Change {
    std::string rule, title;
    std::string sentence;               ///< what it is in which edition
    std::vector<std::string> cheapest;  ///< what would mend it where it does not pass
    bool verdict = false;               ///< the verdict changes, not only its numbers
  };
  struct Group {
    std::vector<std::string> things;  ///< those that change alike: "S1", "S2"
    std::vector<Change> changes;      ///< verdicts first
    std::vector<std::string> savings;
  };
  std::string file, job;
  Diagnostics diagnostics;
  bool usable = false;
  std::vector<Side> editions;  ///< oldest first
  std::vector<Group> groups;
  int same = 0;  ///< findings that say the same in all of them
  std::vector<std::string> notes;
};

/// @param family  whose editions; the offered ones, oldest first
Comparison compare(std::string_view text, std::string_view file,
                   codebook::Family family = codebook::Family::nec,
                   const parts::Library& library = {});

}  // namespace stringwright::app
