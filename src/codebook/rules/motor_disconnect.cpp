#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment; }

/// Source: NFPA 70, 430.102(B). Proved: cases/rules/motor_disconnect.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.behind.kind.known())
    return cannot_tell("cannot tell: what kind of equipment it is is not known.");
  if (*f.behind.kind != "pump-drive") return not_applicable("It drives no pump.");
  Demands demands(trail);
  demands.ask(f.behind.motor_disconnect,
              {"the motor has a disconnect of its own in sight",
               "the motor has no disconnect of its own in sight",
               "whether the motor has a disconnect of its own in sight"},
              edition.cite("motor.disconnect"));
  return demands.outcome(
      "The disconnect of the drive counts only where it is in sight of the motor.");
}

}  // namespace

extern const Rule motor_disconnect{.id = "motor.disconnect",
                                   .title = "Disconnect of a pump motor",
                                   .aliases = "M12",
                                   .asks = "Has the pump motor a disconnect of its own in sight?",
                                   .applies = applies,
                                   .check = check,
                                   .cites = "motor.disconnect"};

}  // namespace stringwright::codebook
