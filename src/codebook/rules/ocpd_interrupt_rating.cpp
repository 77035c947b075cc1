#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::output_device && (!f.fitted.known() || *f.fitted);
}

/// The device at the input end can interrupt what the source behind the input can feed into a fault: a
/// battery's fault current. A controller that blocks reverse current counts as failed here; without a
/// battery the strings themselves are what can flow.
///
///     I_int ≥ I_bat    (battery),    I_int ≥ I_max    (none)
///
/// Source: NFPA 70, 110.9, 690.9(A). Proved: cases/rules/ocpd_interrupt_rating.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.battery.known())
    return cannot_tell("cannot tell: whether a battery stands behind the input is not known.");
  const auto i_int = trail.given("I_int", "interrupt rating", f.interrupt);
  const auto fault = *f.battery ? trail.given("I_bat", "battery fault", f.battery_fault)
                                : max_current(f, edition, trail);
  Outcome outcome = demand_at_least(trail, i_int, fault, edition.cite("ocpd.interrupt"));
  if (*f.battery && f.blocks_reverse.known() && *f.blocks_reverse)
    outcome.also.push_back(
        "The equipment blocks reverse current while it is sound; a failed one does not.");
  return outcome;
}

}  // namespace

extern const Rule ocpd_interrupt_rating{.id = "ocpd.interrupt-rating",
                                        .title = "Interrupting rating at the input end",
                                        .aliases = "D7 K5",
                                        .asks =
                                            "Can the device at the input end interrupt the fault "
                                            "current of the battery behind the equipment?",
                                        .applies = applies,
                                        .check = check,
                                        .cites = "ocpd.interrupt",
                                        .family = Asked::both};

}  // namespace stringwright::codebook
