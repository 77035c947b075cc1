#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"

namespace stringwright::run_cases {

struct Tally {
  int passed = 0, failed = 0;
};

/// True for a file of rule cases (`rule = "..."` at its head).
bool is_rule_file(const std::string& path, std::string_view text);

/// Runs the cases of one rule; misses go to standard output.
Result<Tally> run_rule_file(const std::string& path, std::string_view text);

}  // namespace stringwright::run_cases
