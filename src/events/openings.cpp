#include <algorithm>

#include "events/table.hpp"

namespace stringwright::events {
namespace {

constexpr units::Irradiance standard_sun = units::watts_per_square_metre(1000);

std::size_t at(int i) { return static_cast<std::size_t>(i); }

LiveAt touch(const Site& s, const std::vector<LiveAt>& all, int terminal) {
  const LiveAt* found = live_at(all, s.w.terminals[at(terminal)].id);
  return found ? *found : LiveAt{};
}

}  // namespace

std::optional<After> open_alone(Trials& trials, const Event& e, int pole) {
  const Site& s = trials.site();
  const DevicePole& opened = s.poles[at(pole)];
  const Sky sky{standard_sun, s.cold};
  const auto solved = trials.solve(e, sky, {.open = {pole}});
  if (!solved) return std::nullopt;
  After a;
  const auto& node = solved->faulted.built.node;
  if (const auto v = solved->between(node[at(opened.line)], node[at(opened.load)]))
    a.recovery = units::abs(*v);
  const Reading reading = trials.read(*solved);
  a.left = units::abs(reading.fault);
  for (std::size_t p = 0; p < s.poles.size(); ++p) {
    if (units::abs(reading.poles[p]) > units::max(a.most, units::amps(0.05)))
      a.most = units::abs(reading.poles[p]), a.most_at = s.poles[p].name;
    if (static_cast<int>(p) != pole && s.poles[p].device == opened.device)
      a.still.push_back(s.poles[p].name);
  }
  units::Voltage highest;
  for (const auto& like : s.likes)
    if (const auto v = trials.open_circuit(like.first, sky)) highest = units::max(highest, *v);
  if (a.recovery && highest.si() > 0) a.in_voc = *a.recovery / highest;
  const auto touched = live(s, *solved);
  a.line = touch(s, touched, opened.line);
  a.load = touch(s, touched, opened.load);
  return a;
}

void open_all(Trials& trials, const Event& e, Row& r) {
  const Site& s = trials.site();
  const Sky sky{standard_sun, s.hot};
  std::vector<int> open;
  for (std::size_t guard = 0; guard <= s.poles.size(); ++guard) {
    const auto solved = trials.solve(e, sky, {.open = open});
    if (!solved) return;
    const Reading reading = trials.read(*solved);
    r.left = units::abs(reading.fault);
    int worst = -1;
    double most = 0;
    for (std::size_t p = 0; p < s.poles.size(); ++p) {
      const auto t = thresholds(s, s.poles[p], Season::hot);
      if (!t || !units::at_least(units::abs(reading.poles[p]), t->opens)) continue;
      const double share = units::abs(reading.poles[p]) / t->opens;
      if (share > most) most = share, worst = static_cast<int>(p);
    }
    if (worst < 0) break;
    open.push_back(worst);
    r.opened.push_back(s.poles[at(worst)].name);
  }
  r.cleared = !open.empty() && r.left.si() < 0.05;
}

}  // namespace stringwright::events
