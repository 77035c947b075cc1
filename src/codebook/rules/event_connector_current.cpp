#include "codebook/methods/events.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::string_circuit && !f.events.empty(); }

/// Connectors of a string bear what any fault or mistake sends through them for as long as no device ends it.
///
///     I_c ≤ I_cr
///
/// I_c   largest of all events that no device in the path ends [A]
/// I_cr  rated current of the connectors [A]; not given: what they carry in service, k · I_sc, is no question
///
/// Source: NFPA 70, 110.3(B), 690.33. Proved: cases/rules/event_connector_current.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto worst = worst_events<units::Current>(f, &EventFacts::i_plug, [](const EventFacts& e) {
    return !e.cleared.known() || !*e.cleared;
  });
  if (!worst.any() && worst.not_solved.empty())
    return not_applicable(
        "No event sends current through its connectors that a device does not end.");
  if (!f.connector_rating.known() && f.i_sc.known() && worst.not_solved.empty()) {
    const auto service = edition.factor("current.irradiance-factor").value.value_or(1.25) * *f.i_sc;
    const auto within = [&](const Fact<units::Current>& i) {
      return !i.known() || units::at_most(*i, service);
    };
    if (within(worst.fault) && within(worst.mistake))
      return not_applicable(
          "No event sends more through its connectors than they carry in service.");
  }
  return judge_worst(trail, worst, "I_c", "through a connector",
                     trail.given("I_cr", "connector rating", f.connector_rating),
                     edition.cite("equipment.instructions"),
                     "Read polarity and count of every string before any device is closed.");
}

}  // namespace

extern const Rule event_connector_current{
    .id = "event.connector-current",
    .title = "Connectors in a fault that nothing ends",
    .aliases = "",
    .asks =
        "In every fault and mistake that no device ends: do the string's connectors bear the "
        "current for as long as there is light?",
    .applies = applies,
    .check = check,
    .cites = "equipment.instructions",
    .family = Asked::both};

}  // namespace stringwright::codebook
