#pragma once

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"

/// Currents that conductors and devices are sized for.
namespace stringwright::codebook {

/// Maximum circuit current: of one string for strings and their devices, of all strings together for
/// what carries them all.
///
///     I_max = k_sun · I_sc
///
/// I_sc   short-circuit current at STC; where the module is bifacial the highest printed [A]
/// k_sun  sunlight stronger than at STC, by edition [-]
///
/// Source: NFPA 70, 690.8(A). Proved: cases/published (circuit_current).
Traced<units::Current> max_current(const Facts& facts, const Edition& edition, Trail& trail);

/// What a conductor must carry at its terminals: PV current is continuous.
///
///     I_req = k_dty · I_max
///
/// k_dty  1.25; 1.00 where the assembly with its devices is listed for full load [-]
///
/// Source: NFPA 70, 690.8(B)(1). Proved: cases/published (ocpd_size), cases/rules.
Traced<units::Current> conductor_current(const Facts& facts, const Edition& edition, Trail& trail);

/// The least rating of an overcurrent device or switch; the same form. Source: NFPA 70, 690.9(B).
Traced<units::Current> device_current(const Facts& facts, const Edition& edition, Trail& trail);

/// Current that everything else can drive backwards into a string.
///
///     I_rev = k_sun · I_oth
///
/// I_oth  sum of the short-circuit currents of the other strings [A]
///
/// Source: NFPA 70, 690.9(A). Proved: cases/published (backfeed_current).
Traced<units::Current> backfeed_current(const Facts& facts, const Edition& edition, Trail& trail);

/// What a source behind the equipment adds to the back-feed.
enum class Behind {
  nothing,  ///< no battery, or documented to block
  battery,  ///< a battery that nothing blocks: far above what a string bears
  not_known
};
Behind behind(const Facts& facts);

}  // namespace stringwright::codebook
