#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/evaluate.hpp"
#include "check/flip.hpp"

namespace stringwright::app {

/// What single change of the job flips each finding, by the finding's id; the cheapest first. Findings
/// that no number decides have none. On demand: takes some hundred times as long as the rules alone.
std::map<std::string, std::vector<check::Flip>> flips_of(const Evaluation& e);

/// Where a conduit over a roof, raised a little, would need a smaller wire; thing by thing.
std::vector<check::Saving> savings_of(const Evaluation& e);

}  // namespace stringwright::app
