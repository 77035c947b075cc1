#include "codebook/device_response.hpp"
#include "codebook/methods/events.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::string_circuit && !f.events.empty(); }

/// What the rest of the array drives backwards through a string's modules in any fault stays below what
/// a module has been tested with, or the string's own device ends it.
///
///     I_back ≤ k_rt · I_msf
///
/// I_back  largest of all events that no device in the path ends, by solution of the circuit [A]
/// k_rt    reverse current overload test: 1.35 for two hours [-]
///
/// A device not above I_msf opens at 1.35 of its rating within the hour: it ends in time what it ends at
/// all. Source: IEC 61730-2. Proved: cases/rules/event_module_reverse_current.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto worst = worst_events<units::Current>(f, &EventFacts::i, [&](const EventFacts& e) {
    const bool ended = e.cleared.known() && *e.cleared && f.rating.known() && f.fuse_max.known() &&
                       units::at_most(*f.rating, *f.fuse_max);
    return !ended;
  });
  if (!worst.any() && worst.not_solved.empty())
    return not_applicable(
        "No event drives current backwards through it that its device does not end.");
  const auto i_msf = trail.given("I_msf", "series fuse limit", f.fuse_max);
  const auto test = module_reverse_test();
  const auto k = trail.table("k_rt", "reverse test", std::optional(test.factor),
                             "reverse current overload test", test.source);
  const auto limit = trail.let("I_rt", "module bears", k * i_msf);
  return judge_worst(trail, worst, "I_back", "backwards current", limit,
                     edition.cite("equipment.instructions"),
                     "Read polarity and count of every string before any device is closed.");
}

}  // namespace

extern const Rule event_module_reverse_current{
    .id = "event.module-reverse-current",
    .title = "Current backwards through modules in a fault",
    .aliases = "",
    .asks =
        "In every fault and mistake that no device ends: do the string's modules bear what the "
        "others "
        "drive backwards through them?",
    .applies = applies,
    .check = check,
    .cites = "equipment.instructions",
    .family = Asked::both};

}  // namespace stringwright::codebook
