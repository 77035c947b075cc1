#include "codebook/methods/demands.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment; }

///     I_bus ≥ ΣI_n,    V_ctr ≥ V_need
///
/// ΣI_n    ratings of the devices that feed its bus bar [A]
/// V_need  the higher of battery and, where the PV breaker sits in it, strings [V]
///
/// Source: NFPA 70, 408, 240 (712 where it is a d.c. microgrid). Proved: cases/rules/output_load_centre.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.battery.known() && !*f.battery) return not_applicable("No battery, no load centre.");
  if (!f.behind.centre_given.known() || !*f.behind.centre_given) {
    Outcome o = cannot_tell("cannot tell: the d.c. load centre is not described.");
    o.also.push_back(
        "It is listed for d.c., marked for the volts of battery and strings, its bus bar "
        "carries the sum of what feeds it, and the battery has a disconnect of its own. "
        "Say it as centre of the equipment.");
    return o;
  }
  const auto source = edition.cite("output.load-centre");
  Demands demands(trail);
  demands.ask(
      f.behind.centre_listed,
      {"panel and breakers are listed for d.c.", "panel or breakers are not listed for d.c.",
       "whether panel and breakers are listed for d.c."},
      source);
  const auto v_ctr = trail.given("V_ctr", "load centre marked for", f.behind.centre_volts);
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto v_bat = trail.given("V_bat", "battery, charging", f.v_battery_max);
  const auto v_need = trail.let("V_high", "highest voltage in it", trail::greater(v_max, v_bat));
  demands.add(demand_at_least(trail, v_ctr, v_need, source));
  const auto i_bus = trail.given("I_bus", "its bus bar", f.behind.centre_bus);
  const auto sum = trail.given("ΣI_n", "devices that feed it", f.behind.centre_devices);
  demands.add(demand_at_least(trail, i_bus, sum, source));
  demands.ask(
      f.behind.battery_switch,
      {"the battery has a disconnect of its own", "the PV breaker is the battery's only disconnect",
       "whether the battery has a disconnect beside the PV breaker"},
      source);
  return demands.outcome("Its label says the first three.");
}

}  // namespace

extern const Rule output_load_centre{
    .id = "output.load-centre",
    .title = "D.c. load centre",
    .aliases = "K6",
    .asks =
        "Is the load centre listed and marked for its d.c. volts, does its bus bar carry what "
        "feeds it, and is the PV breaker not the battery's only disconnect?",
    .applies = applies,
    .check = check,
    .cites = "output.load-centre"};

}  // namespace stringwright::codebook
