#pragma once

#include <vector>

#include "check/facts.hpp"

namespace stringwright::check {

/// Adds how circuits stand beside each other: where outputs end and meet, the nearest device towards the
/// input, the poles that carry devices, the earthed pole.
void add_parallel_facts(const wiring::Wiring& w, std::vector<Judged>& all);

}  // namespace stringwright::check
