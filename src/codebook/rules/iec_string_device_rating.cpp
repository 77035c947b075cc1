#include "codebook/methods/iec.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_device && (!f.fitted.known() || *f.fitted);
}

/// A string fuse stands in a window: it does not melt in strong sun, and still protects the modules.
///
///     1.5 · I_sc < I_n < 2.4 · I_sc,    I_n ≤ I_msf
///
/// The installation rules write 1.1 · k_sun · I_sc ≤ I_n: looser from below, so the window decides.
///
/// Source: IEC 62548-1:2023, 6.5 (2016: 6.5.3). Proved: cases/rules/iec_string_device_rating.toml,
/// cases/published/nec_6909.toml, cases/published/fuse_note_2012.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_sc = trail.given("I_sc", "I_sc of the string", f.i_sc);
  const auto i_n = trail.given("I_n", "device rating", f.rating);
  const auto i_msf = trail.given("I_msf", "series fuse limit", f.fuse_max);
  const auto k_a = use(trail, "k_a", "window from below", edition.factor("string-fuse.above"));
  const auto k_b = use(trail, "k_b", "window from above", edition.factor("string-fuse.below"));
  const auto low = trail.let("I_low", "above this", k_a * i_sc, edition.cite("string-fuse.window"));
  const auto high =
      trail.let("I_high", "below this", k_b * i_sc, edition.cite("string-fuse.window"));
  const auto cite = edition.cite("string-fuse.window");
  const auto from_below = iec::demand(trail, iec::above(i_n, low), i_n, low, true, cite);
  const auto from_above = iec::demand(trail, iec::below(i_n, high), i_n, high, false, cite);
  const auto modules = demand_at_most(trail, i_n, i_msf, edition.cite("ocpd.module"));

  Outcome outcome = modules;
  for (const auto* one : {&from_above, &from_below})
    if (one->verdict == Verdict::fail ||
        (one->verdict == Verdict::cannot_tell && outcome.verdict == Verdict::pass))
      outcome = *one;
  if (outcome.verdict == Verdict::pass)
    outcome.so = words::plain(*low.value) + " < " + words::plain(*i_n.value) + " < " +
                 words::plain(*high.value) + ", not above " + words::plain(*i_msf.value) +
                 " of the modules: passes.";
  if (low.value && i_msf.value && units::at_least(*low.value, *i_msf.value))
    outcome = {Verdict::fail,
               "No rating fits: it must be above " + words::plain(*low.value) +
                   ", the modules allow " + words::plain(*i_msf.value) + ".",
               {},
               {}};
  if (low.value && high.value)
    outcome.also.push_back(iec::ratings_between(*low.value, *high.value, false, i_msf.value));
  const auto select = edition.factor("string-fuse.select");
  if (select.value && i_sc.value)
    outcome.also.push_back(
        "By the fuse standard's own advice, up to 45 °C and 1200 W/m²: at least " +
        words::plain(*select.value * *i_sc.value) + ".");
  if (low.value && i_n.value) {
    const bool small = units::at_most(*i_n.value, *low.value);
    const auto limit = small ? *low.value : high.value ? *high.value : *low.value;
    outcome.margin = trail::Margin{
        limit,
        words::plain(limit) + (small ? " or less melts in the sun" : " or more protects too late"),
        !small,
        {{*i_n.value, words::plain(*i_n.value) + " device", trail::Margin::Mark::chosen}}};
  }
  return outcome;
}

}  // namespace

extern const Rule iec_string_device_rating{
    .id = "iec.string-device-rating",
    .title = "Rating of the string fuse",
    .aliases = "E2 O2 O3",
    .asks =
        "Is the fuse above 1.5 and below 2.4 times the string's short-circuit current, and not "
        "above what the modules allow?",
    .applies = applies,
    .check = check,
    .cites = "string-fuse.window ocpd.module string-fuse.select",
    .family = Asked::iec};

}  // namespace stringwright::codebook
