#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/evaluate.hpp"
#include "base/result.hpp"

namespace stringwright::app {

/// What a rule asks, with its citation in each edition; and, for a finding, its trail.
struct Explanation {
  std::string rule, title, asks, aliases;
  struct Cited {
    std::string edition, cite, status;
  };
  std::vector<Cited> cited;
  std::optional<check::Finding> finding;
};

/// @param id  "rule" or "rule@thing"; the latter needs an evaluation
/// A failure says what ids there are, with the near miss.
Result<Explanation> explain(std::string_view id, const Evaluation* e);

}  // namespace stringwright::app
