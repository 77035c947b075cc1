#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  const bool device = f.subject == Subject::string_device || f.subject == Subject::output_device;
  return device && (!f.fitted.known() || *f.fitted);
}

/// The device can open the string's maximum voltage with the poles that lie in series in the circuit.
///
///     V_dev ≥ V_max,    V_dev = n_p · V_pole
///
/// n_p     poles in series; the maker has to permit the series arrangement [-]
/// V_pole  d.c. volts that one pole opens [V]
///
/// Source: NFPA 70, 110.4, 690.9(B) (2014: 690.9(C)). Proved: cases/rules/ocpd_volts_per_pole.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto poles = trail.given("n_p", "number of poles", f.poles);
  const auto v_pole = trail.given("V_pole", "voltage of a pole", f.v_dc_pole);
  const auto v_dev = trail.let("V_dev", "device opens", poles * v_pole);
  Outcome outcome = demand_at_least(trail, v_dev, v_max, edition.cite("ocpd.voltage"));
  if (f.poles.known() && f.poles->in(units::plain) > 1 && outcome.verdict == Verdict::pass &&
      f.v_dc_pole.known() && v_max.value && !units::at_least(*f.v_dc_pole, *v_max.value))
    outcome.also.push_back(
        "One pole alone does not open it: the maker must permit the poles in series.");
  if (v_dev.value && v_max.value)
    outcome.margin = trail::Margin{
        *v_dev.value,
        words::plain(*v_dev.value) + " device opens",
        true,
        {{*v_max.value, words::plain(*v_max.value) + " maximum", trail::Margin::Mark::chosen}}};
  return outcome;
}

}  // namespace

extern const Rule ocpd_volts_per_pole{.id = "ocpd.volts-per-pole",
                                      .title = "Voltage the device opens",
                                      .aliases = "V6 D7",
                                      .asks =
                                          "Can the device, with its poles in series, open the "
                                          "string's maximum voltage as direct current?",
                                      .applies = applies,
                                      .check = check,
                                      .cites = "ocpd.voltage voltage.coefficient voltage.table",
                                      .family = Asked::both};

}  // namespace stringwright::codebook
