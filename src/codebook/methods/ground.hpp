#pragma once

#include <string>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"

namespace stringwright::codebook {

/// Smallest equipment grounding conductor of a circuit.
struct GroundSize {
  std::optional<units::WireSize> size;  ///< of `metal`
  std::string why;                      ///< what is missing where there is none
  std::string capped;  ///< why less than the table asks for suffices; "" = it does not
};

/// By the device ahead; without one by the device that would be rated for the circuit's current; never
/// larger than the circuit's conductors; never below the smallest size.
///
/// An increase of the circuit's conductors for voltage drop does not drag it along (690.45).
///
/// Source: NFPA 70, 690.45, Table 250.122, 250.122(A). Proved: cases/published (egc_size), cases/rules/egc_size.toml.
GroundSize smallest_ground(const Facts& facts, const Edition& edition, Trail& trail,
                           units::Metal metal);

/// The general rule for conductors that were made larger, which 690.45 sets aside for PV circuits:
/// the ground's area grows in proportion to theirs.
///
///     A_g = A_g0 · q,    q = A / A_0
///
/// Source: NFPA 70, 250.122(B). Proved: cases/published/ecn_forum_egc.toml.
/// Areas are the circular mils that chapter 9, table 8 prints.
std::optional<units::Ratio> growth(const Edition& edition, const units::WireSize& before,
                                   const units::WireSize& after);
std::optional<units::Area> grown_ground(const Edition& edition, const units::WireSize& ground,
                                        units::Ratio growth);
/// The smallest American size of at least that area; empty where none is so large.
std::optional<units::WireSize> smallest_of_area(const Edition& edition, units::Area area);

}  // namespace stringwright::codebook
