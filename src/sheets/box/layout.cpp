#include "sheets/box/layout.hpp"

#include <vector>

#include "sheets/box/layouter.hpp"

namespace stringwright::sheets::box {

std::optional<Layout> lay_out(const View& v, const std::function<bool(double)>& column_fits) {
  const double height = foot_of_captions - wall_top;
  std::vector<Room> rooms;
  for (const double column : {wide_column, narrow_column})
    if (column_fits(frame_right - column))
      rooms.push_back({column - 5 - wall_left, height, column});
  rooms.push_back({frame_right - 7 - wall_left, height - safety_height, frame_right});

  const auto attempt = [&](std::optional<draw::Point> outline) -> std::optional<Layout> {
    for (const double scale : {1.0, 1.0 / 2, 1.0 / 3})
      for (const Room& room : rooms) {
        auto l = Layouter(v, scale, room, outline).run();
        if (!l) continue;
        l->whole_sheet = room.column == frame_right;
        return l;
      }
    return std::nullopt;
  };
  if (const auto outline = outline_of(v.part))
    if (auto l = attempt(outline)) return l;
  return attempt(std::nullopt);
}

}  // namespace stringwright::sheets::box
