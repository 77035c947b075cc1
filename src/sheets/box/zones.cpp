#include <algorithm>
#include <initializer_list>

#include "sheets/box/layouter.hpp"
#include "sheets/draw/tokens.hpp"

namespace stringwright::sheets::box {
namespace {

constexpr double beside_wire = 3.4;  // half the width of a zone that follows one wire
constexpr double over_floor = 5;     // where zones end above the wall

/// The longest of several wordings that has room; they read upwards from `foot`.
void label(Zone& z, std::initializer_list<const char*> choices, double x, double foot,
           double room) {
  for (const char* words : choices) {
    if (draw::measure(words, draw::size::caption, draw::Weight::bold).width > room) continue;
    z.words = words;
    z.label = draw::Point{x, foot};
    return;
  }
}

}  // namespace

void Layouter::zones() {
  if (!from_devices_.empty()) live_zone();
  for (std::size_t i = 0; i < v_.bars.size(); ++i)
    if (v_.bars[i].pole != wiring::Pole::ground) float_zone(i);
  if (!l_.buses.empty()) closed_zone();
}

/// From the string side of the devices to the wall, as wide as its wires spread.
void Layouter::live_zone() {
  const double floor = l_.wall.bottom() - over_floor, top = l_.line_row - 5, step = jog_top_ - 3;
  const double left = l_.wall.x + 6, right = x_device_ + devices_width_ + 1.2;
  double low_right = right, first_wire = right;
  for (const auto& p : l_.paths) {
    if (!is_string_place(inside_end(p.conductor))) continue;
    low_right = std::max(low_right, p.points.back().x + 3);
    first_wire = std::min(first_wire, p.points.back().x);
  }
  Zone z{Zone::Kind::live, {{left, top}, {right, top}}, {}, {}};
  if (low_right > right) z.outline.insert(z.outline.end(), {{right, step}, {low_right, step}});
  z.outline.insert(z.outline.end(), {{low_right, floor}, {left, floor}});
  const double sign = 9;  // above the words
  const double foot = (first_wire < left + 10 ? step : floor) - 2.5;
  label(z, {"LIVE WHENEVER THERE IS LIGHT", "LIVE IN LIGHT", "LIVE"}, left + 5.4, foot,
        foot - top - 2.5 - sign);
  l_.zones.push_back(std::move(z));
}

/// The other pole's bar, its wires, and its output on the way to the hub.
void Layouter::float_zone(std::size_t bar) {
  const Metal& m = l_.bars[bar];
  const double floor = l_.wall.bottom() - over_floor, step = jog_top_ - 3;
  const double left = m.letter.x - 1.3, right = m.box.right() + 1.4, top = m.box.y - 5.4;
  double low_left = left, low_right = right, first_wire = right;
  const Path* out = nullptr;
  for (const auto& p : l_.paths) {
    if (bar_of(inside_end(p.conductor)) != static_cast<int>(bar) ||
        p.points.back().y < l_.wall.bottom())
      continue;
    if (p.conductor == v_.circuit().out_plus || p.conductor == v_.circuit().out_minus) {
      out = &p;
      continue;
    }
    low_left = std::min(low_left, p.points.back().x - 3);
    low_right = std::max(low_right, p.points.back().x + 3);
    first_wire = std::min(first_wire, p.points.back().x);
  }
  // A gap to the live zone, where their wires come close.
  for (const auto& zone : l_.zones)
    if (zone.kind == Zone::Kind::live)
      for (const auto& p : zone.outline) low_left = std::max(low_left, std::min(left, p.x + 1.4));

  Zone z{Zone::Kind::floating, {{left, top}, {right, top}}, {}, {}};
  auto& o = z.outline;
  if (out && out->points.size() == 4 && out->points[2].x - beside_wire > low_right) {
    const double y = out->points[1].y, x = out->points[2].x;
    o.insert(o.end(), {{right, y - beside_wire},
                       {x + beside_wire, y - beside_wire},
                       {x + beside_wire, floor},
                       {x - beside_wire, floor},
                       {x - beside_wire, y + beside_wire},
                       {low_right, y + beside_wire}});
  } else if (low_right > right) {
    o.insert(o.end(), {{right, step}, {low_right, step}});
  }
  o.insert(o.end(), {{low_right, floor}, {low_left, floor}});
  if (low_left < left - 0.05) o.insert(o.end(), {{low_left, step}, {left, step}});
  const double foot = (first_wire < m.letter.x + 8 ? step : floor) - 2.5;
  label(z, {"FLOATS: TREAT AS LIVE", "FLOAT: TAKE AS LIVE", "FLOAT"}, m.letter.x + 3.7, foot,
        foot - m.box.bottom() - 1);
  l_.zones.push_back(std::move(z));
}

/// Buses, fingers and their outputs.
void Layouter::closed_zone() {
  const Metal &upper = l_.buses.front(), &lower = l_.buses.back();
  const double left = x_device_ - 1.2, devices_right = x_device_ + devices_width_ + 1.2;
  double right = devices_right;
  for (const auto& b : l_.buses) right = std::max(right, b.box.right() + 1.4);
  Zone z{Zone::Kind::closed, {{left, upper.box.y - 5.8}, {right, upper.box.y - 5.8}}, {}, {}};
  auto& o = z.outline;
  // The outermost output leads the zone to the hub, the innermost is its other side.
  const Path *outer = nullptr, *inner = nullptr;
  for (const auto& p : l_.paths) {
    if (bus_of(inside_end(p.conductor)) < 0 || p.points.back().y < l_.wall.bottom()) continue;
    if (!outer || p.points[1].x > outer->points[1].x) outer = &p;
    if (!inner || p.points[1].x < inner->points[1].x) inner = &p;
  }
  if (outer) {
    const double floor = l_.wall.bottom() - over_floor;
    const draw::Point a = outer->points[1], b = inner->points[1];
    o.insert(o.end(), {{right, a.y - beside_wire},
                       {a.x + beside_wire, a.y - beside_wire},
                       {a.x + beside_wire, floor},
                       {b.x - beside_wire, floor},
                       {b.x - beside_wire, b.y + beside_wire},
                       {right, b.y + beside_wire}});
  }
  const double low = l_.load_row + 4.6;
  o.insert(o.end(), {{right, lower.box.bottom() + 1.2},
                     {devices_right, lower.box.bottom() + 1.2},
                     {devices_right, low},
                     {left, low}});
  l_.zones.push_back(std::move(z));
}

}  // namespace stringwright::sheets::box
