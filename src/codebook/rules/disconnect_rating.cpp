#include "codebook/methods/currents.hpp"
#include "codebook/methods/demands.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::disconnect && f.disconnect.own.known() && *f.disconnect.own;
}

///     I_n ≥ I_req,    V_dev = n_p · V_pole ≥ V_max,    I_int ≥ I_avl
///
/// On the battery side the controller's output and the battery take the place of the strings:
/// I_req = k_dty · I_out, V_dev ≥ V_bat, I_int ≥ I_bat.
///
/// Source: NFPA 70, 690.13(E) (2014: 690.17(E)), 110.9. Proved: cases/rules/disconnect_rating.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("disconnect.rating");
  const bool system = f.disconnect.of == "system";
  if (system && !f.disconnect.side.known())
    return cannot_tell("cannot tell: on which side of the equipment it stands is not known.");
  const bool behind_it = system && *f.disconnect.side != "array";
  if (behind_it && *f.disconnect.side != "battery")
    return not_applicable("It stands on the a.c. or load side, beyond the PV input.");
  Demands demands(trail);
  const auto i_n = trail.given("I_n", "rating of the disconnect", f.rating);
  const auto poles = trail.given("n_p", "number of poles", f.poles);
  const auto v_pole = trail.given("V_pole", "voltage of a pole", f.v_dc_pole);
  const auto v_dev = trail.let("V_dev", "it opens", poles * v_pole);
  const auto i_int = trail.given("I_int", "interrupt rating", f.interrupt);
  if (behind_it) {
    const auto k = use(trail, "k_dty", "continuous duty", edition.factor("load.continuous-factor"));
    const auto i_out = trail.given("I_out", "controller output", f.behind.i_out);
    const auto i_req = trail.let("I_req", "must carry", k * i_out, source);
    demands.add(demand_at_least(trail, i_n, i_req, source));
    const auto v_bat = trail.given("V_bat", "battery, charging", f.v_battery_max);
    demands.add(demand_at_least(trail, v_dev, v_bat, source));
    const auto i_bat = trail.given("I_bat", "battery fault", f.battery_fault);
    demands.add(demand_at_least(trail, i_int, i_bat, edition.cite("ocpd.interrupt")));
  } else {
    const auto i_req = device_current(f, edition, trail);
    demands.add(demand_at_least(trail, i_n, i_req, source));
    const auto v_max = maximum_voltage(f, edition, trail);
    demands.add(demand_at_least(trail, v_dev, v_max, source));
    if (!f.battery.known()) {
      demands.add(
          cannot_tell("cannot tell: whether a battery stands behind the input is not known."));
    } else {
      const auto i_avl = *f.battery ? trail.given("I_bat", "battery fault", f.battery_fault)
                                    : max_current(f, edition, trail);
      demands.add(demand_at_least(trail, i_int, i_avl, edition.cite("ocpd.interrupt")));
    }
  }
  return demands.outcome("Its label says all three.");
}

}  // namespace

extern const Rule disconnect_rating{
    .id = "disconnect.rating",
    .title = "Rating of a disconnect",
    .aliases = "D7",
    .asks =
        "Does the disconnect carry the current all day, open the voltage, and bear the fault "
        "current there?",
    .applies = applies,
    .check = check,
    .cites = "disconnect.rating ocpd.interrupt current.output ocpd.rating"};

}  // namespace stringwright::codebook
