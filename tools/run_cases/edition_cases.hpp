#pragma once

#include <string>
#include <string_view>

#include "base/result.hpp"
#include "rule_cases.hpp"

namespace stringwright::run_cases {

/// Cases of one array through every edition (cases/editions): a file with `editions = "name"`, `[facts]`
/// that hold for all of its cases, and cases that name a rule, what is given besides, and what each
/// edition says: `expect` and `so` are tables by edition; `all` stands for every offered one of the NEC.
bool is_edition_file(const std::string& path, std::string_view text);
Result<Tally> run_edition_file(const std::string& path, std::string_view text);

}  // namespace stringwright::run_cases
