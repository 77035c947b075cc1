#pragma once

#include <optional>
#include <vector>

#include "codebook/edition.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::check {

/// What each conductor may carry without end [n_conductors]: the lesser of the column of its coolest
/// terminal and its conditions of use; for an equipment ground the table's 75 °C column alone. None
/// where wire or conditions are not known, and for leads and fingers.
std::vector<std::optional<units::Current>> conductor_ampacities(const wiring::Wiring& w,
                                                                const codebook::Edition& edition);

}  // namespace stringwright::check
