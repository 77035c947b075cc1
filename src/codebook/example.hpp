#pragma once

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {

/// Facts filled with the example of every field: what `explain` and the rule pages ask a rule with, so
/// that it shows its formula and where each number comes from. The numbers belong to no job.
Facts example_facts(Subject subject, Family family);

/// The first subject that the rule asks, with its example facts; nothing where no example reaches it.
std::optional<Facts> example_for(const Rule& rule, Family family);

/// One line of what a rule asks in one edition: a factor of the code, a table it reads, a formula, a
/// demand. Numbers of the example are left out; a factor keeps its value.
struct AskedLine {
  std::string text;    ///< "I_req = k_dty · I_max", "k_sun = 1.25", "require I_t ≥ I_req"
  std::string words;   ///< plain name: "must carry"
  std::string cite;    ///< as printed; empty where the step has none
  std::string status;  ///< who has seen the number in print
};
/// Empty where the edition does not ask the rule or no example reaches it.
std::vector<AskedLine> asked_lines(const Rule& rule, const Edition& edition);

}  // namespace stringwright::codebook
