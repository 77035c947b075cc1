#include "circuit/maximum_power.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <optional>
#include <queue>
#include <vector>

#include <boost/math/tools/toms748_solve.hpp>

namespace stringwright::circuit {
namespace {

/// One solved voltage of the source.
struct Sample {
  double v = 0, i = 0, slope = 0;  // taken current and dP/dv
  double power() const { return v * i; }
};

/// The network seen from the source. The first failure stops every search.
class Seen {
 public:
  Seen(Solver& solver, int source) : solver_(solver), source_(source) {}

  Sample at(double v) {
    solver_.set_source(source_, units::volts(v));
    const auto port = solver_.solve_port(source_);
    ++solves;
    if (!port) {
      if (!failure) failure = port.failure();
      return {v, 0, 0};
    }
    const double i = -port->i.si();
    return {v, i, i - v * port->di_de.si()};
  }

  int solves = 0;
  std::optional<Failure> failure;

 private:
  Solver& solver_;
  int source_;
};

/// Where the slope of the power is zero, between a sample that rises and one that falls.
Sample follow(Seen& seen, Sample rising, Sample falling) {
  if (rising.slope <= 0) return rising;
  std::uintmax_t steps = 60;
  Sample last = rising;
  const auto slope = [&](double v) {
    last = seen.at(v);
    return seen.failure ? 0 : last.slope;
  };
  const auto bracket =
      boost::math::tools::toms748_solve(slope, rising.v, falling.v, rising.slope, falling.slope,
                                        boost::math::tools::eps_tolerance<double>(36), steps);
  const double v = bracket.first + (bracket.second - bracket.first) / 2;
  return last.v == v ? last : seen.at(v);
}

/// A voltage that takes no current or gives some: from `likely` upwards.
Sample beyond_open_circuit(Seen& seen, double likely) {
  Sample s = seen.at(std::fmax(likely, 1e-3));
  for (int k = 0; k < 60 && s.i > 0 && !seen.failure; ++k) s = seen.at(s.v * 1.3);
  return s;
}

Sample one(Seen& seen, double likely) {
  Sample high = seen.at(0.9 * likely);
  if (high.slope > 0) {
    Sample low = high;
    high = beyond_open_circuit(seen, 1.01 * likely);
    return follow(seen, low, high);
  }
  Sample low = high;
  while (low.slope <= 0 && low.v > 1e-6 && !seen.failure) {
    high = low;
    low = seen.at(low.v * 0.8);
  }
  return follow(seen, low, high);
}

Sample best_of_many(Seen& seen, double likely, double certain) {
  struct Interval {
    double bound;
    Sample low, high;
    bool operator<(const Interval& o) const { return bound < o.bound; }
  };
  const Sample end = beyond_open_circuit(seen, likely);
  const Sample start = seen.at(0);
  Sample best = start;
  std::vector<Sample> samples{start, end};
  std::priority_queue<Interval> open;
  open.push({end.v * start.i, start, end});
  while (!open.empty() && samples.size() < 2000 && !seen.failure) {
    const Interval widest = open.top();
    if (widest.bound <= best.power() * (1 + certain) || !(widest.bound > 0)) break;
    open.pop();
    const Sample mid = seen.at(widest.low.v + (widest.high.v - widest.low.v) / 2);
    samples.push_back(mid);
    if (mid.power() > best.power()) best = mid;
    open.push({mid.v * widest.low.i, widest.low, mid});
    open.push({widest.high.v * mid.i, mid, widest.high});
  }
  // The neighbours of the best sample close in the maximum it stands on.
  std::sort(samples.begin(), samples.end(),
            [](const Sample& a, const Sample& b) { return a.v < b.v; });
  const auto here =
      std::find_if(samples.begin(), samples.end(), [&](const Sample& s) { return s.v == best.v; });
  if (best.slope > 0) {
    for (auto next = here + 1; next != samples.end(); ++next)
      if (next->slope <= 0) return follow(seen, best, *next);
  } else {
    for (auto previous = here; previous != samples.begin();)
      if ((--previous)->slope > 0) return follow(seen, *previous, best);
  }
  return seen.at(best.v);
}

}  // namespace

Result<MaximumPower> find_maximum_power(Solver& solver, int source, units::Voltage likely_v_oc,
                                        bool one_maximum, double certain) {
  Seen seen(solver, source);
  const double likely = likely_v_oc.si();
  Sample s;
  if (!(likely > 0)) {
    s = seen.at(0);  // the dark: nothing to take
  } else {
    s = one_maximum ? one(seen, likely) : best_of_many(seen, likely, certain);
  }
  if (seen.failure) return *seen.failure;
  if (!(s.power() > 0)) {
    s = seen.at(0);
    if (seen.failure) return *seen.failure;
  }
  return MaximumPower{units::volts(s.v), units::amps(s.i), seen.solves};
}

Result<units::Voltage> find_open_circuit(Solver& solver, int source, units::Voltage likely_v_oc) {
  Seen seen(solver, source);
  const Sample high = beyond_open_circuit(seen, likely_v_oc.si());
  const Sample low = seen.at(0);
  if (seen.failure) return *seen.failure;
  if (!(low.i > 0)) return units::volts(0);
  if (high.i == 0) return units::volts(high.v);
  std::uintmax_t steps = 100;
  const auto current = [&](double v) {
    const Sample s = seen.at(v);
    return seen.failure ? 0 : s.i;
  };
  const auto bracket = boost::math::tools::toms748_solve(
      current, low.v, high.v, low.i, high.i, boost::math::tools::eps_tolerance<double>(48), steps);
  if (seen.failure) return *seen.failure;
  return units::volts(bracket.first + (bracket.second - bracket.first) / 2);
}

}  // namespace stringwright::circuit
