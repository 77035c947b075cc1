#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "base/result.hpp"
#include "events/solve.hpp"

namespace stringwright::events {

/// One event under every sky of the grid.
struct Series {
  std::vector<Reading> at;            ///< [n_skies]
  std::optional<units::Voltage> gap;  ///< largest across what it left open
  bool gap_floats = false;
  bool has_gap = false;
  units::Resistance hot_spot;
};

Result<Series> series(Trials& trials, const Event& e, const std::vector<Sky>& skies);

/// The largest value of a kind under any sky.
struct Most {
  units::Current i;
  int sky = 0;
};
Most most(const Series& all, const std::function<units::Current(const Reading&)>& of);

/// Current under a light in W/m²; none where nothing could be solved.
using CurrentAt = std::function<std::optional<units::Current>(double sun)>;

/// Light from which on a current that rises with the light reaches `least`, to 1 W/m², rounded up.
///
/// @param from, to  W/m², between which it passes, with the currents there
std::optional<units::Irradiance> light_for(const CurrentAt& current, units::Current least,
                                           double from, double to, units::Current i_from,
                                           units::Current i_to);

}  // namespace stringwright::events
