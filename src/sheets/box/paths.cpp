#include "sheets/box/layouter.hpp"

#include <algorithm>
#include <cmath>

namespace stringwright::sheets::box {

using draw::Point;
using wiring::Pole;

Layouter::Beside Layouter::beside(int conductor) const {
  const auto all = v_.on(inside_end(conductor));
  const auto rank = static_cast<int>(std::find(all.begin(), all.end(), conductor) - all.begin());
  return {(rank - (static_cast<double>(all.size()) - 1) / 2) * 2.8, rank};
}

double Layouter::top_x(int conductor, std::size_t out_rank) const {
  const int t = inside_end(conductor);
  if (bus_of(t) >= 0) return out_left_ + static_cast<double>(out_rank) * out_pitch_;
  const auto it = l_.spots.find(t);
  return it == l_.spots.end() ? out_right_ : it->second.at.x + beside(conductor).offset;
}

void Layouter::down_paths() {
  jog_bottom_ = l_.wall.bottom() - 11;
  jog_top_ = jog_bottom_ - deepest_ * jog_step_;
  wire_end_ = l_.wall.bottom() + below_wall;
  l_.foot = wire_end_;
  std::size_t index = 0;
  for (const auto& b : bundles_)
    for (std::size_t i = 0; i < b.wires.size(); ++i, ++index) {
      const int c = b.wires[i];
      const int t = inside_end(c);
      if (bus_of(t) >= 0) continue;
      Spot& spot = l_.spots[t];
      spot.wire_below = true;
      const double from = b.tops[i], to = b.x(i);
      Path p;
      p.conductor = c;
      p.points = {{from, spot.at.y}};
      if (level_[index] >= 0) {
        const double y = jog_top_ + level_[index] * jog_step_;
        p.points.push_back({from, y});
        p.points.push_back({to, y});
      }
      p.points.push_back({to, wire_end_});
      const bool ground = v_.conductor(c).pole == Pole::ground;
      p.front = ground;
      const bool on_device = is_string_place(t);
      const TagRow& row = on_device ? device_tags_ : ground ? ground_tags_ : bar_tags_;
      const double top = (on_device ? device_top_ + device_height_ + 4 : bar_top_ + 8 + 4.4) +
                         beside(c).rank * (row.height + 1);
      p.tags.push_back({{from, top + (row.upright ? tag_height : tag_length(c)) / 2}, row.upright});
      add_end_tag(p, to, b);
      l_.paths.push_back(std::move(p));
    }
}

void Layouter::add_end_tag(Path& p, double x, const Bundle& b) {
  const double height = b.upright ? tag_height : tag_length(p.conductor);
  p.tags.push_back({{x, wire_end_ + height / 2 - 0.6}, b.upright});
  l_.foot = std::max(l_.foot, wire_end_ + height - 0.6);
}

/// Outputs of the buses: right along the top, down at the right.
void Layouter::out_paths() {
  for (const auto& b : bundles_) {
    std::size_t rank = 0;
    for (std::size_t i = 0; i < b.wires.size(); ++i) {
      const int t = inside_end(b.wires[i]);
      if (bus_of(t) < 0) continue;
      const Point from = l_.spots[t].at;
      const double x = out_left_ + static_cast<double>(rank++) * out_pitch_;
      const double to = b.x(i);
      Path p;
      p.conductor = b.wires[i];
      p.points = {from, {x, from.y}};
      if (std::abs(x - to) > 0.05) {
        p.points.push_back({x, jog_bottom_});
        p.points.push_back({to, jog_bottom_});
      }
      p.points.push_back({to, wire_end_});
      const double length = tag_length(b.wires[i]);
      // On the level stretch beside the bus, upright.
      const double bus_right = l_.buses[static_cast<std::size_t>(bus_of(t))].box.right();
      p.tags.push_back({{std::min(bus_right + 6 + length / 2, x - length / 2 - 3), from.y}, true});
      add_end_tag(p, to, b);
      p.front = true;
      l_.paths.push_back(std::move(p));
    }
  }
}

void Layouter::arrester_paths() {
  if (v_.arrester < 0) return;
  double bus_bottom = device_top_ - finger_gap_;
  for (const auto& wire : v_.wires) {
    if (wire.inside.size() != 2) continue;
    const bool first = of_arrester(wire.inside[0]);
    const int own = first ? wire.inside[0] : wire.inside[1];
    const int far = first ? wire.inside[1] : wire.inside[0];
    if (!of_arrester(own) || !l_.spots.count(far)) continue;
    const Point a = l_.spots[own].at, b = l_.spots[far].at;
    Path p;
    p.conductor = wire.conductor;
    p.front = true;
    const double length = tag_length(wire.conductor);
    if (const int bus = bus_of(far); bus >= 0) {
      const bool upper = v_.buses.size() > 1 && bus == 0;
      const double y = v_.buses.size() > 1 ? bus_bottom + (upper ? 1.4 : 6.8) : bus_bottom + 3.4;
      p.points = {b, {b.x, y}, {a.x, y}, a};
      const double clear = l_.buses[static_cast<std::size_t>(bus)].box.right();
      const double right = std::max(a.x, b.x) - 3 - length / 2;
      p.tags.push_back(
          {{std::min(std::max(b.x + 4, clear + 1.5) + length / 2, right - length - 1), y}, true});
      p.tags.push_back({{right, y}, true});
    } else {
      const double y = device_top_ + device_height_ + 9.4;
      p.points = {a};
      if (std::abs(a.x - b.x) > 0.05) {
        p.points.push_back({a.x, y});
        p.points.push_back({b.x, y});
      }
      p.points.push_back(b);
      p.tags.push_back({{a.x, device_top_ + device_height_ + 4.6}, true});
      p.tags.push_back({{b.x, bar_top_ - 7.8}, true});
      l_.spots[far].wire_above = true;
    }
    l_.paths.push_back(std::move(p));
  }
}

}  // namespace stringwright::sheets::box
