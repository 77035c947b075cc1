#pragma once

#include <functional>
#include <string>
#include <vector>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"

/// What a conductor may carry, at its terminals and along its way.
namespace stringwright::codebook {

/// Whether more than one wire lies in each pole. All that follows holds for all of them together: the code
/// takes wires of one size, metal, length and end that are joined at both ends for one conductor
/// (NFPA 70, 310.10(G); 2014, 2017: 310.10(H)).
bool side_by_side(const Facts& facts);

/// "500 kcmil", "2 × 500 kcmil" where several lie side by side.
std::string size_words(const Facts& facts, const units::WireSize& size);

/// Ampacity in the column of the coolest terminal, from the raceway table, with no factors.
struct TerminalAmpacity {
  Traced<units::Current> i_t;
  std::optional<units::Temperature> column;
  bool assumed = false;  ///< the terminals' rating is not known; the code's default stands in
};

/// I_t of the conductor. The column is that of the terminals, and never hotter than the insulation.
/// Terminals of unknown rating: 60 °C up to a circuit of 100 A, above that 75 °C.
///
/// @param i_req  what the circuit must carry: picks the default column
///
/// Source: NFPA 70, 110.14(C)(1), Table 310.16. Proved: cases/published (terminal_temperature).
TerminalAmpacity terminal_ampacity(const Facts& facts, const Edition& edition, Trail& trail,
                                   const Traced<units::Current>& i_req);

/// I_z = I_i · k_T · k_N.
Traced<units::Current> under_conditions(const Traced<units::Current>& i_i,
                                        const Traced<units::Ratio>& k_t,
                                        const Traced<units::Ratio>& k_n);

/// The smallest American size that carries a current in a column of the raceway table.
std::optional<units::WireSize> smallest_in_column(const Edition& edition, units::Current i,
                                                  units::Metal metal, units::Temperature column);

/// Ampacity of one stretch under its conditions of use.
///
///     I_z = I_i · k_T · k_N,    k_T at T_a + ΔT_roof
///
/// I_i      ampacity in the insulation's column (wet rating): raceway table; free-air table for single
///          conductors in open air [A]
/// k_T      ambient factor from the table, not the equation [-]
/// ΔT_roof  adder over a sunlit roof, by edition; not for XHHW-2 [K]
/// k_N      adjustment for more than three current-carrying conductors; none up to 24 in [-]
///
/// Source: NFPA 70, 690.8(B)(2), 310.15. Proved: cases/published (conductor_ampacity).
struct StretchAmpacity {
  Traced<units::Current> i_z;
  std::string label;      ///< "stretch 2 (PVC40)"
  std::string forbidden;  ///< why the conductor may not be used there at all; "" = it may
};
StretchAmpacity stretch_ampacity(const Facts& facts, std::size_t stretch, const Edition& edition,
                                 Trail& trail);

/// The worst of all stretches, with its steps in the trail.
struct ConditionsOfUse {
  std::vector<StretchAmpacity> stretches;  ///< [n_stretches], in order
  Traced<units::Current> i_z;              ///< of the worst stretch that is known
  int worst = -1;
  bool all_known = false;  ///< false: another stretch may be worse
};
ConditionsOfUse conditions_of_use(const Facts& facts, const Edition& edition, Trail& trail);

/// Largest device that protects a conductor.
///
///     I_dev = min(next standard rating not below I_u, limit of a small conductor)
///
/// I_u  what the conductor may carry: the lesser of terminals and conditions of use [A]. Where the next
///      standard rating passes 800 A the device may not be larger than I_u itself.
///
/// Source: NFPA 70, 240.4(B), 240.4(D), 240.6(A). Proved: cases/rules/conductor_protected_by_device.toml.
Traced<units::Current> largest_device(const Facts& facts, const Edition& edition, Trail& trail,
                                      const Traced<units::Current>& i_u);

/// The smallest size of the wire's own series with which `holds` is true, all else as it is; of those that may
/// lie side by side where they do. For sentences.
std::optional<units::WireSize> smallest_size_that(const Facts& facts,
                                                  const std::function<bool(const Facts&)>& holds);

}  // namespace stringwright::codebook
