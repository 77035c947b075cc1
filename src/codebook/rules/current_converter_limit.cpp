#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::output_circuit; }

/// From 2020 on the circuit to an inverter or a controller may be taken at the rated current of its input,
/// if a device not above the conductor's ampacity protects it.
///
///     I_n ≤ I_u
///
/// I_u  the lesser of terminals and conditions of use; the next size up is not allowed here [A]
///
/// Source: NFPA 70, 690.8(A)(2). Proved: cases/rules/current_converter_limit.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.converter_limit.known() || !*f.converter_limit)
    return not_applicable("It is sized by its strings, not by the input.");
  if (!f.i_rated_input.known())
    return cannot_tell("cannot tell: the rated current of the input is not known.");
  const auto i_req = conductor_current(f, edition, trail);
  const auto terminal = terminal_ampacity(f, edition, trail, i_req);
  const auto use_now = conditions_of_use(f, edition, trail);
  if (!use_now.all_known || !terminal.i_t.value)
    return cannot_tell("cannot tell: what the conductor may carry is not known.");
  const auto i_u = trail.let("I_u", "what it may carry", trail::lesser(terminal.i_t, use_now.i_z));
  const auto i_n = trail.given("I_n", "device rating", f.protected_by);
  return demand_at_most(trail, i_n, i_u, edition.cite("current.converter"));
}

}  // namespace

extern const Rule current_converter_limit{
    .id = "current.converter-limit",
    .title = "Circuit sized by the converter's input",
    .aliases = "I5",
    .asks =
        "Where a circuit is sized by the rated current of the equipment's input, does its device "
        "guard the conductor at that size?",
    .applies = applies,
    .check = check,
    .cites = "current.converter conductor.continuous"};

}  // namespace stringwright::codebook
