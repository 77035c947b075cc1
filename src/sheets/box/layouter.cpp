#include "sheets/box/layouter.hpp"

#include <algorithm>
#include <cmath>

#include "sheets/words.hpp"

namespace stringwright::sheets::box {
namespace {

int bar_index(const std::vector<Bar>& list, int terminal) {
  for (std::size_t i = 0; i < list.size(); ++i)
    if (std::find(list[i].holes.begin(), list[i].holes.end(), terminal) != list[i].holes.end())
      return static_cast<int>(i);
  return -1;
}

std::optional<draw::Point> millimetres(const Given<std::vector<units::Length>>& size) {
  if (!size || size->size() != 2) return std::nullopt;
  return draw::Point{size->at(0).in(units::millimetres), size->at(1).in(units::millimetres)};
}

}  // namespace

std::optional<draw::Point> size_of(const parts::Part* device) {
  return device ? millimetres(device->size) : std::nullopt;
}

std::optional<draw::Point> outline_of(const parts::Part* box) {
  return box ? millimetres(box->outline) : std::nullopt;
}

using draw::Point;
using wiring::Pole;

std::optional<Layout> Layouter::run() {
  sizes();
  if (outline_ && stretched_) return std::nullopt;
  if (!widths()) return std::nullopt;
  // Twice: across first, which says how deep the wires must jog, then with the true heights.
  place_devices();
  place_buses();
  place_bars();
  place_bundles();
  align_bars();
  if (!heights()) return std::nullopt;
  place_devices();
  place_buses();
  place_bars();
  place_arrester();
  place_rail();
  add_entries();
  down_paths();
  out_paths();
  arrester_paths();
  zones();
  return std::move(l_);
}

void Layouter::sizes() {
  // A device of unknown size is drawn as modular devices are: 18 mm a pole, 85 mm high.
  int poles = static_cast<int>(v_.buses.size());
  for (const auto& p : v_.places)
    if (!p.spare) poles = std::max(v_.device(p.device).poles, static_cast<int>(p.ends.size()));
  const Point usual = size_of(v_.device_part).value_or(Point{18.0 * std::max(1, poles), 85.0});
  const auto lines = static_cast<double>(std::max<std::size_t>(1, v_.buses.size()));
  const double least = 6.0 * lines;
  device_height_ = 28.0;
  // Every place as wide as its own device; a spare one as the first device of the box.
  for (const auto& p : v_.places) {
    const Point real = p.spare ? usual : size_of(v_.wiring.part_of(p.device)).value_or(usual);
    place_left_.push_back(devices_width_);
    place_width_.push_back(std::max(real.x * s_, least));
    devices_width_ += place_width_.back();
    stretched_ = stretched_ || real.x * s_ < least - 0.01 || real.y * s_ < 27.99;
    device_height_ = std::max(device_height_, real.y * s_);
  }
  const double narrowest = place_width_.empty()
                               ? std::max(usual.x * s_, least)
                               : *std::min_element(place_width_.begin(), place_width_.end());
  pole_pitch_ = narrowest / lines;
  hole_pitch_ = s_ >= 1 ? 10 : 5;
  slot_pitch_ = s_ >= 1 ? 10 : 5;
  lug_pitch_ = s_ >= 1 ? 10 : 6.4;
  first_lug_ = s_ >= 1 ? 15 : 10;
  out_pitch_ = s_ >= 1 ? 13.6 : 7.0;
  hole_radius_ = s_ >= 1 ? 1.7 : 1.5;
  lug_radius_ = s_ >= 1 ? 2.3 : 2.0;
  l_.small = narrowest < 14;
  l_.scale = s_;
  l_.to_scale = outline_.has_value();
  l_.column = room_.column;

  // Wires that come down from devices, from the other bar, from the ground bar.
  for (const auto& w : v_.wires) {
    if (w.inside.size() != 1) continue;
    const int t = w.inside.front();
    if (is_string_place(t))
      from_devices_.push_back(w.conductor);
    else if (const int b = bar_of(t); b >= 0)
      (v_.bars[static_cast<std::size_t>(b)].pole == Pole::ground ? from_ground_ : from_bar_)
          .push_back(w.conductor);
  }
}

bool Layouter::is_string_place(int terminal) const {
  for (const auto& p : v_.places)
    for (const auto& e : p.ends)
      if (e.line == terminal) return true;
  return false;
}

int Layouter::bus_of(int terminal) const { return bar_index(v_.buses, terminal); }
int Layouter::bar_of(int terminal) const { return bar_index(v_.bars, terminal); }

bool Layouter::of_arrester(int terminal) const {
  return v_.arrester >= 0 && v_.terminal(terminal).device == v_.arrester;
}

int Layouter::inside_end(int conductor) const {
  for (const auto& w : v_.wires)
    if (w.conductor == conductor) return w.inside.front();
  return -1;
}

double Layouter::tag_length(int conductor) const {
  const auto& c = v_.conductor(conductor);
  return draw::tag_size(look(v_.wiring, c).pattern, c.tag).along;
}

/// @param at  conductors and where each comes down
TagRow Layouter::tag_row(std::vector<std::pair<double, int>> at) const {
  std::sort(at.begin(), at.end());
  bool upright = true;
  double longest = 0;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const double length = tag_length(at[i].second);
    longest = std::max(longest, length);
    if (i > 0 && (length + tag_length(at[i - 1].second)) / 2 + 0.35 > at[i].first - at[i - 1].first)
      upright = false;
  }
  if (upright) return {};
  return {false, longest};
}

TagRow Layouter::tag_row(const std::vector<int>& conductors, double pitch) const {
  std::vector<std::pair<double, int>> at;
  at.reserve(conductors.size());
  for (int c : conductors) at.emplace_back(pitch * static_cast<double>(at.size()), c);
  return tag_row(std::move(at));
}

}  // namespace stringwright::sheets::box
