#include "events/detector.hpp"

#include "codebook/device_response.hpp"
#include "codebook/methods/words.hpp"

namespace stringwright::events {
namespace {

constexpr units::Irradiance standard_sun = units::watts_per_square_metre(1000);
constexpr double brightest = 1400;

/// No fuse of this size gives off so much at its own rating; common practice, no source.
constexpr units::Power hottest_fuse = units::watts(10);

std::optional<units::Current> measure(Trials& trials, const Event& e, const Sky& sky, bool in_bond,
                                      std::optional<units::Resistance> bond) {
  const auto solved = trials.solve(e, sky, {.bond = bond});
  if (!solved) return std::nullopt;
  const Reading r = trials.read(*solved);
  if (in_bond) return r.bond;
  units::Current most;
  for (const auto i : r.residual) most = units::max(most, i);
  return most;
}

}  // namespace

std::string name_of(job::GroundFaultBy by) {
  for (int k = 0;; ++k) {
    const auto [name, value] = names(static_cast<job::GroundFaultBy*>(nullptr), k);
    if (name.empty() || value == by) return std::string(name);
  }
}

std::string detector_words(const job::GroundFault& d) {
  const std::string of = d.rating ? " of " + codebook::words::plain(*d.rating) : std::string();
  switch (d.by.value_or(job::GroundFaultBy::none)) {
    case job::GroundFaultBy::fuse:
      return "ground-fault fuse" + of;
    case job::GroundFaultBy::breaker:
      return "ground-fault breaker" + of;
    case job::GroundFaultBy::residual_current:
      return "residual-current sensor" + of;
    case job::GroundFaultBy::insulation:
      return "insulation measurement";
    case job::GroundFaultBy::none:
      break;
  }
  return "ground-fault device";
}

std::optional<DetectorSees> detector_sees(Trials& trials, const Event& e, bool thorough) {
  const Site& s = trials.site();
  const job::GroundFault* d = s.detector();
  if (!d) return std::nullopt;
  DetectorSees x;
  x.by = *d->by;
  x.trip = d->rating.value;
  const bool fuse = x.by == job::GroundFaultBy::fuse || x.by == job::GroundFaultBy::breaker;
  x.ends = fuse && s.bonded();
  if (x.by == job::GroundFaultBy::insulation) {
    x.seen = Seen::at_start;
    return x;
  }
  if (x.by == job::GroundFaultBy::none) {
    x.seen = Seen::blind;
    x.why = "the job says that nothing watches";
    return x;
  }
  if (!s.bonded()) {
    x.seen = fuse ? Seen::blind : Seen::unsure;
    x.why = fuse ? "there is no bond for it to be in"
                 : "how the equipment itself is tied to ground is not in the job";
    return x;
  }
  std::optional<units::Resistance> highest;
  if (fuse && !d->resistance && x.trip) highest = hottest_fuse / (*x.trip * *x.trip);
  bool first = true;
  for (const auto cell : {s.cold, s.hot}) {
    const auto most = measure(trials, e, {standard_sun, cell}, fuse, {});
    const auto least = highest ? measure(trials, e, {standard_sun, cell}, fuse, highest) : most;
    if (!most || !least) return std::nullopt;
    x.most = units::max(x.most, *most);
    x.least = first ? *least : units::min(x.least, *least);
    first = false;
  }
  if (!x.trip) {
    x.why = "its rating is not known";
    return x;
  }
  const auto agreed = codebook::device_response(s.convention, *x.trip);
  const units::Current opens = fuse ? agreed.opens * *x.trip : *x.trip;
  const units::Current holds = fuse ? agreed.holds * *x.trip : *x.trip;
  if (units::at_least(x.least, opens)) {
    x.seen = Seen::seen;
  } else if (fuse ? units::at_most(x.most, holds) : x.most < holds) {
    x.seen = Seen::blind;
    x.why = "it does not react below its rating";
  } else {
    x.seen = Seen::unsure;
    x.why = highest ? "its own resistance is not known"
                    : "it may react below " + codebook::words::plain(opens) + " and need not";
  }
  if (!thorough || x.seen == Seen::blind) return x;
  // The current rises with the light; the season in which it takes more light counts.
  for (const auto cell : {s.cold, s.hot}) {
    const auto at = [&](double sun) {
      return measure(trials, e, {units::watts_per_square_metre(sun), cell}, fuse, highest);
    };
    const auto dark = at(0), bright = at(brightest);
    if (!dark || !bright || *bright < opens) return x.above.reset(), x;
    const auto from =
        *dark >= opens ? units::Irradiance{} : light_for(at, opens, 0, brightest, *dark, *bright);
    if (!from) return x.above.reset(), x;
    x.above = x.above ? units::max(*x.above, *from) : *from;
  }
  return x;
}

}  // namespace stringwright::events
