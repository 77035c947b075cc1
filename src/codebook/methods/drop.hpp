#pragma once

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"

namespace stringwright::codebook {

/// Voltage lost along a pair of conductors at the operating current.
///
///     ΔU = 2 · L · r · I_mp
///
/// L     one-way length [m]; r resistance per length at 75 °C, a cautious conductor temperature [Ω/m]
/// I_mp  current at maximum power, of one string or of all that the circuit carries [A]
///
/// Source: Ohm's law; NFPA 70, chapter 9, table 8. Proved: cases/published (voltage_drop).
Traced<units::Voltage> voltage_drop(const Facts& facts, const Edition& edition, Trail& trail);
/// The same for one conductor of known resistance per length, there and back.
Traced<units::Voltage> voltage_drop(const Traced<units::Length>& one_way,
                                    const Traced<units::ResistancePerLength>& r,
                                    const Traced<units::Current>& i);

}  // namespace stringwright::codebook
