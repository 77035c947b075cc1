#include "codebook/methods/iec.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::output_circuit; }

Traced<units::Current> needed(const Facts& f, const Edition& edition, Trail& trail) {
  const auto cite = edition.cite("iec.cable-current");
  const auto k = use(trail, "k_sun", "strong sun", edition.factor("current.irradiance-factor"));
  const auto i = trail.given("ΣI_sc", "all strings' I_sc", f.i_sc_total);
  const auto own = trail.let("I_max", "most current", k * i, edition.cite("current.output"));
  if (!f.fitted.known()) return not_known<units::Current>("I_need", {"whether a device is fitted"});
  if (*f.fitted) {
    const auto i_n = trail.given("I_n", "device rating", f.rating);
    return trail.let("I_need", "must carry", greater(own, i_n), cite);
  }
  const auto others = trail.given("I_oth", "others' I_sc", f.i_sc_others);
  if (!f.parallel.array_device.known())
    return trail.let("I_need", "must carry", greater(own, k * others), cite);
  const auto i_arr = trail.given("I_arr", "array device", f.parallel.array_device);
  return trail.let("I_need", "must carry", greater(own, i_arr + k * others), cite);
}

/// The cable of a sub-array or of the array carries its device's rating; without a device its own
/// strings, and what the array's device and the other sub-arrays can drive into it. No next size up.
///
///     I_u ≥ I_n                                        with a device
///     I_u ≥ max(k_sun · ΣI_sc, I_arr + k_sun · I_oth)    without one
///
/// Source: IEC 62548-1:2023, 7.3 (2016: table of minimum current ratings).
/// Proved: cases/rules/iec_array_cable.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_need = needed(f, edition, trail);
  const auto may = iec::capacity(f, edition, trail);
  Outcome outcome = demand_at_least(trail, may.i_u, i_need, edition.cite("iec.cable-current"));
  if (outcome.verdict == Verdict::pass && !may.all_known)
    return cannot_tell("cannot tell: what the cable may carry is not known along its whole way.");
  if (outcome.verdict != Verdict::cannot_tell)
    outcome.also.push_back("What decides: " + may.label + ".");
  return outcome;
}

}  // namespace

extern const Rule iec_array_cable{
    .id = "iec.array-cable",
    .title = "Current-carrying capacity of the output's cable",
    .aliases = "E6c I2 I9 I10 I12",
    .asks =
        "Does the cable carry its device's rating, or all its strings and what the rest of the "
        "array can drive into it, where it is hottest and at its terminals?",
    .applies = applies,
    .check = check,
    .cites =
        "iec.cable-current current.output iec.capacity iec.ambient iec.grouping iec.pv-cable "
        "iec.pv-cable-ambient",
    .family = Asked::iec};

}  // namespace stringwright::codebook
