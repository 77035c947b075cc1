#include "codebook/methods/disconnects.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::array; }

/// A grounded array has its devices in the ungrounded pole. An array without a grounded pole has them in
/// both poles in 2014, in one pole, the same for all strings, from 2017 on.
///
/// Source: NFPA 70, 690.9(C) (2014: 690.9, 690.35(B)), 240.22. Proved: cases/rules/ocpd_poles.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.fitted.known() && !*f.fitted) return not_applicable("No string has a device.");
  if (!f.scheme.known())
    return cannot_tell("cannot tell: how the system is grounded is not known.");
  if (!f.devices_in.known())
    return cannot_tell("cannot tell: which pole carries the string devices is not known.");
  const auto source = edition.cite("ocpd.poles");
  const auto grounded = grounded_conductor(f, edition);
  if (!grounded) return cannot_tell("cannot tell: which pole is grounded is not known.");
  const bool both = *f.devices_in == "both";
  const std::string stand = "Devices stand in " + conductors(*f.devices_in);
  if (!grounded->empty()) {
    const std::string free = *grounded == "minus" ? "plus" : "minus";
    trail.note("The " + *grounded + " conductor is grounded: devices belong in " + free + " alone.",
               source);
    if (*f.devices_in == free)
      return {Verdict::pass, stand + ", which is not grounded: passes.", {}, {}};
    return {Verdict::fail,
            stand + "; the grounded " + *grounded + " conductor must not be opened by one: fails.",
            {},
            {}};
  }
  const bool all_poles = edition.factor("ocpd.both-poles").value.value_or(0) > 0;
  trail.note(all_poles ? "No conductor is grounded: devices belong in both."
                       : "No conductor is solidly grounded: one pole is enough, the same for all.",
             source);
  if (both) return {Verdict::pass, "Devices stand in both poles: passes.", {}, {}};
  if (all_poles)
    return {Verdict::fail, stand + " alone, and this edition wants both: fails.", {}, {}};
  return {Verdict::pass, stand + " of every string: passes.", {}, {}};
}

}  // namespace

extern const Rule ocpd_poles{
    .id = "ocpd.poles",
    .title = "Poles that carry string devices",
    .aliases = "O4",
    .asks = "Do the strings' devices stand in the poles where this edition wants them?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.poles"};

}  // namespace stringwright::codebook
