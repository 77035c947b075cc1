#include "events/series.hpp"

#include <algorithm>
#include <cmath>

#include "units/print.hpp"

namespace stringwright::events {

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
    all.has_gap = true;
    if (const auto v = solved->between(a.gap_plus, a.gap_minus)) {
      if (!all.gap || units::abs(*v) > units::abs(*all.gap)) all.gap = *v;
    } else {
      all.gap_floats = true;
    }
  }
  return all;
}

Most most(const Series& all, const std::function<units::Current(const Reading&)>& of) {
  Most m;
  for (std::size_t k = 0; k < all.at.size(); ++k)
    if (const auto i = units::abs(of(all.at[k])); i > m.i) m = {i, static_cast<int>(k)};
  return m;
}

std::optional<units::Irradiance> light_for(const CurrentAt& current, units::Current least,
                                           double from, double to, units::Current i_from,
                                           units::Current i_to) {
  const double goal = least.si();
  double low = i_from.si(), high = i_to.si();
  for (int k = 0; k < 40 && to - from > 0.02; ++k) {
    const double wide = to - from;
    const double t =
        k % 6 < 4 && high > low ? from + (goal - low) / (high - low) * wide : from + wide / 2;
    // A little to the side from which the bracket is still wide, so that it closes from both ends.
    const double x = std::clamp(t - from < to - t ? t + 0.02 * wide : t - 0.02 * wide,
                                from + 0.01 * wide, to - 0.01 * wide);
    const auto found = current(x);
    if (!found) return std::nullopt;
    const double i = found->si();
    (i >= goal ? to : from) = x;
    (i >= goal ? high : low) = i;
  }
  return units::watts_per_square_metre(std::ceil(to - 1e-6));
}

}  // namespace stringwright::events
