#pragma once

#include <string>
#include <vector>

#include "app/circuit_of.hpp"
#include "app/evaluate.hpp"

namespace stringwright::app {

/// The operating points that every job is shown at: open circuit at the coldest, short circuit and
/// maximum power at standard test conditions, maximum power at the hottest; all at 1000 W/m². What
/// can't be solved is left out, and `remarks` says why.
std::vector<OperatingPoint> operating_points(const wiring::Wiring& w, const Circuit& circuit,
                                             std::vector<std::string>& remarks);

}  // namespace stringwright::app
