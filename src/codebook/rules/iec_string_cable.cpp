#include "codebook/methods/iec.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::string_circuit; }

/// What a string's cable has to carry.
Traced<units::Current> needed(const Facts& f, const Edition& edition, Trail& trail) {
  const auto cite = edition.cite("iec.cable-current");
  if (f.fitted.known() && *f.fitted) {
    const auto i_n = trail.given("I_n", "string device", f.rating);
    return trail.let("I_need", "must carry", i_n, cite);
  }
  if (!f.fitted.known())
    return not_known<units::Current>("I_need", {"whether a string device is fitted"});
  const auto k = use(trail, "k_sun", "strong sun", edition.factor("current.irradiance-factor"));
  const auto i_sc = trail.given("I_sc", "I_sc of the string", f.i_sc);
  const auto own = trail.let("I_max", "most current", k * i_sc, edition.cite("current.string"));
  const bool below = f.parallel.device_below_fitted.known() && *f.parallel.device_below_fitted;
  if (below) {
    const auto i_down = trail.given("I_down", "device below", f.parallel.device_below);
    const auto others = trail.given("I_oth", "others' I_sc on it", f.parallel.i_sc_below);
    return trail.let("I_need", "must carry", greater(own, i_down + k * others), cite);
  }
  const auto others = trail.given("I_oth", "others' I_sc", f.i_sc_others);
  return trail.let("I_need", "must carry", greater(own, k * others), cite);
}

/// A string's cable carries its own current and what the rest of the array can drive backwards through
/// it; with a device of its own no more than that device lets through. There is no next size up.
///
///     I_u ≥ I_n                                       with a string device
///     I_u ≥ max(k_sun · I_sc, I_down + k_sun · I_oth)   without one
///
/// I_down  nearest device towards the input; none: the second term is k_sun · I_oth alone [A]
///
/// Source: IEC 62548-1:2023, 7.3 (2016: table of minimum current ratings); IEC 60364-4-43.
/// Proved: cases/rules/iec_string_cable.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_need = needed(f, edition, trail);
  const auto may = iec::capacity(f, edition, trail);
  Outcome outcome = demand_at_least(trail, may.i_u, i_need, edition.cite("iec.cable-current"));
  if (outcome.verdict == Verdict::pass && !may.all_known)
    return cannot_tell("cannot tell: what the cable may carry is not known along its whole way.");
  if (outcome.verdict != Verdict::cannot_tell)
    outcome.also.push_back("What decides: " + may.label + ".");
  if (behind(f) == Behind::battery && (!f.fitted.known() || !*f.fitted))
    outcome.also.push_back(
        "A battery that nothing blocks drives more than that: see the array device.");
  return outcome;
}

}  // namespace

extern const Rule iec_string_cable{
    .id = "iec.string-cable",
    .title = "Current-carrying capacity of the string's cable",
    .aliases = "E6 E6b I1 I9 I10 I12",
    .asks =
        "Does the cable carry the string's current, or its device's rating, and what the rest of "
        "the array can drive backwards through it, where it is hottest and at its terminals?",
    .applies = applies,
    .check = check,
    .cites =
        "iec.cable-current current.string iec.capacity iec.ambient iec.grouping iec.pv-cable "
        "iec.pv-cable-ambient",
    .family = Asked::iec};

}  // namespace stringwright::codebook
