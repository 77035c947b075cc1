#include "codebook/device_response.hpp"
#include "codebook/methods/events.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::string_circuit && !f.events.empty(); }

/// Bypass diodes bear what any fault or mistake sends through them. A device that opens within the hour does
/// not save them: they are gone in minutes, so every event counts.
///
///     I_d ≤ I_dr,    where the maker gives no rating I_d ≤ k_dt · I_sc
///
/// I_d   largest through a diode, of all events: (N − 2) · I_sc in a reversed string of N [A]
/// I_dr  what the maker lets a diode carry without end [A]
/// k_dt  bypass diode thermal test: 1.25 for an hour [-]
///
/// More than the test, and no rating: cannot-tell. Source: IEC 61215-2, MQT 18; NFPA 70, 110.3(B).
/// Proved: cases/rules/event_bypass_diode_current.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto worst = worst_events<units::Current>(f, &EventFacts::i_diode);
  if (!worst.any() && worst.not_solved.empty())
    return not_applicable("No event sends current through its bypass diodes.");
  const std::string gate =
      "Read polarity of every string before any device is closed; a module whose diodes carried "
      "this is checked before it is used again.";
  const auto source = edition.cite("equipment.instructions");
  if (f.bypass_rating.known())
    return judge_worst(trail, worst, "I_d", "through a diode",
                       trail.given("I_dr", "diode rating", f.bypass_rating), source, gate);
  const auto test = bypass_diode_test();
  const auto i_sc = trail.given("I_sc", "short-circuit current", f.i_sc);
  const auto k = trail.table("k_dt", "diode test", std::optional(test.factor),
                             "bypass diode thermal test", test.source);
  const auto limit = trail.let("I_dt", "diodes tested with", k * i_sc);
  auto outcome = judge_worst(trail, worst, "I_d", "through a diode", limit, source, gate);
  const auto beyond = [&](const Fact<units::Current>& i) {
    return limit.value && i.known() && !units::at_most(*i, *limit.value);
  };
  if (!beyond(worst.fault) && !beyond(worst.mistake)) return outcome;
  const auto& most = beyond(worst.fault) ? worst.fault : worst.mistake;
  auto unknown =
      cannot_tell("cannot tell: " + words::plain(*most) + " through a bypass diode, " + most.from +
                  ", and the maker's rating is not given; its own test goes to " +
                  words::plain(*limit.value) + ".");
  unknown.also.push_back(gate);
  return unknown;
}

}  // namespace

extern const Rule event_bypass_diode_current{
    .id = "event.bypass-diode-current",
    .title = "Bypass diodes in faults and mistakes",
    .aliases = "",
    .asks =
        "In every fault and mistake, a reversed string above all: do the bypass diodes bear the "
        "current that the other strings drive through them?",
    .applies = applies,
    .check = check,
    .cites = "equipment.instructions",
    .family = Asked::both};

}  // namespace stringwright::codebook
