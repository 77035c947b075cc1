#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "app/evaluate.hpp"
#include "check/flip.hpp"

namespace stringwright::app {

/// What single change of the job flips each finding, by the finding's id; the cheapest first. Findings
/// that no number decides have none. On demand: takes some hundred times as long as the rules alone.
/// @param only  ids of the findings that are wanted; null: all of them
std::map<std::string, std::vector<check::Flip>> flips_of(
    const Evaluation& e, const std::set<std::string>* only = nullptr);

/// Where a conduit over a roof, raised a little, would need a smaller wire; thing by thing.
std::vector<check::Saving> savings_of(const Evaluation& e);

}  // namespace stringwright::app
