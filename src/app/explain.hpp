#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/evaluate.hpp"
#include "base/result.hpp"
#include "codebook/example.hpp"

namespace stringwright::app {

/// What a rule asks, with its citation in each edition; and, for a finding, its trail.
struct Explanation {
  std::string rule, title, asks, aliases;
  struct Cited {
    std::string edition, cite, status;
  };
  std::vector<Cited> cited;
  /// What it asks, with formula, source and status of each number; editions that ask it alike together.
  struct Asked {
    std::vector<std::string> editions;  ///< "NEC 2017", "NEC 2020"
    std::vector<codebook::AskedLine> lines;
  };
  std::vector<Asked> asked;               ///< newest first
  std::vector<std::string> not_asked_in;  ///< offered editions that do not ask it
  std::optional<check::Finding> finding;
};

/// "NEC 2017, 2020 and 2023": names of editions in order, the family said once.
std::string editions_named(std::vector<std::string> names);

/// @param id  "rule" or "rule@thing"; the latter needs an evaluation
/// A failure says what ids there are, with the near miss.
Result<Explanation> explain(std::string_view id, const Evaluation* e);

}  // namespace stringwright::app
