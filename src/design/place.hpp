#pragma once

#include <optional>
#include <string>
#include <vector>

#include "design/cuts/cut_plan.hpp"
#include "job/job.hpp"

namespace stringwright::design {

/// What the home runs of a box take with the box at one place.
struct PlacePoint {
  units::Length x, y;
  units::Length needed, bought;
  std::optional<parts::Price> price;
  std::vector<std::pair<int, units::Length>>
      cables;    ///< how many of which stock length, short to long
  int reel = 0;  ///< pieces that no stock cable reaches
};

/// Cable against the position of a box along a line.
struct PlaceCurve {
  std::string box;
  std::vector<PlacePoint> points;  ///< in order along the line
  int best = -1;                   ///< least price, else least cable bought; then least needed
  std::optional<PlacePoint> now;   ///< as the job has it, by the same geometry
  std::string why_not;             ///< what is missing where there is no curve
  bool explicit_ends = false;      ///< the job gives end lengths that the curve does not use
};

struct PlaceLine {
  units::Length from_x, from_y, to_x, to_y;
  int steps = 60;
};

/// The line that a box could hang along, where nobody says one: past the lower edge of the array's rows, half
/// a metre beyond either end, at the height the box has now.
std::optional<PlaceLine> usual_line(const job::Job& job, const std::string& box);

/// Home runs by geometry (docs/methods/lengths.md) at each place, cut by `cut_plan`. Explicit end lengths are
/// for one place only, so they are left aside.
PlaceCurve place_box(const job::Job& job, const std::string& box, const PlaceLine& line,
                     const parts::Library& stock);

}  // namespace stringwright::design
