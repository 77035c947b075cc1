#include "sheets/box/layouter.hpp"

#include <algorithm>
#include <cmath>

namespace stringwright::sheets::box {

using draw::Point;
using wiring::Pole;

bool Layouter::widths() {
  const double more_outs = out_pitch_ * std::max(0.0, static_cast<double>(v_.buses.size()) - 1);

  // Three rows ask for their width: devices and bars, bus and arrester, the entries below.
  const double margin_left = 21, margin_right = (s_ >= 1 ? 12.8 : 10) + more_outs;
  double middle = margin_left + devices_width_ + after_bars + margin_right;
  for (std::size_t i = 0; i < v_.bars.size(); ++i)
    middle += bar_width(v_.bars[i]) + (i == 0 ? after_devices : between_bars);
  double upper = margin_left + devices_width_ + lugs_width() + 6 + margin_right;
  if (v_.arrester >= 0) upper += arrester_width() / 2 + arrester_run();
  make_bundles();
  double lower = 5;
  for (const auto& b : bundles_) lower += b.width + between_entries;
  const double need = std::max({middle, upper, lower});

  double width = outline_ ? outline_->x * s_ : std::min(room_.width, need * 1.1 + 12);
  if (width < need - 0.01 || width > room_.width + 0.01) return false;
  l_.wall.x = wall_left + (room_.width - width) / 2;
  l_.wall.y = wall_top;
  l_.wall.w = width;
  const double slack = width - need;

  x_device_ = l_.wall.x + margin_left + std::min(8.0, slack * 0.25);
  double x = x_device_ + devices_width_ + after_devices + std::min(30.0, slack * 0.3);
  out_right_ = l_.wall.x + width - margin_right + more_outs - std::min(4.0, slack * 0.1);
  out_left_ = out_right_ - more_outs;
  // The other bar as far left as it goes, the ground bar half way to the output.
  for (std::size_t i = 0; i < v_.bars.size(); ++i) {
    const double w = bar_width(v_.bars[i]);
    if (i + 1 == v_.bars.size()) {
      const double last = out_left_ - after_bars - w;
      x = i == 0 ? (x + last) / 2 : std::min(last, x + std::max(0.0, last - x) * 0.3);
    }
    Metal m;
    m.box = {x, 0, w, bar_height};
    m.letter = {x - 6.6, 0};
    l_.bars.push_back(m);
    x += w + between_bars;
  }
  return true;
}

double Layouter::bar_width(const Bar& b) const {
  return (std::max<double>(1, static_cast<double>(b.holes.size())) - 1) * hole_pitch_ +
         (s_ >= 1 ? 8.0 : 6.4);
}

double Layouter::lugs_width() const {
  double w = 0;
  for (const auto& b : v_.buses)
    if (!b.holes.empty())
      w += first_lug_ + (static_cast<double>(b.holes.size()) - 1) * lug_pitch_ + 6;
  return w;
}

/// Between the terminals of the arrester: its tags stand beside each other.
double Layouter::arrester_pitch() const {
  double longest = 9.2;
  for (const auto& w : v_.wires)
    if (v_.conductor(w.conductor).kind == wiring::ConductorKind::arrester)
      longest = std::max(longest, tag_length(w.conductor));
  return longest + 1;
}

double Layouter::arrester_width() const {
  const Point real = size_of(v_.wiring.part_of(v_.arrester)).value_or(Point{36, 85});
  return std::max(real.x * s_, arrester_pitch() + 7);
}

/// Level room between the end of a bus and the arrester's middle, for two tags.
double Layouter::arrester_run() const { return 2 * arrester_pitch() + 5; }

bool Layouter::heights() {
  const double head = 13;  // words, hole numbers of the bus
  bus_step_ = 11;
  const bool two = v_.buses.size() > 1;
  finger_gap_ = v_.arrester >= 0 ? (two ? 10.6 : 6.8) : 6;
  const double buses =
      v_.buses.empty() ? 0 : 6.8 + (static_cast<double>(v_.buses.size()) - 1) * bus_step_;
  drop_ = v_.arrester >= 0 ? 20 : v_.bars.size() > 1 || !v_.bars.empty() ? 12 : 0;
  tag_rows();
  const double below_devices = 4 + device_tags_.height + 2;
  const double bar = v_.bars.empty() ? 0 : bar_height;
  const double below_bars = 4.4 + std::max(bar_tags_.height, ground_tags_.height) + 2;

  jog_step_ = deepest_ > 5 ? 2.7 : 3.2;
  const double wire_room = 8 + jog_step_ * (deepest_ + 1);
  const double upper = head + buses + finger_gap_ + device_height_;
  const double need = upper + std::max(below_devices, drop_ + bar + below_bars) + wire_room + 9;
  double last_tag = tag_height;
  for (const auto& b : bundles_)
    for (int c : b.wires)
      if (!b.upright) last_tag = std::max(last_tag, tag_length(c));
  const double room = room_.height - below_wall - last_tag - caption_height();
  const double height = outline_ ? outline_->y * s_ : std::min(room, need + 40);
  if (height < need - 0.01 || height > room + 0.01) return false;
  l_.wall.h = height;
  l_.wall.y += (room - height) * 0.4;
  double slack = height - need;
  if (!outline_) {
    // Nothing is to scale, so the devices take some of the room.
    const double grown = std::min(85.0, device_height_ + slack * 0.5) - device_height_;
    device_height_ += grown;
    slack -= grown;
  }
  const double lift = std::min(6.0, slack * 0.15);

  bus_top_ = l_.wall.y + head + lift;
  device_top_ = bus_top_ + buses + finger_gap_;
  if (v_.arrester >= 0) drop_ += std::min(4.0, slack * 0.1);
  bar_top_ = device_top_ + device_height_ + drop_;
  return true;
}

/// Whether the tags of each row stand upright.
void Layouter::tag_rows() {
  const auto row = [&](const std::vector<int>& conductors) {
    std::vector<std::pair<double, int>> at;
    at.reserve(conductors.size());
    for (int c : conductors) at.emplace_back(l_.spots[inside_end(c)].at.x, c);
    return tag_row(std::move(at));
  };
  device_tags_ = row(from_devices_);
  bar_tags_ = row(from_bar_);
  ground_tags_ = row(from_ground_);
  std::vector<int> both = from_bar_;
  both.insert(both.end(), from_ground_.begin(), from_ground_.end());
  if (bar_tags_.upright && ground_tags_.upright && row(both).upright) return;
  const double tall = tag_row(both, 0).height;
  bar_tags_ = ground_tags_ = {false, tall};
}

void Layouter::place_devices() {
  l_.faces.clear();
  for (std::size_t i = 0; i < v_.places.size(); ++i) {
    const Place& p = v_.places[i];
    Face f;
    f.place = static_cast<int>(i);
    const double x = x_device_ + place_left_[i];
    const double width = place_width_[i];
    const double gap = l_.small ? 0.4 : 0.5;
    f.box = {x + gap, device_top_, width - 2 * gap, device_height_};
    const std::size_t n =
        p.ends.empty() ? std::max<std::size_t>(1, v_.buses.size()) : p.ends.size();
    const double pitch = width / static_cast<double>(n);
    for (std::size_t k = 0; k < n; ++k)
      f.poles.push_back(x + pitch * (static_cast<double>(k) + 0.5));
    const double inset = std::max(4.6, 8.0 * device_height_ / 85);
    l_.load_row = device_top_ + inset;
    const double words = l_.small ? std::max(3.4, device_height_ * 0.2 - inset) : 9;
    l_.face_top = l_.load_row + words;
    l_.face_bottom = device_top_ + device_height_ - inset - words;
    l_.line_row = device_top_ + device_height_ - inset;
    for (std::size_t k = 0; k < p.ends.size(); ++k) {
      const double r = l_.small ? 1.5 : 2.4;
      if (p.ends[k].load >= 0)
        l_.spots[p.ends[k].load] = {{f.poles[k], l_.load_row},
                                    r,
                                    number_in(v_.terminal(p.ends[k].load).label, "T"),
                                    false,
                                    true};
      if (p.ends[k].line >= 0)
        l_.spots[p.ends[k].line] = {{f.poles[k], l_.line_row},
                                    r,
                                    number_in(v_.terminal(p.ends[k].line).label, "L"),
                                    true,
                                    false};
    }
    l_.faces.push_back(std::move(f));
  }
  l_.load_letter = {x_device_ - 5.6, l_.load_row};
  l_.line_letter = {x_device_ - 5.6, l_.line_row};
}

void Layouter::place_buses() {
  l_.buses.assign(v_.buses.size(), {});
  // The lower bus ends first, so that the upper one's wires go down beside it.
  double x = x_device_ + devices_width_;
  if (!v_.places.empty()) x -= place_width_.back() / 2;
  x += first_lug_;
  for (std::size_t i = v_.buses.size(); i-- > 0;) {
    const Bar& bar = v_.buses[i];
    Metal& m = l_.buses[i];
    const double y = bus_top_ + static_cast<double>(i) * bus_step_;
    const double left = x_device_ + 1.6;
    double right = x_device_ + devices_width_ - 1.6;
    for (int t : bar.holes) {
      const auto& terminal = v_.terminal(t);
      l_.spots[t] = {{x, y + 3.4},
                     terminal.big ? lug_radius_ : hole_radius_,
                     number_in(terminal.label, bar.letter),
                     false,
                     false};
      right = x + 6;
      x += lug_pitch_;
    }
    x = std::max(x, right + 5);
    m.box = {left, y, right - left, 6.8};
    m.letter = {x_device_ - 5.6, y + 3.4};
    m.finger_end = l_.load_row + 3;
    m.finger_width = std::min(6.0, pole_pitch_ * 0.62);
    for (std::size_t k = 0; k < l_.faces.size(); ++k) {
      const Place& p = v_.places[k];
      const auto& poles = l_.faces[k].poles;
      const std::size_t pole = v_.buses.size() > 1 ? std::min(i, poles.size() - 1) : 0;
      m.fingers.push_back({poles[pole], !p.spare});
    }
  }
}

void Layouter::place_bars() {
  for (std::size_t i = 0; i < v_.bars.size(); ++i) {
    const Bar& bar = v_.bars[i];
    Metal& m = l_.bars[i];
    m.box.y = bar_top_;
    m.letter.y = bar_top_ + 4;
    const double first = m.box.x + (s_ >= 1 ? 4 : 3.2);
    for (std::size_t k = 0; k < bar.holes.size(); ++k) {
      const auto& t = v_.terminal(bar.holes[k]);
      const bool last = k + 1 == bar.holes.size();
      // A bigger screw is a bigger lug; the ground bar's first takes the bond of the rack.
      l_.spots[bar.holes[k]] = {{first + static_cast<double>(k) * hole_pitch_, bar_top_ + 4},
                                t.big ? (last || s_ >= 1 ? lug_radius_ : 1.9) : hole_radius_,
                                number_in(t.label, bar.letter),
                                false,
                                false};
    }
  }
}

/// Its terminals by the bar they lead to: those of buses on top, the others below.
void Layouter::place_arrester() {
  if (v_.arrester < 0) return;
  const double w = arrester_width();
  std::vector<int> top, bottom;
  double aim = -1;
  for (const auto& wire : v_.wires) {
    if (wire.inside.size() != 2) continue;
    const int own = of_arrester(wire.inside[0]) ? wire.inside[0] : wire.inside[1];
    const int far = own == wire.inside[0] ? wire.inside[1] : wire.inside[0];
    if (!of_arrester(own)) continue;
    const bool up = bus_of(far) >= 0;
    (up ? top : bottom).push_back(own);
    if (!up && v_.terminal(own).pole != Pole::ground && l_.spots.count(far))
      aim = l_.spots[far].at.x;
  }
  const auto by_pole = [&](int x, int y) {
    const auto rank = [&](int t) {  // left to right: minus, plus, ground
      const Pole p = v_.terminal(t).pole;
      return p == Pole::minus ? 0 : p == Pole::plus ? 1 : 2;
    };
    return rank(x) < rank(y);
  };
  std::sort(top.begin(), top.end(), by_pole);
  std::sort(bottom.begin(), bottom.end(), by_pole);

  const double bus_right =
      l_.buses.empty() ? x_device_ + devices_width_ : l_.buses.front().box.right();
  const double apart = std::max(arrester_pitch(), w * 0.5);
  const auto place = [&](double centre, const std::vector<int>& list, double y, bool above) {
    for (std::size_t k = 0; k < list.size(); ++k) {
      const double x =
          centre + (static_cast<double>(k) - (static_cast<double>(list.size()) - 1) / 2) * apart;
      const Pole p = v_.terminal(list[k]).pole;
      l_.spots[list[k]] = {{x, y},
                           l_.small ? 1.7 : 2.4,
                           p == Pole::plus    ? "+"
                           : p == Pole::minus ? "−"
                                              : "E",
                           !above,
                           above};
    }
  };
  const double least = std::max(bus_right + arrester_run(), x_device_ + devices_width_ + 6 + w / 2);
  const double most = out_left_ - 7 - w / 2;
  double centre = aim >= 0 ? aim + (bottom.size() > 1 ? apart / 2 : 0) : (least + most) / 2;
  centre = std::min(std::max(centre, least), most);
  l_.arrester = draw::Box{centre - w / 2, device_top_, w, device_height_};
  place(centre, top, l_.load_row, true);
  place(centre, bottom, l_.line_row, false);
}

void Layouter::place_rail() {
  const double height = std::max(10.0, 35 * s_);
  const double middle = device_top_ + device_height_ * 0.52;
  const double left = std::max(l_.wall.x + 6, x_device_ - 12);
  const double right = l_.arrester ? l_.arrester->right() + 9 : x_device_ + devices_width_ + 9;
  l_.rail = {left, middle - height / 2, std::min(right, out_left_ - 4) - left, height};
}

}  // namespace stringwright::sheets::box
