#pragma once

#include <span>
#include <string_view>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "trail/outcome.hpp"
#include "trail/trail.hpp"

namespace stringwright::codebook {

/// One rule. It sees facts and an edition, writes its trail, and ends with a verdict. Pure: same facts,
/// same edition, same words.
struct Rule {
  std::string_view id;       ///< says what is asked: "conductor.terminal-ampacity"
  std::string_view title;    ///< heading of a finding: "Conductor ampacity before adjustment"
  std::string_view aliases;  ///< ids of the rule list it answers, blank separated: "I1 I2 I8"
  std::string_view asks;     ///< one or two sentences for `explain`
  bool (*applies)(const Facts&);
  trail::Outcome (*check)(const Facts&, const Edition&, trail::Trail&);
  std::string_view cites = {};  ///< keys of citations it uses, blank separated, for `explain`
};

/// All rules in the order of a report. Hand-written list in rules/all.cpp.
std::span<const Rule* const> all_rules();
const Rule* find_rule(std::string_view id);

}  // namespace stringwright::codebook
