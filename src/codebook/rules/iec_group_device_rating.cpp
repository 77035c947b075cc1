#include "codebook/methods/iec.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

/// One string a device is no group.
bool applies(const Facts& f) {
  const auto& n = f.parallel.strings_on_device;
  return f.subject == Subject::string_device && (!f.fitted.known() || *f.fitted) &&
         (!n.known() || n->in(units::plain) > 1.5);
}

/// Several strings on one device: it carries them all, and still ends what it and the group's other
/// strings can drive into one.
///
///     N_g · 1.5 · I_sc < I_n < I_msf − (N_g − 1) · I_sc
///
/// N_g  strings on the device [-]. Hardly ever possible with present modules.
///
/// Source: IEC 62548-1:2023, 6.5 (2016: 6.5.3). Proved: cases/rules/iec_group_device_rating.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto n = trail.given("N_g", "strings on the device", f.parallel.strings_on_device);
  const auto i_sc = trail.given("I_sc", "I_sc of the string", f.i_sc);
  const auto i_n = trail.given("I_n", "device rating", f.rating);
  const auto i_msf = trail.given("I_msf", "series fuse limit", f.fuse_max);
  const auto k_a = use(trail, "k_a", "window from below", edition.factor("string-fuse.above"));
  const auto cite = edition.cite("iec.group-fuse");
  const auto low = trail.let("I_low", "above this", n * k_a * i_sc, cite);
  const auto high = trail.let("I_high", "below this", i_msf - (n - trail::number(1)) * i_sc, cite);
  if (low.value && high.value && units::at_least(*low.value, *high.value))
    return {Verdict::fail,
            "No rating fits: it must be above " + words::plain(*low.value) + " and below " +
                words::plain(*high.value) + ". Give each string a device of its own.",
            {},
            {}};
  const auto from_below = iec::demand(trail, iec::above(i_n, low), i_n, low, true, cite);
  const auto from_above = iec::demand(trail, iec::below(i_n, high), i_n, high, false, cite);
  Outcome outcome = from_below.verdict == Verdict::pass ? from_above : from_below;
  if (from_above.verdict == Verdict::fail) outcome = from_above;
  if (low.value && high.value)
    outcome.also.push_back(iec::ratings_between(*low.value, *high.value, false));
  return outcome;
}

}  // namespace

extern const Rule iec_group_device_rating{
    .id = "iec.group-device-rating",
    .title = "Several strings on one device",
    .aliases = "E3 I11",
    .asks =
        "Where several strings share a device: does it carry them all, and still end what the "
        "group can drive into one of them?",
    .applies = applies,
    .check = check,
    .cites = "iec.group-fuse",
    .family = Asked::iec};

}  // namespace stringwright::codebook
