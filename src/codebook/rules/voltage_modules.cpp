#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::string_circuit; }

/// Every module of the string is marked for at least the string's maximum voltage.
///
///     V_max ≤ V_sys
///
/// V_max  by the method that judges; V_sys  smallest maximum system voltage of the modules [V]
///
/// Source: NFPA 70, 110.3(B), 690.7. Proved: cases/rules/voltage_modules.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto v_sys = trail.given("V_sys", "module limit", f.v_sys);
  return demand_at_most(trail, v_max, v_sys, edition.cite("voltage.module"));
}

}  // namespace

extern const Rule voltage_modules{.id = "voltage.modules",
                                  .title = "Voltage the modules are marked for",
                                  .aliases = "V6",
                                  .asks =
                                      "Does the string's maximum voltage stay at or below the "
                                      "maximum system voltage on every module's label?",
                                  .applies = applies,
                                  .check = check,
                                  .cites = "voltage.module voltage.coefficient voltage.table",
                                  .family = Asked::both};

}  // namespace stringwright::codebook
