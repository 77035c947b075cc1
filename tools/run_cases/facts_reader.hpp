#pragma once

#include "base/result.hpp"
#include "codebook/facts.hpp"
#include "toml_file.hpp"

namespace stringwright::run_cases {

/// The facts of a rule case: keys by the field list of codebook/facts.hpp, quantities as text with
/// their unit. `edition` is left to the caller. A key that no field has is a failure.
Result<codebook::Facts> read_facts(const toml::table& given);

}  // namespace stringwright::run_cases
