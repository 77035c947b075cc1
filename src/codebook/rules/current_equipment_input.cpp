#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// All strings together stay at or below the short-circuit current that the input's maker allows.
///
///     I_max = k_sun · ΣI_sc,    I_max ≤ I_in
///
/// Operating current above the input's rating is clipped by tracking controllers and does no harm; this
/// limit is the one that does. A simple (not tracking) controller's rating counts as the limit.
///
/// Source: NFPA 70, 110.3(B), 690.8(A). Proved: cases/rules/current_equipment_input.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_max = max_current(f, edition, trail);
  const auto limit = trail.given("I_in", "input limit", f.isc_max_input);
  return demand_at_most(trail, i_max, limit, edition.cite("equipment.instructions"));
}

}  // namespace

extern const Rule current_equipment_input{
    .id = "current.equipment-input",
    .title = "Array current at the equipment input",
    .aliases = "K3 I1 I2",
    .asks =
        "Does the short-circuit current of all strings, in "
        "strong sun, stay at or below what the input allows?",
    .applies = applies,
    .check = check,
    .cites = "equipment.instructions current.string current.output",
    .family = Asked::both};

}  // namespace stringwright::codebook
