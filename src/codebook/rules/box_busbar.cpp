#include "codebook/methods/currents.hpp"
#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::box; }

///     I_bus ≥ I_req,    I_req = k_dty · k_sun · ΣI_sc,    I_scr ≥ I_avl
///
/// I_bus  continuous rating of the bus bar [A]
/// I_scr  short-circuit current rating [A]
/// I_avl  what can flow into a short there: the battery's fault current where there is one [A]
///
/// The sum of the devices' ratings is a bound that errs on the safe side; it is named, not asked.
///
/// Source: NFPA 70, 690.8(B)(1), 110.10. Proved: cases/rules/box_busbar.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_req = conductor_current(f, edition, trail);
  const auto i_bus = trail.given("I_bus", "bus bar rating", f.box.bus_rating);
  Outcome o = demand_at_least(trail, i_bus, i_req, edition.cite("box.busbar"));
  std::optional<bool> battery = f.battery.value;
  const auto i_scr = trail.given("I_scr", "short-circuit rating", f.box.short_circuit);
  Traced<units::Current> i_avl = not_known<units::Current>("I_avl", {"I_avl"});
  if (battery && *battery) {
    const auto i_bat = trail.given("I_bat", "battery fault", f.battery_fault);
    const auto i_max = max_current(f, edition, trail);
    i_avl = trail.let("I_avl", "into a short there", i_bat + i_max);
  } else if (battery) {
    i_avl = trail.let("I_avl", "into a short there", max_current(f, edition, trail));
  }
  Outcome fault =
      battery ? demand_at_least(trail, i_scr, i_avl, edition.cite("box.short-circuit"))
              : cannot_tell("cannot tell: whether a battery stands behind the box is not known.");
  const std::string sum =
      f.box.devices.known() ? "The devices' ratings add up to " + words::plain(*f.box.devices) + "."
                            : "";
  Demands both(trail);
  both.add(o);
  both.add(fault);
  Outcome all = both.outcome("The box's label says both.");
  if (!sum.empty()) all.also.push_back(sum);
  if (i_req.value && i_bus.value)
    all.margin = trail::Margin{
        *i_req.value,
        words::plain(*i_req.value) + " must carry",
        false,
        {{*i_bus.value, words::plain(*i_bus.value) + " bus bar", trail::Margin::Mark::chosen}}};
  return all;
}

}  // namespace

extern const Rule box_busbar{
    .id = "box.busbar",
    .title = "Bus bar of the box",
    .aliases = "B2",
    .asks =
        "Can the bus bar carry all strings in strong sun all day, and bear the fault current "
        "there?",
    .applies = applies,
    .check = check,
    .cites = "box.busbar box.short-circuit current.output conductor.continuous"};

}  // namespace stringwright::codebook
