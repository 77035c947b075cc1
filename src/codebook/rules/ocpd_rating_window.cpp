#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_device && (!f.fitted.known() || *f.fitted);
}

/// The standard ratings of the window in words; "" where an end is not known.
std::string standard_in(const Edition& edition, const Traced<units::Current>& low,
                        const Traced<units::Current>& high) {
  if (!low.value || !high.value) return "";
  const std::string window =
      "[" + words::plain(*low.value) + ", " + words::plain(*high.value) + "]";
  std::vector<std::string> ratings;
  auto next = edition.standard_rating_at_least(*low.value);
  while (next.value && units::at_most(*next.value, *high.value)) {
    ratings.push_back(words::plain(*next.value));
    next = edition.standard_rating_at_least(*next.value * (1 + 1e-6));
  }
  if (ratings.empty()) return "The window " + window + " holds no standard rating.";
  return "The window " + window + " holds the standard rating" + (ratings.size() > 1 ? "s " : " ") +
         words::list(ratings) + ".";
}

trail::Margin margin_line(const Facts& f, const Traced<units::Current>& low,
                          const Traced<units::Current>& high) {
  using Mark = trail::Margin::Mark;
  const bool too_small = f.rating.known() && low.value && !units::at_least(*f.rating, *low.value);
  trail::Margin m;
  m.forbidden_above = !too_small;
  m.limit = too_small ? *low.value : *high.value;
  m.limit_label = words::plain(m.limit) + (too_small ? " must carry" : " on the modules' label");
  if (f.rating.known())
    m.points.push_back({*f.rating, words::plain(*f.rating) + " device", Mark::chosen});
  if (!too_small && low.value)
    m.points.push_back({*low.value, words::plain(*low.value) + " least", Mark::other});
  return m;
}

/// A string's device carries the string in strong sun all day, and still protects its modules.
///
///     I_req ≤ I_n ≤ I_msf,    I_req = k_dty · k_sun · I_sc
///
/// I_n    rating of the device [A]
/// I_msf  smallest maximum series fuse rating of the string's modules [A]
///
/// Without a listing for full load a device carries 80 % of its rating all day: k_dty = 1.25.
///
/// Source: NFPA 70, 690.9(B), 110.3(B), 240.6(A). Proved: cases/rules/ocpd_rating_window.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_req = device_current(f, edition, trail);
  const auto i_msf = trail.given("I_msf", "series fuse limit", f.fuse_max);
  const auto i_n = trail.given("I_n", "device rating", f.rating);
  const auto low = demand_at_least(trail, i_n, i_req, edition.cite("ocpd.rating"));
  const auto high = demand_at_most(trail, i_n, i_msf, edition.cite("ocpd.module"));

  Outcome outcome = low;
  if (low.verdict == Verdict::pass ||
      (low.verdict == Verdict::cannot_tell && high.verdict == Verdict::fail)) {
    outcome = high;
    if (high.verdict == Verdict::pass)
      outcome.so = words::plain(*i_req.value) + " ≤ " + words::plain(*i_n.value) + " ≤ " +
                   words::plain(*i_msf.value) + ": passes.";
  }
  if (outcome.verdict != Verdict::fail && i_req.value && i_msf.value &&
      !units::at_most(*i_req.value, *i_msf.value)) {
    outcome = {Verdict::fail,
               "No rating fits: the device must carry " + words::plain(*i_req.value) +
                   ", the modules allow " + words::plain(*i_msf.value) + ".",
               {},
               {}};
  }
  if (const auto standard = standard_in(edition, i_req, i_msf); !standard.empty())
    outcome.also.push_back(standard);
  if (i_req.value && !i_msf.value)
    if (const auto next = edition.standard_rating_at_least(*i_req.value); next.value)
      outcome.also.push_back("The next standard rating is " + words::plain(*next.value) + ".");
  if (i_msf.value && (i_n.value || i_req.value)) outcome.margin = margin_line(f, i_req, i_msf);
  return outcome;
}

}  // namespace

extern const Rule ocpd_rating_window{
    .id = "ocpd.rating-window",
    .title = "Rating of the string device",
    .aliases = "O2 O3 O12 I7",
    .asks =
        "Can the device carry the string in strong sun all day, and is it no larger than the "
        "modules' maximum series fuse?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.rating ocpd.module current.string table.standard"};

}  // namespace stringwright::codebook
