#include "codebook/device_response.hpp"
#include "codebook/methods/events.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return (f.subject == Subject::string_circuit || f.subject == Subject::output_circuit) &&
         !f.events.empty();
}

/// A conductor bears without end what flows in it in any fault that no device ends.
///
///     I_flt ≤ I_u
///
/// I_flt  largest of all events that no device in the path ends, under the strongest light [A]
/// I_u    ampacity: the lesser of terminals and conditions of use [A]
///
/// A device of the conductor's own that lets the current pass makes it a caution: the wire is protected by
/// what the code takes for protection. Source: NFPA 70, 690.9(A). Proved: cases/rules/event_conductor_fault_current.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto worst = worst_events<units::Current>(f, &EventFacts::i_wire, [](const EventFacts& e) {
    return !e.cleared.known() || !*e.cleared;
  });
  if (!worst.any() && worst.not_solved.empty())
    return not_applicable("No event sends current through it that its device does not end.");
  const auto i_u = trail.given("I_u", "ampacity", f.ampacity);
  auto outcome =
      judge_worst(trail, worst, "I_flt", "fault current", i_u, edition.cite("ocpd.needed"),
                  "Read polarity and count of every string before any device is closed.");
  // The code takes a device one size up as protection of its wire (conductor.protected-by-device judges it);
  // what that device lets pass for hours is then a caution.
  if (outcome.verdict == Verdict::fail && f.rating.known() && worst.fault.known()) {
    const auto by = edition.family() == Family::iec ? Convention::gpv : Convention::us;
    const auto opens = device_response(by, *f.rating).opens * *f.rating;
    if (!units::at_least(*worst.fault, opens)) {
      outcome.verdict = Verdict::caution;
      outcome.also.push_back("Its own device, " + words::plain(*f.rating) +
                             ", has to open only from " + words::plain(opens) +
                             " on: the wire runs hot until then.");
    }
  }
  return outcome;
}

}  // namespace

extern const Rule event_conductor_fault_current{
    .id = "event.conductor-fault-current",
    .title = "Conductor in a fault that nothing ends",
    .aliases = "",
    .asks =
        "In every fault and mistake that no device ends: does the conductor bear the current for "
        "as long as "
        "there is light?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.needed",
    .family = Asked::both};

}  // namespace stringwright::codebook
