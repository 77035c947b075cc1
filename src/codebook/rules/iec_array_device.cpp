#include "codebook/methods/iec.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  const auto& lands = f.parallel.lands_on_input;
  return f.subject == Subject::output_circuit && lands.known() && *lands;
}

/// An array that a battery or another source can feed has a device of its own, close to that source.
///
///     1.25 · ΣI_sc < I_n ≤ 2.4 · ΣI_sc
///
/// Source: IEC 62548-1:2023, 6.5 (2016: 6.5.5). Proved: cases/rules/iec_array_device.toml; the array
/// worked by hand beside the comparison of editions: two strings of 10 A, 32 or 40 A.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const Behind source = behind(f);
  const bool fitted = f.fitted.known() && *f.fitted;
  const auto cite = edition.cite("iec.array");
  if (source == Behind::not_known && !fitted)
    return cannot_tell(
        "cannot tell: whether a battery behind the equipment can feed back is not known.");
  if (source == Behind::nothing && !fitted) {
    trail.note("Nothing behind the equipment feeds the array.", cite);
    return {Verdict::pass, "No battery can feed the array: no array device is needed.", {}, {}};
  }
  if (!fitted) {
    trail.note("A battery that nothing blocks can feed the array.", cite);
    if (!f.fitted.known())
      return cannot_tell(
          "cannot tell: an array device is needed; whether one is fitted is not known.");
    return {Verdict::fail,
            "A battery can feed the array: a device is needed at its end, and none is fitted.",
            {},
            {}};
  }
  const auto i = trail.given("ΣI_sc", "all strings' I_sc", f.i_sc_total);
  const auto i_n = trail.given("I_n", "device rating", f.rating);
  const auto k_a = use(trail, "k_a", "window from below", edition.factor("iec.array-above"));
  const auto k_b = use(trail, "k_b", "window from above", edition.factor("string-fuse.below"));
  const auto low = trail.let("I_low", "above this", k_a * i, cite);
  const auto high = trail.let("I_high", "at most", k_b * i, cite);
  const auto from_below = iec::demand(trail, iec::above(i_n, low), i_n, low, true, cite);
  const auto from_above = demand_at_most(trail, i_n, high, cite);
  Outcome outcome = from_below.verdict == Verdict::pass ? from_above : from_below;
  if (low.value && high.value)
    outcome.also.push_back(iec::ratings_between(*low.value, *high.value, true));
  if (source == Behind::nothing)
    outcome.also.push_back(
        "Nothing behind the equipment feeds the array: the device is not asked for.");
  return outcome;
}

}  // namespace

extern const Rule iec_array_device{
    .id = "iec.array-device",
    .title = "Device of the array",
    .aliases = "E5 K9 O2",
    .asks =
        "Where a battery can feed the array: is there a device at its end, above 1.25 and not "
        "above 2.4 times the array's short-circuit current?",
    .applies = applies,
    .check = check,
    .cites = "iec.array",
    .family = Asked::iec};

}  // namespace stringwright::codebook
