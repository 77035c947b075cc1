#pragma once

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/building.hpp"

namespace stringwright::codebook {

/// Whether the edition asks for rapid shutdown of this array. Being off the grid is no exemption.
///
/// Source: NFPA 70, 690.12: circuits on or in buildings; 2017 exception: ground-mounted, into a building
/// that houses nothing but PV equipment; 2023: detached arrays whose circuits end on the outside of a
/// building, and open detached structures (carport, canopy, trellis).
/// Proved: cases/rules/rapid_shutdown_limits.toml.
Answer asks_rapid_shutdown(const Facts& facts, const Edition& edition);

}  // namespace stringwright::codebook
