#include "codebook/device_response.hpp"
#include "codebook/methods/events.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool is_to_ground(const EventFacts& e) { return e.gf_sees.known(); }

bool applies(const Facts& f) {
  if (f.subject != Subject::input) return false;
  for (const auto& e : f.events)
    if (is_to_ground(e)) return true;
  return false;
}

Outcome not_seen(const std::vector<std::string>& blind, const std::vector<std::string>& seen,
                 const std::string& by) {
  Outcome o;
  o.verdict = by == "none" ? Verdict::caution : Verdict::fail;
  o.so = by == "none"
             ? "Nothing watches for ground faults: " + std::to_string(blind.size()) +
                   " of them stay until a second one."
             : std::to_string(blind.size()) + " of " + std::to_string(blind.size() + seen.size()) +
                   " faults to ground are in its blind spot.";
  o.also = {"Not seen: " + words::list(blind) + ".",
            "Such a fault stays for years; the second one is then a short through metal that this "
            "device cannot end. Measure the insulation of each string to ground, and watch the "
            "current between the poles."};
  return o;
}

/// The ground-fault device reacts to a fault to ground at every place, of the grounded pole too. A fuse or
/// breaker in the bond sees only the share of the return current that takes the way over metal: near the
/// grounded end that is little, and below its rating it never opens.
///
///     I_gf ≥ k_o · I_gn
///
/// I_gf  least of all places in full sun, with the device's own resistance in the bond [A]
/// I_gn  its rating [A];  k_o  multiple from which on it has to open: 1.35 of a fuse or breaker, 1 of a sensor
///
/// Source: NFPA 70, 690.41(B)(1) (690.5(A) before 2017): faults of the grounded conductors too. Blind spot:
/// Ball et al., Inverter Ground-Fault Detection Blind Spot, 2013. Proved: cases/rules/event_ground_fault_seen.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto& by = f.ground_fault.by;
  if (!by.known())
    return cannot_tell(
        "cannot tell: the job does not say what watches for ground faults "
        "(equipment.ground_fault).");
  std::vector<std::string> blind, seen, unsure;
  bool at_start = false;
  const EventFacts* least = nullptr;
  for (const auto& e : f.events) {
    if (!is_to_ground(e)) continue;
    const std::string& sees = *e.gf_sees;
    at_start = at_start || sees == "at-start";
    (sees == "blind" ? blind : sees == "unsure" ? unsure : seen).push_back(e.id);
    if (e.i_gf.known() && (!least || !units::at_least(*e.i_gf, *least->i_gf))) least = &e;
  }
  const auto cite = edition.cite("ground-fault.seen");
  if (at_start) {
    trail.note(
        "The insulation is measured before each start: a fault at any place is below its "
        "limit then.",
        cite);
    return {Verdict::pass,
            "Every fault to ground is found before the next start; not while the equipment works.",
            {},
            {}};
  }
  if (*by == "none") return not_seen(blind, seen, *by);
  if (!least) {
    if (!blind.empty()) return not_seen(blind, seen, *by);
    return cannot_tell(
        "cannot tell: how the equipment ties the array to ground is not in the job.");
  }
  const bool in_bond = *by == "fuse" || *by == "breaker";
  auto i = least->i_gf;
  i.from = "event " + least->id;
  i.status = "computed";
  const auto i_gf = trail.given("I_gf", "least it sees", i);
  const auto i_gn = trail.given("I_gn", "ground-fault device", f.ground_fault.rating);
  const auto response =
      device_response(edition.family() == Family::iec ? Convention::gpv : Convention::us,
                      f.ground_fault.rating.known() ? *f.ground_fault.rating : units::amps(1));
  const auto k = in_bond ? trail.table("k_o", "opens from", std::optional(response.opens),
                                       "conventional current", response.source)
                         : trail.table("k_o", "reacts from", std::optional(units::Ratio(1.0)),
                                       "a sensor reacts at its setting", cite);
  auto outcome = demand_at_least(trail, i_gf, trail.let("I_go", "reacts for sure", k * i_gn), cite);
  if (outcome.verdict == Verdict::cannot_tell) return outcome;
  if (!blind.empty()) {
    auto o = not_seen(blind, seen, *by);
    o.also.insert(o.also.begin(), outcome.so);
    return o;
  }
  if (!unsure.empty()) {
    auto o = cannot_tell("cannot tell: at " + words::list(unsure) +
                         " it may react and need not, or its own resistance is not known.");
    o.also = {outcome.so};
    return o;
  }
  outcome.so += " Least: event " + least->id + ".";
  return outcome;
}

}  // namespace

extern const Rule event_ground_fault_seen{
    .id = "event.ground-fault-seen",
    .title = "Faults to ground that the ground-fault device sees",
    .aliases = "",
    .asks =
        "Does the ground-fault device react to a fault to ground at every place, near the "
        "grounded end too, or has it a blind spot?",
    .applies = applies,
    .check = check,
    .cites = "ground-fault.seen",
    .family = Asked::both};

}  // namespace stringwright::codebook
