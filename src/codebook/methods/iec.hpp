#pragma once

#include <string>
#include <vector>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/methods/words.hpp"

/// Overcurrent protection and cables by the IEC family. Not mixed with the rules of the other family.
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

/// x > y and x < y as claims: equality does not hold, within the shared guard of comparisons.
trail::Claim above(const Traced<units::Current>& x, const Traced<units::Current>& y);
trail::Claim below(const Traced<units::Current>& x, const Traced<units::Current>& y);

/// A demand "above" or "below" as the last step of a rule: verdict and sentence.
Outcome demand(Trail& trail, const trail::Claim& claim, const Traced<units::Current>& x,
               const Traced<units::Current>& limit, bool is_above, trail::Source source);

/// The gPV ratings strictly between two currents and not above a third, as one sentence.
std::string ratings_between(units::Current low, units::Current high, bool high_included,
                            std::optional<units::Current> at_most = {});

/// What a cable may carry along its way and at its terminals.
///
///     I_u = min(I_z, I_t),    I_z = I_i · k_T · k_N
///
/// I_i  capacity in the way it is laid: PV cable in the open by EN 50618 (two that touch, 60 °C);
///      anything in conduit by method B1, in the open by method C of IEC 60364-5-52 (30 °C) [A]
/// k_T  factor of the air: at least 70 °C behind modules for a string in the open, 20 K more for what
///      lies in the sun over a roof [-]
/// k_N  grouping; one string, + and −, is one circuit [-]
/// I_t  at the terminals: 70 °C column of method B1, 90 °C where they are marked for it [A]
///
/// Limits: copper; buried cables and the insulation types of the other family have no table here.
/// Source: IEC 60364-5-52, EN 50618, IEC 60364-7-712. Proved: cases/rules/iec_string_cable.toml.
struct Capacity {
  Traced<units::Current> i_u;
  std::string label;       ///< the stretch that decides, or "terminals"
  bool all_known = false;  ///< false: another stretch may be worse
};
Capacity capacity(const Facts& facts, const Edition& edition, Trail& trail);

}  // namespace stringwright::codebook::iec
