#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  const bool device = f.subject == Subject::string_device || f.subject == Subject::output_device;
  return device && (!f.fitted.known() || *f.fitted);
}

/// A device that opens in one direction only may not stand where current can come from both sides: from
/// the string in service, from other strings or a battery in a fault.
///
/// Source: NFPA 70, 110.3(B): the marking of the device; from memory. Proved: cases/rules/ocpd_direction.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto strings = trail.given("N_p", "strings together", f.strings);
  const bool beside =
      f.subject == Subject::string_device && strings.value && strings.value->in(units::plain) >= 2;
  const bool string_alone =
      f.subject == Subject::output_device || (strings.value && strings.value->in(units::plain) < 2);
  // A battery counts although the equipment blocks it: here the failed equipment is the fault.
  const bool battery = f.battery.known() && *f.battery;
  if (!beside && !battery) {
    if (string_alone && f.battery.known())
      return not_applicable("Current can come from one side only.");
    return cannot_tell("cannot tell: whether current can come from both sides is not known.");
  }
  const std::string why =
      beside ? "Other strings can feed back through it" : "A battery stands behind it";
  if (!f.polarised.known())
    return cannot_tell("cannot tell: whether the device opens in both directions is not known.");
  trail.note(why + ".", edition.cite("equipment.instructions"));
  if (*f.polarised)
    return {Verdict::fail, why + ", and the device opens in one direction only: fails.", {}, {}};
  return {Verdict::pass, why + "; the device opens in both directions: passes.", {}, {}};
}

}  // namespace

extern const Rule ocpd_direction{
    .id = "ocpd.direction",
    .title = "Direction of current through the device",
    .aliases = "O6",
    .asks = "Where current can come from both sides, does the device open in both directions?",
    .applies = applies,
    .check = check};

}  // namespace stringwright::codebook
