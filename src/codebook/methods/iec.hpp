#pragma once

#include "codebook/edition.hpp"

/// Overcurrent protection of strings by the IEC family. Not mixed with the rules of the other family.
namespace stringwright::codebook::iec {

/// Current that the other strings of a group of `strings` like ones drive into one: (N − 1) · I_sc.
units::Current backfeed(int strings, units::Current i_sc);

/// A string needs protection where the others drive more into it than its modules bear.
///
/// Source: IEC 62548:2016, 6.5.3. Proved: cases/published/nec_6909.toml.
bool protection_needed(int strings, units::Current i_sc, units::Current module_limit);

/// Window of a string fuse: above k_a · I_sc and below k_b · I_sc, and not above the module's limit.
///
/// Source: IEC 62548:2016, 6.5.3. Proved: cases/published/nec_6909.toml.
struct FuseWindow {
  units::Current above, below;
  bool holds(units::Current rating, units::Current module_limit) const;
};
FuseWindow fuse_window(const Edition& edition, units::Current i_sc);

}  // namespace stringwright::codebook::iec
