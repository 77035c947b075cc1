#include "events/table.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>

#include "base/order.hpp"

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

/// One event under every sky of the grid.
struct Series {
  std::vector<Reading> at;  ///< [n_skies]
  std::optional<units::Voltage> gap;
  bool gap_floats = false;
  units::Resistance hot_spot;
};

Result<Series> series(Trials& trials, const Event& e, const std::vector<Sky>& skies) {
  Series all;
  all.at.reserve(skies.size());
  for (const Sky& sky : skies) {
    auto solved = trials.solve(e, sky);
    if (!solved) {
      auto why = solved.failure();
      why.message = "at " + units::print(sky.sun) + ", cells at " + units::print(sky.cell) + ": " +
                    why.message;
      return why;
    }
    all.at.push_back(trials.read(*solved));
    const auto& a = solved->faulted.applied;
    all.hot_spot = a.hot_spot;
    if (a.gap_plus < 0) continue;
    if (const auto v = solved->between(a.gap_plus, a.gap_minus)) {
      if (!all.gap || units::abs(*v) > units::abs(*all.gap)) all.gap = *v;
    } else {
      all.gap_floats = true;
    }
  }
  return all;
}

/// Light from which on a pole carries `least`, to 1 W/m², rounded up. The current rises with the light;
/// `from` and `to` are neighbours of the grid between which it passes.
std::optional<units::Irradiance> light(Trials& trials, const Event& e, int pole,
                                       units::Temperature cell, units::Current least, double from,
                                       double to, double i_from, double i_to) {
  const double goal = least.si();
  for (int k = 0; k < 40 && to - from > 0.02; ++k) {
    const double wide = to - from;
    const double t = k % 6 < 4 && i_to > i_from ? from + (goal - i_from) / (i_to - i_from) * wide
                                                : from + wide / 2;
    // A little to the side from which the bracket is still wide, so that it closes from both ends.
    const double x = std::clamp(t - from < to - t ? t + 0.02 * wide : t - 0.02 * wide,
                                from + 0.01 * wide, to - 0.01 * wide);
    const auto solved = trials.solve(e, {units::watts_per_square_metre(x), cell});
    if (!solved) return std::nullopt;
    const double i = units::abs(trials.read(*solved).poles[at(pole)]).si();
    (i >= goal ? to : from) = x;
    (i >= goal ? i_to : i_from) = i;
  }
  return units::watts_per_square_metre(std::ceil(to - 1e-6));
}

/// The opening light of a pole at one cell temperature; none where the grid's top does not reach it.
std::optional<units::Irradiance> opening_light(Trials& trials, const Event& e,
                                               const std::vector<Sky>& skies, const Sees& x,
                                               std::size_t begin, std::size_t end,
                                               units::Current least) {
  for (std::size_t k = begin; k < end; ++k) {
    const double here = units::abs(x.i[k]).si();
    if (here < least.si()) continue;
    if (k > begin)
      return light(trials, e, x.pole, skies[k].cell, least, skies[k - 1].sun.si(),
                   skies[k].sun.si(), units::abs(x.i[k - 1]).si(), here);
    const auto dark = trials.solve(e, {units::Irradiance{}, skies[k].cell});
    const double in_the_dark = dark ? units::abs(trials.read(*dark).poles[at(x.pole)]).si() : 0;
    if (in_the_dark >= least.si()) return units::Irradiance{};
    return light(trials, e, x.pole, skies[k].cell, least, 0, skies[k].sun.si(), in_the_dark, here);
  }
  return std::nullopt;
}

/// Every pole that carries something, alike ones together.
std::vector<Sees> group(const Site& s, const Series& all) {
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
    if (x.rating) x.ratio = units::abs(x.worst) / *x.rating;
    x.opens = response(s, pole, x.worst);
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
  const auto opens = opening_current(s, pole);
  if (!opens) return;
  const std::size_t half = skies.size() / 2;
  x.above_cold = opening_light(trials, e, skies, x, 0, half, *opens);
  x.above_hot = opening_light(trials, e, skies, x, half, skies.size(), *opens);
  if (x.above_cold && x.above_hot) x.above = units::max(*x.above_cold, *x.above_hot);
  if (pole.role == DevicePole::Role::string && x.worst.si() < 0) {
    const units::Current all = others(s, pole.of);
    if (all.si() > 0) x.above_by_bound = (*opens / all) * standard_sun;
  }
}

/// Opened alone while the rest stays: what stands across it, and what flows on.
void try_opening(Trials& trials, const Event& e, Sees& x) {
  const Site& s = trials.site();
  const DevicePole& pole = s.poles[at(x.pole)];
  const Sky sky{standard_sun, s.cold};
  const auto solved = trials.solve(e, sky, {x.pole});
  if (!solved) return;
  x.tried = true;
  const auto& node = solved->faulted.built.node;
  if (const auto v = solved->between(node[at(pole.line)], node[at(pole.load)]))
    x.recovery = units::abs(*v);
  x.left = units::abs(trials.read(*solved).fault);
  units::Voltage most;
  for (const auto& like : s.likes)
    if (const auto v = trials.open_circuit(like.first, sky)) most = units::max(most, *v);
  if (x.recovery && most.si() > 0) x.recovery_in_voc = *x.recovery / most;
}

/// Devices open one after the other, the one that sees most of its rating first, until none has to.
void open_all(Trials& trials, const Event& e, Row& r) {
  const Site& s = trials.site();
  const Sky sky{standard_sun, s.hot};
  std::vector<int> open;
  for (std::size_t guard = 0; guard <= s.poles.size(); ++guard) {
    const auto solved = trials.solve(e, sky, open);
    if (!solved) return;
    const Reading reading = trials.read(*solved);
    r.left = units::abs(reading.fault);
    int worst = -1;
    double most = 0;
    for (std::size_t p = 0; p < s.poles.size(); ++p) {
      const auto opens = opening_current(s, s.poles[p]);
      if (!opens || !units::at_least(units::abs(reading.poles[p]), *opens)) continue;
      const double share = units::abs(reading.poles[p]) / *opens;
      if (share > most) most = share, worst = static_cast<int>(p);
    }
    if (worst < 0) break;
    open.push_back(worst);
    r.opened.push_back(s.poles[at(worst)].name);
  }
  r.cleared = !open.empty() && r.left.si() < 0.05;
}

/// The largest value of a kind under any sky.
struct Most {
  units::Current i;
  int sky = 0;
};
Most most(const Series& all, const std::function<units::Current(const Reading&)>& of) {
  Most m;
  for (std::size_t k = 0; k < all.at.size(); ++k)
    if (const auto i = units::abs(of(all.at[k])); i > m.i) m = {i, static_cast<int>(k)};
  return m;
}

void add_strings(const Site& s, const Series& all, Row& r) {
  const auto test = codebook::module_reverse_test();
  for (const auto& like : s.likes) {
    std::optional<units::Current> fuse, diode;
    bool fuses = true;
    for (const int m : s.w.strings[at(like.first)].modules) {
      const auto& sheet = s.w.module_of(m);
      if (sheet.fuse_max) fuse = fuse ? units::min(*fuse, *sheet.fuse_max) : *sheet.fuse_max;
      fuses = fuses && sheet.fuse_max.known();
    }
    for (const int string : like.strings) {
      const std::string& id = s.w.strings[at(string)].id;
      if (const Most m = most(all, [&](const Reading& x) { return x.reverse[at(string)]; });
          m.i.si() > 0.05) {
        Bears b{Bears::What::module_reverse, id, {id}, m.i, {}, "", m.sky};
        if (fuse && fuses) {
          b.limit = test.factor * *fuse;
          b.limit_words =
              units::print(test.factor) + " × " + units::print(*fuse, 0) + " maximum series fuse";
        }
        r.bears.push_back(std::move(b));
      }
      if (const Most m = most(all, [&](const Reading& x) { return x.bypass[at(string)]; });
          m.i.si() > 0.5)
        r.bears.push_back({Bears::What::bypass_diode, id, {id}, m.i, diode, "", m.sky});
    }
  }
}

void add_conductors(const Site& s, const Series& all,
                    const std::vector<std::optional<units::Current>>& ampacity, Row& r) {
  if (ampacity.size() != s.w.conductors.size()) return;
  const auto add = [&](const std::string& thing, const std::vector<int>& conductors) {
    Most worst;
    std::optional<units::Current> limit;
    bool known = true;
    for (const int c : conductors) {
      const Most m = most(all, [&](const Reading& x) { return x.conductors[at(c)]; });
      if (m.i > worst.i) worst = m;
      known = known && ampacity[at(c)].has_value();
      if (ampacity[at(c)]) limit = limit ? units::min(*limit, *ampacity[at(c)]) : *ampacity[at(c)];
    }
    if (worst.i.si() < 0.05) return;
    Bears b{Bears::What::conductor, thing, {thing}, worst.i, {}, "ampacity", worst.sky};
    if (known) b.limit = limit;
    r.bears.push_back(std::move(b));
  };
  for (const auto& string : s.w.strings) {
    std::vector<int> both = string.plus_path;
    both.insert(both.end(), string.minus_path.begin(), string.minus_path.end());
    add(string.id, both);
  }
  for (const auto& box : s.w.boxes) {
    if (box.out_plus < 0 || box.out_minus < 0) continue;
    add(s.w.conductors[at(box.out_plus)].run, {box.out_plus, box.out_minus});
    if (box.out_ground >= 0) add(s.w.conductors[at(box.out_ground)].id, {box.out_ground});
  }
}

/// Like things that bear alike stand together; the worst of them is named.
void join_alike(std::vector<Bears>& all) {
  const auto share = [](const Bears& b) {
    return b.limit && b.limit->si() > 0 ? (b.i / *b.limit).si() : 0.0;
  };
  std::vector<Bears> joined;
  for (auto& b : all) {
    const auto same = std::find_if(joined.begin(), joined.end(), [&](const Bears& o) {
      return o.what == b.what && o.limit == b.limit &&
             std::fabs(o.i.si() - b.i.si()) <= alike_within * std::fmax(o.i.si(), b.i.si());
    });
    if (same == joined.end()) {
      joined.push_back(std::move(b));
      continue;
    }
    same->like.push_back(b.thing);
    if (b.i > same->i) same->thing = b.thing, same->i = b.i, same->sky = b.sky;
  }
  sort_keeping_order(joined, [&](const Bears& x, const Bears& y) { return share(x) > share(y); });
  all = std::move(joined);
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
  r.devices = group(s, *all);
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
    if (kind && kind->overcurrent && much) try_opening(trials, e, x);
  }
  if (any && options.thorough) open_all(trials, e, r);
  add_strings(s, *all, r);
  add_conductors(s, *all, options.ampacity, r);
  if (options.thorough) join_alike(r.bears);
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
  return t;
}

}  // namespace stringwright::events
