#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "trail/outcome.hpp"
#include "trail/trail.hpp"

namespace stringwright::codebook {

/// Whose editions ask a rule. The families of codes never meet in one result: they differ in factors,
/// tables and words, so an edition asks the rules of its own family and those that both ask alike.
enum class Asked { nec, iec, both };

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
  Asked family = Asked::nec;    ///< has to agree with the rule list's `code` of its aliases
};

/// All rules in the order of a report. Hand-written list in rules/all.cpp.
std::span<const Rule* const> all_rules();
const Rule* find_rule(std::string_view id);

/// Those that an edition asks, in the order of a report: of its family, and with one alias at least in
/// force in it (rule list, since and until); a rule without an alias is in force in all of them.
std::vector<const Rule*> rules_of(const Edition& edition);
/// The same of one rule.
bool asked_in(const Rule& rule, const Edition& edition);

}  // namespace stringwright::codebook
