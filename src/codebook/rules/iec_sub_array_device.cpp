#include "codebook/methods/iec.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  const auto& lands = f.parallel.lands_on_input;
  return f.subject == Subject::output_circuit && (!lands.known() || !*lands);
}

/// A box whose output meets others in another box is a sub-array. More than two of them need a device
/// each, unless the cable carries all that the others can drive into it.
///
///     1.25 · ΣI_sc < I_n ≤ 2.4 · ΣI_sc
///
/// Source: IEC 62548-1:2023, 6.5 (2016: 6.5.4). Proved: cases/rules/iec_sub_array_device.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.parallel.lands_on_input.known())
    return cannot_tell("cannot tell: where the output ends is not known.");
  const auto cite = edition.cite("iec.sub-array");
  const auto n = trail.given("N_sub", "sub-arrays that meet", f.parallel.sub_arrays);
  const bool fitted = f.fitted.known() && *f.fitted;
  if (!fitted) {
    if (!n.value) return cannot_tell("cannot tell: how many sub-arrays meet is not known.");
    if (n.value->in(units::plain) < 2.5)
      return {Verdict::pass, "No more than two sub-arrays meet: no device is needed.", {}, {}};
    const auto k = use(trail, "k_sun", "strong sun", edition.factor("current.irradiance-factor"));
    const auto i_oth = trail.given("I_oth", "others' I_sc", f.i_sc_others);
    const auto i_rev = trail.let("I_rev", "back-feed", k * i_oth);
    const auto along = iec::capacity(f, edition, trail);
    const auto carries = trail.require(along.i_u >= i_rev, cite);
    if (carries && *carries && along.all_known)
      return {Verdict::pass,
              "The cable carries what the others can drive into it (" +
                  words::compared(*i_rev.value, *along.i_u.value) + "): no device is needed.",
              {},
              {}};
    if (!carries || (*carries && !along.all_known))
      return cannot_tell(
          "cannot tell: more than two sub-arrays meet, no device is fitted, and what the cable may "
          "carry is not known.");
    if (!f.fitted.known())
      return cannot_tell("cannot tell: a device is needed; whether one is fitted is not known.");
    return {Verdict::fail,
            "More than two sub-arrays meet: a device is needed, and none is fitted.",
            {},
            {}};
  }
  const auto i = trail.given("ΣI_sc", "all strings' I_sc", f.i_sc_total);
  const auto i_n = trail.given("I_n", "device rating", f.rating);
  const auto k_a = use(trail, "k_a", "window from below", edition.factor("iec.sub-array-above"));
  const auto k_b = use(trail, "k_b", "window from above", edition.factor("string-fuse.below"));
  const auto low = trail.let("I_low", "above this", k_a * i, cite);
  const auto high = trail.let("I_high", "at most", k_b * i, cite);
  const auto from_below = iec::demand(trail, iec::above(i_n, low), i_n, low, true, cite);
  const auto from_above = demand_at_most(trail, i_n, high, cite);
  Outcome outcome = from_below.verdict == Verdict::pass ? from_above : from_below;
  if (low.value && high.value)
    outcome.also.push_back(iec::ratings_between(*low.value, *high.value, true));
  return outcome;
}

}  // namespace

extern const Rule iec_sub_array_device{
    .id = "iec.sub-array-device",
    .title = "Device of a sub-array",
    .aliases = "E4 O2",
    .asks =
        "Where more than two boxes meet in another: has each output a device, above 1.25 and not "
        "above 2.4 times its short-circuit current?",
    .applies = applies,
    .check = check,
    .cites = "iec.sub-array",
    .family = Asked::iec};

}  // namespace stringwright::codebook
