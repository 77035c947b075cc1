#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  const bool device = f.subject == Subject::string_device || f.subject == Subject::output_device;
  return device && (!f.fitted.known() || *f.fitted);
}

/// A device that opens in one direction only may not stand where current can come from both sides: from
/// the string in service, from other strings or a battery in a fault. Where the equipment is documented to
/// block its battery, only failed equipment feeds back: a caution.
///
/// Source: NFPA 70, 110.3(B): the marking of the device; from memory. Proved: cases/rules/ocpd_direction.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto strings = trail.given("N_p", "number of strings", f.strings);
  const bool string_device = f.subject == Subject::string_device;
  const bool beside = string_device && strings.value && strings.value->in(units::plain) >= 2;
  const bool alone = !string_device || (strings.value && !beside);
  if (alone && f.battery.known() && !*f.battery)
    return not_applicable("Current can come from one side only.");
  if (!f.polarised.known())
    return cannot_tell("cannot tell: whether the device opens in both directions is not known.");
  if (!*f.polarised) return {Verdict::pass, "The device opens in both directions: passes.", {}, {}};

  trail.note("The device opens in one direction only.", edition.cite("equipment.instructions"));
  if (beside)
    return {Verdict::fail,
            "Other strings can feed back through it, and it opens in one direction only: fails.",
            {},
            {}};
  if (behind(f) == Behind::battery)
    return {Verdict::fail,
            "A battery can feed back through it, and it opens in one direction only: fails.",
            {},
            {}};
  if (!alone) return cannot_tell("cannot tell: how many strings stand together is not known.");
  if (behind(f) == Behind::not_known)
    return cannot_tell("cannot tell: whether a battery can feed back through it is not known.");
  return {Verdict::caution,
          "It opens in one direction only: should the equipment fail, it could not open against "
          "what the battery feeds back.",
          {},
          {}};
}

}  // namespace

extern const Rule ocpd_direction{
    .id = "ocpd.direction",
    .title = "Direction of current through the device",
    .aliases = "O6",
    .asks = "Where current can come from both sides, does the device open in both directions?",
    .applies = applies,
    .check = check,
    .cites = "equipment.instructions",
    .family = Asked::both};

}  // namespace stringwright::codebook
