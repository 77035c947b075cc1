#include "codebook/methods/events.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  const bool device = f.subject == Subject::string_device || f.subject == Subject::output_device;
  return device && !f.events.empty();
}

/// What stands across a device when it opens in a fault of equipment is not above what it may open.
///
///     V_open ≤ n_p · V_pole
///
/// V_open  largest of all events, the device opened alone, cells at their coldest under 1000 W/m² [V]
///
/// A reversed string is a mistake of people: ocpd.reversed-string judges it, this rule names it.
/// Source: NFPA 70, 110.3(B), 690.9(B). Proved: cases/rules/event_device_recovery_voltage.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto worst = worst_events<units::Voltage>(f, &EventFacts::v_recovery);
  if (!worst.any() && worst.not_solved.empty())
    return not_applicable("It opens in no event, or nothing stands across it then.");
  const auto poles = trail.given("n_p", "poles in series", f.poles);
  const auto v_pole = trail.given("V_pole", "volts of one pole", f.v_dc_pole);
  const auto limit = trail.let("V_dev", "device opens", poles * v_pole);
  return judge_worst(trail, worst, "V_open", "across it when it opens", limit,
                     edition.cite("equipment.instructions"),
                     "Do not open this device on it: wait for dark or cover the array.");
}

}  // namespace

extern const Rule event_device_recovery_voltage{
    .id = "event.device-recovery-voltage",
    .title = "Volts across the device when it opens in a fault",
    .aliases = "",
    .asks =
        "In every fault: is the voltage across the device when it alone opens one that it may "
        "open?",
    .applies = applies,
    .check = check,
    .cites = "equipment.instructions",
    .family = Asked::both};

}  // namespace stringwright::codebook
