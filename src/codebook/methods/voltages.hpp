#pragma once

#include <string>

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"

/// Voltage of a string in cold and heat. Each formula stands here once: rules, cases and check/ use it.
namespace stringwright::codebook {

enum class ColdMethod { coefficient, table };
std::string_view print(ColdMethod m);  ///< "coefficient", "table"

/// Open-circuit voltage of the string at an ambient, by the modules' own coefficients.
///
///     V_cold = Σ N · V_oc · (1 + b · (T − 25 °C))      over groups of like modules
///
/// N     modules in series [-]
/// V_oc  open-circuit voltage of one at STC [V]
/// b     its temperature coefficient, negative [1/K]
/// T     lowest expected ambient [°C]: cells before sunrise are at air temperature or a little below
///
/// Source: NFPA 70, 690.7(A)(1) (2014: 690.7(A)). Limits: linear in T; light makes up nothing.
/// Proved: cases/published (cold_voltage_coefficient), cases/rules/voltage_equipment_input.toml.
Traced<units::Voltage> cold_by_coefficient(const Facts& facts, const Edition& edition,
                                           Trail& trail);
/// The same at the record low.
Traced<units::Voltage> cold_at_record(const Facts& facts, const Edition& edition, Trail& trail);

/// Open-circuit voltage of the string by the table for crystalline silicon: V_table = F_T · Σ N · V_oc.
///
/// Source: NFPA 70, Table 690.7(A) (2014: Table 690.7).
/// Proved: cases/published (cold_voltage_table), cases/rules/voltage_equipment_input.toml.
Traced<units::Voltage> cold_by_table(const Facts& facts, const Edition& edition, Trail& trail);

/// Voltage of a group of like modules in series: N · V · k, where k carries the temperature.
Traced<units::Voltage> series_voltage(const Traced<units::Ratio>& n,
                                      const Traced<units::Voltage>& v,
                                      const Traced<units::Ratio>& k);

/// Most modules in series that stay at or below a limit, `v_cold` being one module's cold voltage.
int most_in_series(units::Voltage v_cold, units::Voltage limit);

/// Which method judges. The facts choose; an edition that asks for the coefficient first gets it where
/// every module has one. Empty: not chosen.
std::optional<ColdMethod> chosen_method(const Facts& facts, const Edition& edition);

/// The string's maximum voltage by the method that judges. Where none is chosen the higher of both
/// counts, which errs on the safe side.
Traced<units::Voltage> maximum_voltage(const Facts& facts, const Edition& edition, Trail& trail);

/// Voltage at maximum power with the cells hot.
///
///     T_cell = T_hot + rise,    V_hot = Σ N · V_mp · (1 + b_mp · (T_cell − 25 °C))
///
/// b_mp  coefficient of V_mp, or that of the power where no other is given: cautious [1/K]
/// rise  of the cells above air in full sun [K]
///
/// Source: rules V7 of the rule list; cell rise as the job gives it.
/// Proved: cases/rules/voltage_operating_window.toml.
Traced<units::Voltage> hot_voltage(const Facts& facts, Trail& trail);

/// Σ N · V_mp at STC.
Traced<units::Voltage> stc_voltage(const Facts& facts, Trail& trail);

/// The ambient at which V_cold meets a limit, and V_cold with one more module. For sentences.
std::optional<units::Temperature> ambient_at_limit(const Facts& facts, units::Voltage limit);
std::optional<units::Voltage> with_one_more(const Facts& facts, units::Voltage v_cold);

}  // namespace stringwright::codebook
