#include "events/table.hpp"

#include <algorithm>
#include <cmath>

#include "base/order.hpp"
#include "base/text.hpp"
#include "units/print.hpp"

namespace stringwright::events {
namespace {

constexpr units::Irradiance standard_sun = units::watts_per_square_metre(1000);

/// Currents closer than this share of the larger are the same to a table.
constexpr double alike_within = 0.03;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// Smallest short-circuit currents at STC of everything else that reaches the same input.
units::Current others(const Site& s, int string) {
  units::Current sum;
  const int input = s.input_of_string(string);
  for (std::size_t k = 0; k < s.w.strings.size(); ++k) {
    if (static_cast<int>(k) == string || s.input_of_string(static_cast<int>(k)) != input) continue;
    std::optional<units::Current> least;
    for (const int m : s.w.strings[k].modules) {
      const units::Current i = *s.w.module_of(m).i_sc;
      least = least ? units::min(*least, i) : i;
    }
    sum += s.w.strings[k].age * least.value_or(units::Current{});
  }
  return sum;
}

/// The opening light of a pole in one season; none where the grid's top does not reach it.
std::optional<units::Irradiance> opening_light(Trials& trials, const Event& e,
                                               const std::vector<Sky>& skies, const Sees& x,
                                               Season season) {
  const auto t = thresholds(trials.site(), trials.site().poles[at(x.pole)], season);
  if (!t) return std::nullopt;
  const std::size_t half = skies.size() / 2;
  const std::size_t begin = season == Season::cold ? 0 : half;
  const std::size_t end = season == Season::cold ? half : skies.size();
  for (std::size_t k = begin; k < end; ++k) {
    const units::Current here = units::abs(x.i[k]);
    if (here < t->opens) continue;
    const auto current = [&](double sun) -> std::optional<units::Current> {
      const auto solved = trials.solve(e, {units::watts_per_square_metre(sun), skies[k].cell});
      if (!solved) return std::nullopt;
      return units::abs(trials.read(*solved).poles[at(x.pole)]);
    };
    if (k > begin)
      return light_for(current, t->opens, skies[k - 1].sun.si(), skies[k].sun.si(),
                       units::abs(x.i[k - 1]), here);
    const units::Current dark = current(0).value_or(units::Current{});
    if (dark >= t->opens) return units::Irradiance{};
    return light_for(current, t->opens, 0, skies[k].sun.si(), dark, here);
  }
  return std::nullopt;
}

/// Every pole that carries something, alike ones together.
std::vector<Sees> group(const Site& s, const std::vector<Sky>& skies, const Series& all) {
  std::vector<Sees> groups;
  for (std::size_t p = 0; p < s.poles.size(); ++p) {
    const DevicePole& pole = s.poles[p];
    Sees x;
    x.pole = static_cast<int>(p);
    x.name = pole.name;
    x.like = {pole.name};
    x.role = pole.role;
    x.rating = pole.rating;
    x.v_opens = pole.v_opens;
    for (std::size_t k = 0; k < all.at.size(); ++k) {
      x.i.push_back(all.at[k].poles[p]);
      if (units::abs(x.i.back()) > units::abs(x.worst))
        x.worst = x.i.back(), x.worst_sky = static_cast<int>(k);
    }
    const units::Current least = pole.rating ? 0.01 * *pole.rating : units::amps(0.1);
    if (units::abs(x.worst) < least) continue;
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const Sees& g) {
      const DevicePole& o = s.poles[at(g.pole)];
      const double a = g.worst.si(), b = x.worst.si();
      return o.role == pole.role && (o.role != DevicePole::Role::feeder || o.of == pole.of) &&
             o.pole == pole.pole && o.rating == pole.rating &&
             s.w.devices[at(o.device)].owner == s.w.devices[at(pole.device)].owner &&
             std::fabs(a - b) <= alike_within * std::fmax(std::fabs(a), std::fabs(b));
    });
    if (same == groups.end()) {
      groups.push_back(std::move(x));
      continue;
    }
    same->like.push_back(x.name);
    if (units::abs(x.worst) <= units::abs(same->worst)) continue;
    x.like = std::move(same->like);
    *same = std::move(x);
  }
  for (Sees& x : groups) {
    const DevicePole& pole = s.poles[at(x.pole)];
    const Season season = season_of(skies, x.worst_sky);
    if (x.rating) x.ratio = units::abs(x.worst) / *x.rating;
    x.opens = response(s, pole, x.worst, season);
    // What holds in the cold may open in the heat of its box, though it carries a little less then.
    for (std::size_t k = 0; x.opens == Opens::holds && k < x.i.size(); ++k)
      x.opens = response(s, pole, x.i[k], season_of(skies, static_cast<int>(k)));
    x.opens_in = opening_time(pole, x.worst, season);
    x.towards = direction(s, pole, x.worst);
    x.wrong_way = x.worst.si() < 0 && pole.polarised.value_or(false);
    x.beyond_interrupt = pole.interrupt && units::abs(x.worst) > *pole.interrupt;
  }
  sort_keeping_order(groups, [](const Sees& x, const Sees& y) {
    return x.ratio.value_or(units::Ratio(0.0)).si() > y.ratio.value_or(units::Ratio(0.0)).si();
  });
  return groups;
}

void find_lights(Trials& trials, const Event& e, const std::vector<Sky>& skies, Sees& x) {
  const Site& s = trials.site();
  const DevicePole& pole = s.poles[at(x.pole)];
  x.above_cold = opening_light(trials, e, skies, x, Season::cold);
  x.above_hot = opening_light(trials, e, skies, x, Season::hot);
  if (x.above_cold && x.above_hot) x.above = units::max(*x.above_cold, *x.above_hot);
  const auto t = thresholds(s, pole, Season::cold);
  if (t && e.load != Load::battery && pole.role == DevicePole::Role::string && x.worst.si() < 0) {
    const units::Current all = others(s, pole.of);
    if (all.si() > 0) x.above_by_bound = (t->opens / all) * standard_sun;
  }
}

/// What the event does beyond its own load: in the dark, with the input drained, while the equipment works.
void look_further(Trials& trials, const Event& e, const Series& all, Row& r) {
  const Site& s = trials.site();
  if (all.has_gap) {
    Event drained = e;
    drained.load = Load::drained;
    if (const auto solved = trials.solve(drained, {standard_sun, s.cold})) {
      const auto& a = solved->faulted.applied;
      r.gap_most = solved->between(a.gap_plus, a.gap_minus);
    }
  }
  if (r.detector && r.detector->ends && r.detector->seen == Seen::seen) {
    Event idle = e;
    idle.load = Load::idle;  // the equipment stops when its bond is gone
    if (const auto solved = trials.solve(idle, {standard_sun, s.cold}, {.bond_open = true})) {
      const auto touched = live(s, *solved);
      for (const auto& in : s.w.inputs)
        for (const int t : s.w.devices[at(in.device)].terminals) {
          const auto pole = s.plus_grounded() ? wiring::Pole::plus : wiring::Pole::minus;
          const LiveAt* here = s.w.terminals[at(t)].pole == pole
                                   ? live_at(touched, s.w.terminals[at(t)].id)
                                   : nullptr;
          if (!here || !here->to_ground) continue;
          const auto v = units::abs(*here->to_ground);
          r.grounded_pole_after = units::max(r.grounded_pole_after.value_or(v), v);
        }
    }
  }
  if (e.load == Load::battery) {
    for (const auto cell : {s.cold, s.hot}) {
      const auto solved = trials.solve(e, {units::Irradiance{}, cell});
      if (!solved) continue;
      for (const auto i : trials.read(*solved).poles)
        r.in_the_dark = units::max(r.in_the_dark.value_or(units::Current{}), units::abs(i));
    }
  }
  if (e.load == Load::idle && !r.devices.empty() && r.devices.front().opens != Opens::holds) {
    Event working = e;
    working.load = Load::working;
    if (const auto solved = trials.solve(working, {standard_sun, s.hot}))
      r.while_working = trials.read(*solved).poles[at(r.devices.front().pole)];
  }
  if (const auto solved = trials.solve(e, {standard_sun, s.cold})) r.live = live(s, *solved);
}

/// What the table took for the devices' surroundings, a sentence each.
std::vector<std::string> heat_remarks(const Site& s) {
  std::vector<std::string> all;
  bool unknown = false;
  std::string last;
  for (const auto& pole : s.poles) {
    if (!pole.protects) continue;
    const auto words = heat_words(pole);
    unknown = unknown || words.empty();
    const std::string line =
        words.empty() ? ""
                      : "Devices of " + s.w.devices[at(pole.device)].owner + ": " + words + ".";
    if (!line.empty() && std::find(all.begin(), all.end(), line) == all.end()) all.push_back(line);
  }
  if (unknown)
    all.push_back(
        "Where the heat of a box is not given, its devices stand in the air of their rating; in a "
        "hot box they open earlier.");
  return all;
}

}  // namespace

std::vector<Sky> skies(const Site& s, const TableOptions& options) {
  std::vector<units::Irradiance> suns = options.suns;
  if (suns.empty()) {
    if (options.thorough)
      for (int w = 200; w <= 1400; w += 200) suns.push_back(units::watts_per_square_metre(w));
    else
      suns = {units::watts_per_square_metre(1400)};
  }
  std::vector<Sky> all;
  for (const auto cell : {s.cold, s.hot})
    for (const auto sun : suns) all.push_back({sun, cell});
  return all;
}

Row row(Trials& trials, const Event& e, const std::vector<Sky>& skies,
        const TableOptions& options) {
  const Site& s = trials.site();
  Row r;
  r.event = e;
  const auto all = series(trials, e, skies);
  if (!all) {
    r.failure = all.failure();
    judge(s, skies, r);
    return r;
  }
  r.devices = group(s, skies, *all);
  for (const Reading& x : all->at) r.fault = units::max(r.fault, units::abs(x.fault));
  r.gap = all->gap;
  if (all->hot_spot.si() > 0) r.heat = r.fault * r.fault * all->hot_spot;
  r.gap_floats = all->gap_floats;
  const Kind* kind = find_kind(e.kind);
  bool any = false;
  for (Sees& x : r.devices) {
    any = any || x.opens == Opens::opens;
    if (x.opens == Opens::opens && options.thorough) find_lights(trials, e, skies, x);
    const bool much = !x.ratio || x.ratio->si() > 0.05;
    if (options.thorough || (kind && kind->overcurrent && much))
      x.after = open_alone(trials, e, x.pole);
  }
  if (any && options.thorough) open_all(trials, e, r);
  add_bears(s, skies, *all, options.ampacity, options.thorough, r);
  if (kind && kind->to_ground) r.detector = detector_sees(trials, e, options.thorough);
  if (options.thorough) look_further(trials, e, *all, r);
  judge(s, skies, r);
  return r;
}

Table table(const Site& s, const std::vector<Event>& events, const TableOptions& options) {
  Table t;
  t.convention = s.convention;
  t.skies = skies(s, options);
  Trials trials(s);
  for (const Event& e : events) t.rows.push_back(row(trials, e, t.skies, options));
  sort_keeping_order(t.rows, [](const Row& x, const Row& y) { return x.danger > y.danger; });
  t.solutions = trials.solutions();
  t.remarks = heat_remarks(s);
  return t;
}

}  // namespace stringwright::events
