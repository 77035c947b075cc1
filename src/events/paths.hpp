#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "events/solve.hpp"

namespace stringwright::events {

/// Where current flows in an event under one sky, for a drawing.
struct Paths {
  Event event;
  Sky sky;
  std::vector<units::Current> strings;     ///< [n_strings] out of the string's own plus end
  std::vector<units::Current> poles;       ///< [n_poles] positive with normal service
  std::vector<units::Current> conductors;  ///< [n_conductors] from `from` to `to`
  std::vector<bool> reversed;              ///< [n_strings] its ends land where the other belongs
  /// Terminals nearest to the two ends of the fault's own element; -1: it has none. Current flows from
  /// the first to the second.
  int fault_from = -1, fault_to = -1;
  units::Current fault;
  /// Terminals on both sides of what is open; -1: nothing.
  int gap_one = -1, gap_other = -1;
};

Result<Paths> paths(Trials& trials, const Event& e, const Sky& sky);

}  // namespace stringwright::events
