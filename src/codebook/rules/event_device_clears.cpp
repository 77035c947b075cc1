#include "codebook/methods/events.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  const bool device = f.subject == Subject::string_device || f.subject == Subject::output_device;
  return device && !f.events.empty();
}

/// A device can end every current that an event sends through it: not more than it may interrupt, and
/// not against the marks of one that opens in one direction only.
///
///     I_thru ≤ I_int
///
/// Source: NFPA 70, 110.9, 110.3(B). Proved: cases/rules/event_device_clears.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  for (const auto& e : f.events) {
    if (!e.against_marks.known() || !*e.against_marks) continue;
    trail.note("Event " + e.id + " sends current against the marks of the device.",
               edition.cite("equipment.instructions"));
    return {Verdict::fail,
            "It opens in one direction only, and " + e.id + " sends current the other way: fails.",
            {},
            {}};
  }
  const auto worst = worst_events<units::Current>(f, &EventFacts::i);
  if (!worst.any() && worst.not_solved.empty())
    return not_applicable("No event sends current through it.");
  if (!f.interrupt.known() && !worst.fault.known())
    return not_applicable("No fault of equipment sends current through it.");
  const auto i_int = trail.given("I_int", "interrupting amps", f.interrupt);
  return judge_worst(trail, worst, "I_thru", "through the device", i_int,
                     edition.cite("ocpd.interrupt"),
                     "Do not open this device on it: wait for dark or cover the array.");
}

}  // namespace

extern const Rule event_device_clears{.id = "event.device-clears",
                                      .title = "Amps the device would have to break",
                                      .aliases = "",
                                      .asks =
                                          "Can the device interrupt what every fault sends through "
                                          "it, in the direction in which it flows?",
                                      .applies = applies,
                                      .check = check,
                                      .cites = "ocpd.interrupt equipment.instructions",
                                      .family = Asked::both};

}  // namespace stringwright::codebook
