#include "sheets/box/layout.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numeric>

#include "base/text.hpp"
#include "sheets/draw/tokens.hpp"
#include "sheets/words.hpp"

namespace stringwright::sheets::box {
namespace {

using draw::Point;
using wiring::Pole;

/// The sheet around the drawing: A3, frame 10 mm in, key and title strip at the foot.
constexpr double wall_left = 21, wall_top = 21.5;
constexpr double foot_of_captions = 241.4;  // the key begins below
constexpr double wide_column = 288, narrow_column = 300, frame_right = 410;
constexpr double safety_height = 36;  // of the words below the drawing where there is no column

constexpr double tag_height = 4.6;

struct Room {
  double width, height, column;
};

/// What goes through one entry.
struct Bundle {
  Entry::Kind kind = Entry::Kind::relief;
  std::vector<int> wires;     // conductors, left to right
  std::vector<double> tops;   // x where each comes down
  std::vector<double> slots;  // x of each hole against the middle; more holes than wires: plugged
  std::string caption;
  double pitch = 5, width = 0, centre = 0;
  bool upright = true;
  double x(std::size_t slot) const { return centre + slots[slot]; }
};

std::vector<double> even_slots(std::size_t count, double pitch) {
  std::vector<double> slots;
  for (std::size_t i = 0; i < count; ++i)
    slots.push_back((static_cast<double>(i) - (static_cast<double>(count) - 1) / 2) * pitch);
  return slots;
}

double tag_length(const View& v, int conductor) {
  const auto& c = v.conductor(conductor);
  return draw::tag_size(look(v.wiring, c).pattern, c.tag).along;
}

/// Whether tags stand upright in a row, and how tall they are then.
struct TagRow {
  bool upright = true;
  double height = tag_height;
};

/// @param at  conductors and where each comes down
TagRow tag_row(const View& v, std::vector<std::pair<double, int>> at) {
  std::sort(at.begin(), at.end());
  bool upright = true;
  double longest = 0;
  for (std::size_t i = 0; i < at.size(); ++i) {
    const double length = tag_length(v, at[i].second);
    longest = std::max(longest, length);
    if (i > 0 && (length + tag_length(v, at[i - 1].second)) / 2 + 0.35 > at[i].first - at[i - 1].first) upright = false;
  }
  if (upright) return {};
  return {false, longest};
}
TagRow tag_row(const View& v, const std::vector<int>& conductors, double pitch) {
  std::vector<std::pair<double, int>> at;
  for (int c : conductors) at.emplace_back(pitch * static_cast<double>(at.size()), c);
  return tag_row(v, std::move(at));
}

class Layouter {
 public:
  Layouter(const View& v, double scale, Room room, std::optional<Point> outline)
      : v_(v), s_(scale), room_(room), outline_(outline) {}

  std::optional<Layout> run() {
    sizes();
    if (outline_ && stretched_) return std::nullopt;
    if (!widths()) return std::nullopt;
    // Twice: across first, which says how deep the wires must jog, then with the true heights.
    devices();
    hole_bars();
    place_bundles();
    align_bars();
    if (!heights()) return std::nullopt;
    devices();
    hole_bars();
    place_arrester();
    entries();
    down_paths();
    out_paths();
    arrester_paths();
    rail();
    zones();
    return std::move(l_);
  }

 private:
  // --- what is in the box -------------------------------------------------------------------------

  std::size_t pole_count(const Place& p) const {
    if (!p.ends.empty()) return p.ends.size();
    return std::max<std::size_t>(1, v_.buses.size());
  }

  const wiring::Device* device_of(int terminal) const {
    return terminal < 0 ? nullptr : &v_.device(v_.terminal(terminal).device);
  }

  bool is_string_place(int terminal) const {
    for (const auto& p : v_.places)
      for (const auto& e : p.ends)
        if (e.line == terminal) return true;
    return false;
  }

  int bus_of(int terminal) const { return bar_index(v_.buses, terminal); }
  int bar_of(int terminal) const { return bar_index(v_.bars, terminal); }
  static int bar_index(const std::vector<Bar>& list, int terminal) {
    for (std::size_t i = 0; i < list.size(); ++i)
      if (std::find(list[i].holes.begin(), list[i].holes.end(), terminal) != list[i].holes.end())
        return static_cast<int>(i);
    return -1;
  }

  bool leads_out(const BoxWire& w) const { return w.inside.size() == 1; }
  bool of_arrester(int terminal) const {
    return v_.arrester >= 0 && v_.terminal(terminal).device == v_.arrester;
  }

  // --- sizes --------------------------------------------------------------------------------------

  void sizes() {
    const double real_width = [&] {
      if (v_.device_part && v_.device_part->size && v_.device_part->size->size() == 2)
        return v_.device_part->size->at(0).in(units::millimetres);
      return 18.0 * std::max(1, poles_of_device());
    }();
    const double real_height = v_.device_part && v_.device_part->size && v_.device_part->size->size() == 2
                                   ? v_.device_part->size->at(1).in(units::millimetres)
                                   : 85.0;
    const auto lines = static_cast<double>(std::max<std::size_t>(1, v_.buses.size()));
    const double least = 6.0 * lines;
    device_width_ = std::max(real_width * s_, least);
    stretched_ = real_width * s_ < least - 0.01;
    device_height_ = std::max(real_height * s_, 28.0);
    stretched_ = stretched_ || real_height * s_ < 27.99;
    pole_pitch_ = device_width_ / lines;
    hole_pitch_ = s_ >= 1 ? 10 : 5;
    slot_pitch_ = s_ >= 1 ? 10 : 5;
    lug_pitch_ = s_ >= 1 ? 10 : 6.4;
    hole_radius_ = s_ >= 1 ? 1.7 : 1.5;
    lug_radius_ = s_ >= 1 ? 2.3 : 2.0;
    l_.small = device_width_ < 14;
    l_.scale = s_;
    l_.to_scale = outline_.has_value();
    l_.column = room_.column;

    // Wires that come down from devices, from the other bar, from the ground bar.
    for (const auto& w : v_.wires) {
      if (!leads_out(w)) continue;
      const int t = w.inside.front();
      if (is_string_place(t)) from_devices_.push_back(w.conductor);
      else if (const int b = bar_of(t); b >= 0)
        (v_.bars[static_cast<std::size_t>(b)].pole == Pole::ground ? from_ground_ : from_bar_)
            .push_back(w.conductor);
    }
  }

  int poles_of_device() const {
    for (const auto& p : v_.places)
      if (!p.spare)
        return std::max(v_.device(p.device).poles, static_cast<int>(p.ends.size()));
    return static_cast<int>(v_.buses.size());
  }

  // --- across -------------------------------------------------------------------------------------

  double bar_width(const Bar& b) const {
    return (std::max<double>(1, static_cast<double>(b.holes.size())) - 1) * hole_pitch_ +
           (s_ >= 1 ? 8.0 : 6.4);
  }

  bool widths() {
    const auto places = static_cast<double>(v_.places.size());
    devices_width_ = places * device_width_;
    const std::size_t outs = v_.buses.size();
    out_pitch_ = s_ >= 1 ? 13.6 : 7.0;

    // Least distances, and how much of the room that is left each of them takes.
    const double margin_left = 21, margin_right = 11;
    const double bus_end = devices_width_ + lugs_width();  // from the first device's left edge
    double need = margin_left + devices_width_ + after_bars + margin_right +
                  (static_cast<double>(std::max<std::size_t>(outs, 1)) - 1) * out_pitch_;
    for (const auto& b : v_.bars) need += bar_width(b);
    need += v_.bars.empty() ? 0 : after_devices + (static_cast<double>(v_.bars.size()) - 1) * between_bars;
    double upper = margin_left + bus_end + 6 + margin_right +
                   (static_cast<double>(std::max<std::size_t>(outs, 1)) - 1) * out_pitch_;
    if (v_.arrester >= 0) upper += arrester_width() / 2 + arrester_run();
    need = std::max(need, upper);

    make_bundles();
    double below = 5;
    for (const auto& b : bundles_) below += b.width + 1.6;
    need = std::max(need, below);

    double width = outline_ ? outline_->x * s_ : std::min(room_.width, need * 1.1 + 12);
    if (width < need - 0.01 || width > room_.width + 0.01) return false;
    l_.wall.x = wall_left + (room_.width - width) / 2;
    l_.wall.y = wall_top;
    l_.wall.w = width;
    const double slack = width - need;

    x_device_ = l_.wall.x + margin_left + std::min(8.0, slack * 0.25);
    double x = x_device_ + devices_width_ + after_devices + std::min(30.0, slack * 0.3);
    out_right_ = l_.wall.x + width - margin_right - std::min(4.0, slack * 0.1);
    out_left_ = out_right_ - (static_cast<double>(std::max<std::size_t>(outs, 1)) - 1) * out_pitch_;
    // The other bar as far left as it goes, the ground bar half way to the output.
    for (std::size_t i = 0; i < v_.bars.size(); ++i) {
      const double w = bar_width(v_.bars[i]);
      if (i + 1 == v_.bars.size()) {
        const double last = out_left_ - after_bars - w;
        x = i == 0 ? (x + last) / 2 : std::min(last, x + std::max(0.0, last - x) * 0.3);
      }
      Metal m;
      m.box = {x, 0, w, 8};
      m.letter = {x - 6.6, 0};
      l_.bars.push_back(m);
      x += w + between_bars;
    }
    return true;
  }

  double first_lug() const { return s_ >= 1 ? 15 : 10; }
  double lugs_width() const {
    double w = 0;
    for (const auto& b : v_.buses)
      if (!b.holes.empty())
        w += first_lug() + (static_cast<double>(b.holes.size()) - 1) * lug_pitch_ + 6;
    return w;
  }
  double arrester_width() const {
    double real = 36;
    const parts::Part* part = v_.wiring.part_of(v_.arrester);
    if (part && part->size && part->size->size() == 2) real = part->size->at(0).in(units::millimetres);
    return std::max({real * s_, 17.0});
  }
  /// Level room between the end of the bus and the arrester's middle, for two tags.
  double arrester_run() const { return 2 * 9.6 + 6; }

  // --- entries ------------------------------------------------------------------------------------

  void add_reliefs(const std::vector<int>& wires, const std::string& what, std::size_t& count) {
    if (wires.empty()) return;
    const TagRow row = tag_row(v_, wires, slot_pitch_);
    const std::size_t first = count;
    const std::size_t reliefs = (wires.size() + 3) / 4;
    for (std::size_t r = 0; r < reliefs; ++r) {
      Bundle b;
      b.slots = even_slots(4, slot_pitch_);
      b.pitch = slot_pitch_;
      b.upright = row.upright;
      b.width = 3 * slot_pitch_ + (s_ >= 1 ? 14.0 : 7.6);
      for (std::size_t i = 4 * r; i < std::min(wires.size(), 4 * r + 4); ++i) b.wires.push_back(wires[i]);
      ++count;
      bundles_.push_back(std::move(b));
    }
    const std::size_t plugged = 4 * reliefs - wires.size();
    std::string words = "R" + std::to_string(first + 1);
    if (reliefs > 1) words += "–R" + std::to_string(count);
    words += " from array, " + what;
    if (plugged > 0) words += " (" + std::to_string(plugged) + "\u00a0plugged)";
    bundles_[bundles_.size() - reliefs].caption = words;
    captioned_.push_back({bundles_.size() - reliefs, bundles_.size()});
  }

  void add_hub(Entry::Kind kind, std::vector<int> wires, double pitch, const std::string& caption) {
    if (wires.empty()) return;
    Bundle b;
    b.kind = kind;
    const TagRow row = tag_row(v_, wires, pitch);
    b.upright = row.upright;
    b.pitch = pitch;
    b.slots = even_slots(wires.size(), pitch);
    const bool one_wire = kind == Entry::Kind::ground;
    b.width = b.slots.back() - b.slots.front() + (s_ >= 1 ? (one_wire ? 17 : 22) : (one_wire ? 12 : 14));
    b.wires = std::move(wires);
    b.caption = caption;
    bundles_.push_back(std::move(b));
    captioned_.push_back({bundles_.size() - 1, bundles_.size()});
  }

  std::vector<int> of_kind(const std::vector<int>& wires, wiring::ConductorKind kind, bool wanted) const {
    std::vector<int> found;
    for (int c : wires)
      if ((v_.conductor(c).kind == kind) == wanted) found.push_back(c);
    return found;
  }

  /// The box a feeder comes from.
  std::string source_box(int conductor) const {
    const auto* d = device_of(v_.conductor(conductor).from);
    return d ? d->owner : "";
  }

  void add_feeders(const std::vector<int>& wires, const std::string& what) {
    std::vector<std::pair<std::string, std::vector<int>>> by_box;
    for (int c : wires) {
      const std::string from = source_box(c);
      auto it = std::find_if(by_box.begin(), by_box.end(), [&](const auto& e) { return e.first == from; });
      if (it == by_box.end()) it = by_box.insert(by_box.end(), {from, {}});
      it->second.push_back(c);
    }
    for (auto& [from, list] : by_box)
      add_hub(Entry::Kind::feeder, list, slot_pitch_, "from " + from + (what.empty() ? "" : ", " + what));
  }

  std::string pole_word(Pole p) const { return p == Pole::plus ? "positives" : "negatives"; }

  void make_bundles() {
    using wiring::ConductorKind;
    const auto& out = v_.circuit();
    const auto ours = [&](int c) { return c == out.out_plus || c == out.out_minus || c == out.out_ground; };
    const auto incoming = [&](const std::vector<int>& wires) {
      std::vector<int> in;
      for (int c : wires)
        if (!ours(c)) in.push_back(c);
      return in;
    };
    const bool both = v_.buses.size() > 1;
    const Pole device_pole = v_.buses.empty() ? Pole::plus : v_.buses.front().pole;
    std::size_t count = 0;
    const auto devices = incoming(from_devices_);
    add_reliefs(of_kind(devices, ConductorKind::home_run, true), both ? "both poles" : pole_word(device_pole), count);
    add_feeders(of_kind(devices, ConductorKind::home_run, false), both ? "" : device_pole == Pole::plus ? "plus" : "minus");
    const auto bar = incoming(from_bar_);
    const Pole other = device_pole == Pole::plus ? Pole::minus : Pole::plus;
    add_reliefs(of_kind(bar, ConductorKind::home_run, true), pole_word(other), count);
    add_feeders(of_kind(bar, ConductorKind::home_run, false), other == Pole::plus ? "plus" : "minus");
    const auto ground = incoming(from_ground_);
    add_hub(Entry::Kind::ground, of_kind(ground, ConductorKind::rack_bond, true), slot_pitch_, "rack");
    add_feeders(of_kind(ground, ConductorKind::rack_bond, false), "ground");

    // The way out: the other bar's output, the ground, then the buses', the upper one outermost.
    std::vector<int> outs;
    const auto pole_of = [&](int c) { return v_.conductor(c).pole; };
    for (int c : from_bar_)
      if (ours(c)) outs.push_back(c);
    for (int c : from_ground_)
      if (ours(c)) outs.push_back(c);
    for (std::size_t i = v_.buses.size(); i-- > 0;)
      for (int c : {out.out_plus, out.out_minus})
        if (c >= 0 && pole_of(c) == v_.buses[i].pole && v_.buses[i].pole != Pole::ground) outs.push_back(c);
    add_hub(Entry::Kind::out, outs, out_pitch_, out_caption(out));
  }

  std::string out_caption(const wiring::BoxCircuit& out) const {
    std::string where = "conduit";
    for (int c : {out.out_plus, out.out_minus}) {
      if (c < 0) continue;
      const auto& stretches = v_.conductor(c).stretches;
      if (stretches.empty() || stretches.front().in.empty()) continue;
      where = stretches.front().in;
      if (stretches.front().size) where = stretches.front().size->print() + " " + where;
      break;
    }
    std::string to;
    if (out.lands_input >= 0) to = v_.wiring.inputs[static_cast<std::size_t>(out.lands_input)].id;
    if (out.lands_box >= 0) to = v_.wiring.boxes[static_cast<std::size_t>(out.lands_box)].id;
    return where + (to.empty() ? ", down" : ", down to " + to);
  }

  // --- down ---------------------------------------------------------------------------------------

  bool heights() {
    const double head = 13;  // words, hole numbers of the bus
    bus_step_ = 11;
    const bool two = v_.buses.size() > 1;
    finger_gap_ = v_.arrester >= 0 ? (two ? 10.6 : 6.8) : 6;
    const double buses = v_.buses.empty() ? 0 : 6.8 + (static_cast<double>(v_.buses.size()) - 1) * bus_step_;
    drop_ = v_.arrester >= 0 ? 20 : v_.bars.size() > 1 || !v_.bars.empty() ? 12 : 0;
    tag_rows();
    const double below_devices = 4 + device_tags_.height + 2;
    const double bar_height = v_.bars.empty() ? 0 : 8;
    const double below_bars = 4.4 + std::max(bar_tags_.height, ground_tags_.height) + 2;

    jog_step_ = deepest_ > 5 ? 2.7 : 3.2;
    const double wire_room = 8 + jog_step_ * (deepest_ + 1);
    const double upper = head + buses + finger_gap_ + device_height_;
    const double need = upper + std::max(below_devices, drop_ + bar_height + below_bars) + wire_room + 9;
    double last_tag = tag_height;
    for (const auto& b : bundles_)
      for (int c : b.wires)
        if (!b.upright) last_tag = std::max(last_tag, tag_length(v_, c));
    const double room = room_.height - wire_end - last_tag - caption_height();
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

  static constexpr double after_devices = 10.6, between_bars = 9.4, after_bars = 6;

  static constexpr double wire_end = 12.4;  // below the wall

  double caption_height() const {
    for (const auto& k : l_.captions)
      if (draw::measure(k.words, draw::size::caption, draw::Weight::medium).width > std::max(14.0, k.room)) return 11;
    return 6.3;
  }

  void devices() {
    l_.faces.clear();
    l_.buses.assign(v_.buses.size(), {});
    for (std::size_t i = 0; i < v_.places.size(); ++i) {
      const Place& p = v_.places[i];
      Face f;
      f.place = static_cast<int>(i);
      const double x = x_device_ + static_cast<double>(i) * device_width_;
      const double gap = l_.small ? 0.4 : 0.5;
      f.box = {x + gap, device_top_, device_width_ - 2 * gap, device_height_};
      const std::size_t n = pole_count(p);
      const double pitch = device_width_ / static_cast<double>(n);
      for (std::size_t k = 0; k < n; ++k) f.poles.push_back(x + pitch * (static_cast<double>(k) + 0.5));
      const double inset = std::max(4.6, 8.0 * device_height_ / 85);
      l_.load_row = device_top_ + inset;
      const double words = l_.small ? std::max(3.4, device_height_ * 0.2 - inset) : 9;
      l_.face_top = l_.load_row + words;
      l_.face_bottom = device_top_ + device_height_ - inset - words;
      l_.line_row = device_top_ + device_height_ - inset;
      for (std::size_t k = 0; k < p.ends.size(); ++k) {
        const auto number = [&](int t) {
          const std::string& label = v_.terminal(t).label;
          return label.size() > 1 ? label.substr(1) : label;
        };
        const double r = l_.small ? 1.5 : 2.4;
        if (p.ends[k].load >= 0)
          l_.spots[p.ends[k].load] = {{f.poles[k], l_.load_row}, r, number(p.ends[k].load), false, true};
        if (p.ends[k].line >= 0)
          l_.spots[p.ends[k].line] = {{f.poles[k], l_.line_row}, r, number(p.ends[k].line), true, false};
      }
      l_.faces.push_back(std::move(f));
    }
    l_.load_letter = {x_device_ - 5.6, l_.load_row};
    l_.line_letter = {x_device_ - 5.6, l_.line_row};

    // The lower bus ends first, so that the upper one's wires go down beside it.
    double x = x_device_ + devices_width_;
    if (!v_.places.empty()) x -= device_width_ / 2;
    x += first_lug();
    for (std::size_t i = v_.buses.size(); i-- > 0;) {
      const Bar& bar = v_.buses[i];
      Metal& m = l_.buses[i];
      const double y = bus_top_ + static_cast<double>(i) * bus_step_;
      const double left = x_device_ + 1.6;
      double right = x_device_ + devices_width_ - 1.6;
      for (int t : bar.holes) {
        const auto& terminal = v_.terminal(t);
        l_.spots[t] = {{x, y + 3.4}, terminal.big ? lug_radius_ : hole_radius_,
                       terminal.label.substr(bar.letter.size()), false, false};
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

  void hole_bars() {
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
                                  t.label.size() > bar.letter.size() ? t.label.substr(bar.letter.size()) : "",
                                  false,
                                  false};
      }
    }
  }

  // --- arrester -----------------------------------------------------------------------------------

  /// Its terminals by the bar they lead to: those of buses on top, the others below.
  void place_arrester() {
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
      if (!up && v_.terminal(own).pole != Pole::ground && l_.spots.count(far)) aim = l_.spots[far].at.x;
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

    const double bus_right = l_.buses.empty() ? x_device_ + devices_width_ : l_.buses.front().box.right();
    const double apart = std::max(10.4, w * 0.5);
    const auto place = [&](double centre, const std::vector<int>& list, double y, bool above) {
      for (std::size_t k = 0; k < list.size(); ++k) {
        const double x = centre + (static_cast<double>(k) - (static_cast<double>(list.size()) - 1) / 2) * apart;
        const Pole p = v_.terminal(list[k]).pole;
        l_.spots[list[k]] = {{x, y}, l_.small ? 1.7 : 2.4, p == Pole::plus ? "+" : p == Pole::minus ? "−" : "E", !above, above};
      }
    };
    const double least = std::max(bus_right + arrester_run(),
                                  x_device_ + devices_width_ + 6 + w / 2);
    const double most = out_left_ - 7 - w / 2;
    double centre = aim >= 0 ? aim + (bottom.size() > 1 ? apart / 2 : 0) : (least + most) / 2;
    centre = std::min(std::max(centre, least), most);
    l_.arrester = draw::Box{centre - w / 2, device_top_, w, device_height_};
    place(centre, top, l_.load_row, true);
    place(centre, bottom, l_.line_row, false);
  }

  // --- way down -----------------------------------------------------------------------------------

  int inside_end(int conductor) const {
    for (const auto& w : v_.wires)
      if (w.conductor == conductor) return w.inside.front();
    return -1;
  }

  double top_x(int conductor, std::size_t out_rank) const {
    const int t = inside_end(conductor);
    if (bus_of(t) >= 0) return out_left_ + static_cast<double>(out_rank) * out_pitch_;
    const auto it = l_.spots.find(t);
    return it == l_.spots.end() ? out_right_ : it->second.at.x;
  }

  void place_bundles() {
    const double left = l_.wall.x + 2.5, right = l_.wall.right() - 1.2;
    for (auto& b : bundles_) {
      double sum = 0;
      std::size_t rank = 0;
      b.tops.clear();
      for (std::size_t i = 0; i < b.wires.size(); ++i) {
        const bool on_bus = bus_of(inside_end(b.wires[i])) >= 0;
        b.tops.push_back(top_x(b.wires[i], on_bus ? rank++ : 0));
        sum += b.tops.back() - b.slots[i];
      }
      b.centre = sum / static_cast<double>(b.wires.size());
      // The way out lies under the outermost output, which comes straight down.
      if (b.kind == Entry::Kind::out) b.centre = std::min(b.tops.back() - b.slots.back(), right - b.width / 2);
    }
    spread(left, right);
    levels();
    captions();
  }

  /// Moves entries apart, each as little as may be: least squares under the demand that they keep their
  /// order and distance (pooling of neighbours that would overlap).
  void spread(double left, double right) {
    struct Pool {
      double place, weight;
      std::size_t count;
    };
    std::vector<Pool> pools;
    std::vector<double> offset;  // of each middle, were all pushed to the left
    double x = left;
    for (const auto& b : bundles_) {
      offset.push_back(x + b.width / 2);
      x += b.width + 1.6;
    }
    const double most = right - (x - 1.6);
    for (std::size_t i = 0; i < bundles_.size(); ++i) {
      const bool fixed = bundles_[i].kind == Entry::Kind::out;
      pools.push_back({bundles_[i].centre - offset[i],
                       fixed ? 1000.0 : static_cast<double>(bundles_[i].wires.size()), 1});
      while (pools.size() > 1 && pools[pools.size() - 2].place > pools.back().place) {
        const Pool last = pools.back();
        pools.pop_back();
        Pool& p = pools.back();
        p.place = (p.place * p.weight + last.place * last.weight) / (p.weight + last.weight);
        p.weight += last.weight;
        p.count += last.count;
      }
    }
    std::size_t i = 0;
    for (const auto& p : pools)
      for (std::size_t k = 0; k < p.count; ++k, ++i)
        bundles_[i].centre = std::min(std::max(p.place, 0.0), most) + offset[i];
  }

  /// The depth of each wire's jog: index in the order of bundles and their wires.
  void levels() {
    struct Down {
      draw::Jog jog;
      std::size_t index;
    };
    std::vector<Down> downs;
    std::size_t index = 0;
    for (const auto& b : bundles_)
      for (std::size_t i = 0; i < b.wires.size(); ++i, ++index)
        if (bus_of(inside_end(b.wires[i])) < 0) downs.push_back({{b.tops[i], b.x(i)}, index});
    std::stable_sort(downs.begin(), downs.end(), [](const Down& a, const Down& b) { return a.jog.from < b.jog.from; });
    std::vector<draw::Jog> jogs;
    for (const auto& d : downs) jogs.push_back(d.jog);
    const auto nested = draw::nest(jogs);
    level_.assign(index, -1);
    deepest_ = 0;
    for (std::size_t i = 0; i < downs.size(); ++i) {
      level_[downs[i].index] = nested[i];
      deepest_ = std::max(deepest_, nested[i]);
    }
  }

  /// Bars move over the entries of their wires, as far as there is room, so that wires come down as
  /// straight as they can; then the hub lets the ground through where it comes down.
  void align_bars() {
    for (int round = 0; round < 2; ++round)
      for (std::size_t i = 0; i < l_.bars.size(); ++i) {
        double move = 0;
        int wires = 0;
        for (const auto& b : bundles_)
          for (std::size_t k = 0; k < b.wires.size(); ++k)
            if (b.kind != Entry::Kind::out && bar_of(inside_end(b.wires[k])) == static_cast<int>(i)) {
              move += b.x(k) - b.tops[k];
              ++wires;
            }
        if (wires == 0) continue;
        Metal& bar = l_.bars[i];
        const double least = i > 0 ? l_.bars[i - 1].box.right() + between_bars
                                   : x_device_ + devices_width_ + after_devices;
        const double most = i + 1 < l_.bars.size() ? l_.bars[i + 1].box.x - between_bars - bar.box.w
                                                   : out_left_ - after_bars - bar.box.w;
        const double x = std::min(std::max(bar.box.x + move / wires, least), std::max(least, most));
        bar.letter.x += x - bar.box.x;
        bar.box.x = x;
        hole_bars();
        place_bundles();
      }
    // A bond may pass its relief beside the middle.
    for (auto& b : bundles_)
      if (b.kind == Entry::Kind::ground && b.wires.size() == 1) {
        const double reach = b.width / 2 - 4;
        b.slots[0] = std::min(std::max(b.tops[0] - b.centre, -reach), reach);
      }
    levels();
    if (bundles_.empty()) return;
    Bundle& out = bundles_.back();
    if (out.kind != Entry::Kind::out) return;
    for (std::size_t i = 1; i + 1 < out.wires.size(); ++i) {
      if (v_.conductor(out.wires[i]).pole != Pole::ground) continue;
      const double wanted = out.tops[i] - out.centre;
      const double step = out.upright ? out.pitch - 0.6 : 5.2;
      const double x = std::min(std::max(wanted, out.slots[i - 1] + step), out.slots[i + 1] - step);
      if (std::abs(x - wanted) < 0.01) out.slots[i] = x;
    }
    levels();
  }

  /// Whether the tags of each row stand upright.
  void tag_rows() {
    const auto row = [&](const std::vector<int>& conductors) {
      std::vector<std::pair<double, int>> at;
      for (int c : conductors) at.emplace_back(l_.spots[inside_end(c)].at.x, c);
      return tag_row(v_, std::move(at));
    };
    device_tags_ = row(from_devices_);
    bar_tags_ = row(from_bar_);
    ground_tags_ = row(from_ground_);
    std::vector<int> both = from_bar_;
    both.insert(both.end(), from_ground_.begin(), from_ground_.end());
    if (bar_tags_.upright && ground_tags_.upright && row(both).upright) return;
    const double tall = tag_row(v_, both, 0).height;
    bar_tags_ = ground_tags_ = {false, tall};
  }

  void entries() {
    for (const auto& b : bundles_) {
      Entry e;
      e.kind = b.kind;
      e.left = b.centre - b.width / 2;
      e.right = b.centre + b.width / 2;
      for (std::size_t i = b.wires.size(); i < b.slots.size(); ++i) e.plugged.push_back(b.x(i));
      l_.entries.push_back(std::move(e));
    }
  }

  void captions() {
    l_.captions.clear();
    struct Reach {
      double left, right;
    };
    std::vector<Reach> own;
    for (const auto& [first, last] : captioned_) {
      own.push_back({bundles_[first].centre - bundles_[first].width / 2,
                     bundles_[last - 1].centre + bundles_[last - 1].width / 2});
    }
    // Each may reach half way to its neighbours.
    for (std::size_t i = 0; i < own.size(); ++i) {
      const double before = i == 0 ? l_.wall.x - 8 : (own[i - 1].right + own[i].left) / 2 + 0.8;
      const double after = i + 1 == own.size() ? std::min(l_.wall.right() + 12, l_.column - 3)
                                               : (own[i].right + own[i + 1].left) / 2 - 0.8;
      const std::string& words = bundles_[captioned_[i].first].caption;
      double centre = (own[i].left + own[i].right) / 2;
      double room = 2 * std::min(centre - before, after - centre);
      if (draw::wrap(words, std::max(room, 8.0), draw::size::caption, draw::Weight::medium).size() > 2) {
        centre = (before + after) / 2;
        room = after - before;
      }
      l_.captions.push_back({centre, room, words});
    }
  }

  void down_paths() {
    jog_bottom_ = l_.wall.bottom() - 11;
    jog_top_ = jog_bottom_ - deepest_ * jog_step_;
    wire_end_ = l_.wall.bottom() + wire_end;
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
        const double top = on_device ? device_top_ + device_height_ + 4 : bar_top_ + 8 + 4.4;
        p.tags.push_back({{from, top + (row.upright ? tag_height : tag_length(v_, c)) / 2}, row.upright});
        add_end_tag(p, to, b);
        l_.paths.push_back(std::move(p));
      }
  }

  void add_end_tag(Path& p, double x, const Bundle& b) {
    const double height = b.upright ? tag_height : tag_length(v_, p.conductor);
    p.tags.push_back({{x, wire_end_ + height / 2 - 0.6}, b.upright});
    l_.foot = std::max(l_.foot, wire_end_ + height - 0.6);
  }

  /// Outputs of the buses: right along the top, down at the right.
  void out_paths() {
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
        const double length = tag_length(v_, b.wires[i]);
        // On the level stretch beside the bus, upright.
        const double bus_right = l_.buses[static_cast<std::size_t>(bus_of(t))].box.right();
        p.tags.push_back({{std::min(bus_right + 6 + length / 2, x - length / 2 - 3), from.y}, true});
        add_end_tag(p, to, b);
        p.front = true;
        l_.paths.push_back(std::move(p));
      }
    }
  }

  void arrester_paths() {
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
      const double length = tag_length(v_, wire.conductor);
      if (const int bus = bus_of(far); bus >= 0) {
        const bool upper = v_.buses.size() > 1 && bus == 0;
        const double y = v_.buses.size() > 1 ? bus_bottom + (upper ? 1.4 : 6.8) : bus_bottom + 3.4;
        p.points = {b, {b.x, y}, {a.x, y}, a};
        const double clear = l_.buses[static_cast<std::size_t>(bus)].box.right();
        const double right = std::max(a.x, b.x) - 3 - length / 2;
        p.tags.push_back({{std::min(std::max(b.x + 4, clear + 1.5) + length / 2, right - length - 1), y}, true});
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

  void rail() {
    const double height = std::max(10.0, 35 * s_);
    const double middle = device_top_ + device_height_ * 0.52;
    const double left = std::max(l_.wall.x + 6, x_device_ - 12);
    const double right = l_.arrester ? l_.arrester->right() + 9 : x_device_ + devices_width_ + 9;
    l_.rail = {left, middle - height / 2, std::min(right, out_left_ - 4) - left, height};
  }

  // --- zones --------------------------------------------------------------------------------------

  void zones() {
    const double floor = l_.wall.bottom() - 5;
    double low_left = 1e9, low_right = -1e9;
    for (const auto& p : l_.paths)
      if (is_string_place(inside_end(p.conductor))) {
        low_left = std::min(low_left, p.points.back().x - 3);
        low_right = std::max(low_right, p.points.back().x + 3);
      }
    const double step = jog_top_ - 3;
    const double top = l_.line_row - 5;
    if (!from_devices_.empty()) {
      const double left = l_.wall.x + 6, right = x_device_ + devices_width_ + 1.2;
      Zone z{Zone::Kind::live, {}, {}, {}};
      z.outline = {{left, top}, {right, top}, {right, floor}, {left, floor}};
      if (low_right > right) z.outline = {{left, top},       {right, top},      {right, step},
                                          {low_right, step}, {low_right, floor}, {left, floor}};
      words(z, {"LIVE WHENEVER THERE IS LIGHT", "LIVE IN LIGHT", "LIVE"}, left + 5.4, floor - 2.5,
            floor - top - 5 - 9);
      l_.zones.push_back(std::move(z));
    }
    for (std::size_t i = 0; i < v_.bars.size(); ++i)
      if (v_.bars[i].pole != Pole::ground) float_zone(i, floor, step);
    for (std::size_t i = 0; i < l_.buses.size(); ++i) closed_zone(i);
  }

  void words(Zone& z, std::initializer_list<const char*> choices, double x, double foot, double room) {
    for (const char* w : choices) {
      if (draw::measure(w, draw::size::caption, draw::Weight::bold).width > room) continue;
      z.words = w;
      z.label = Point{x, foot};
      return;
    }
  }

  void float_zone(std::size_t bar, double floor, double step) {
    const Metal& m = l_.bars[bar];
    const double left = m.letter.x - 1.3, right = m.box.right() + 1.4, top = m.box.y - 5.4;
    double low_left = left, low_right = right, first_wire = right;
    std::optional<Path> out;
    for (const auto& p : l_.paths) {
      const int t = inside_end(p.conductor);
      if (bar_of(t) != static_cast<int>(bar) || p.points.back().y < l_.wall.bottom()) continue;
      const int c = p.conductor;
      if (c == v_.circuit().out_plus || c == v_.circuit().out_minus) {
        out = p;
        continue;
      }
      low_left = std::min(low_left, p.points.back().x - 3);
      low_right = std::max(low_right, p.points.back().x + 3);
      first_wire = std::min(first_wire, p.points.back().x);
    }
    Zone z{Zone::Kind::floating, {}, {}, {}};
    auto& o = z.outline;
    o = {{left, top}, {right, top}};
    if (out && out->points.size() == 4) {
      // The output runs off to the right: the zone goes with it.
      const double y = out->points[1].y, x = out->points[2].x;
      o.insert(o.end(), {{right, y - 3.4}, {x + 3.4, y - 3.4}, {x + 3.4, floor}, {x - 3.4, floor}, {x - 3.4, y + 3.4}});
      const double inner = std::max(right, low_right);
      o.insert(o.end(), {{inner, y + 3.4}, {inner, floor}});
    } else if (low_right > right) {
      o.insert(o.end(), {{right, step}, {low_right, step}, {low_right, floor}});
    } else {
      o.push_back({right, floor});
    }
    // A gap to the live zone, where their wires come close.
    for (const auto& zone : l_.zones)
      if (zone.kind == Zone::Kind::live)
        for (const auto& p : zone.outline) low_left = std::max(low_left, std::min(left, p.x + 1.4));
    o.push_back({low_left, floor});
    if (low_left < left - 0.05) o.insert(o.end(), {{low_left, step}, {left, step}});
    const double foot = (first_wire < m.letter.x + 8 ? step : floor) - 2.5;
    words(z, {"FLOATS: TREAT AS LIVE", "FLOAT: TAKE AS LIVE", "FLOAT"}, m.letter.x + 2.4 + 1.3, foot,
          foot - m.box.bottom() - 1);
    l_.zones.push_back(std::move(z));
  }

  void closed_zone(std::size_t bus) {
    const Metal& m = l_.buses[bus];
    Zone z{Zone::Kind::closed, {}, {}, {}};
    const bool top = bus == 0;
    if (!top) return;
    const double left = x_device_ - 1.2;
    const double up = m.box.y - 5.8, right_of_devices = x_device_ + devices_width_ + 1.2;
    const double low = l_.load_row + 4.6;
    double right = m.box.right() + 1.4;
    for (const auto& b : l_.buses) right = std::max(right, b.box.right() + 1.4);
    const double below_bus = l_.buses.back().box.bottom() + 1.2;
    auto& o = z.outline;
    o = {{left, up}, {right, up}};
    const Path* out = nullptr;
    for (const auto& p : l_.paths)
      if (bus_of(inside_end(p.conductor)) == static_cast<int>(bus) && leads_to_hub(p)) out = &p;
    if (out) {
      const double y = out->points[0].y, x = out->points[1].x;
      const double inner_x = v_.buses.size() > 1 ? out_left_ - 3.4 : x - 3.4;
      const double inner_y = v_.buses.size() > 1 ? l_.buses.back().box.centre().y + 3.4 : y + 3.4;
      const double floor = l_.wall.bottom() - 5;
      o.insert(o.end(), {{right, y - 3.4}, {x + 3.4, y - 3.4}, {x + 3.4, floor}, {inner_x, floor}, {inner_x, inner_y}, {right, inner_y}});
    }
    o.insert(o.end(), {{right, below_bus}, {right_of_devices, below_bus}, {right_of_devices, low}, {left, low}});
    l_.zones.push_back(std::move(z));
  }

  bool leads_to_hub(const Path& p) const { return p.points.back().y > l_.wall.bottom(); }

  const View& v_;
  double s_;
  Room room_;
  std::optional<Point> outline_;
  Layout l_;

  double device_width_ = 18, device_height_ = 85, pole_pitch_ = 18, devices_width_ = 0;
  bool stretched_ = false;
  double hole_pitch_ = 10, slot_pitch_ = 10, lug_pitch_ = 10, out_pitch_ = 13;
  double hole_radius_ = 1.7, lug_radius_ = 2.3;
  std::vector<int> from_devices_, from_bar_, from_ground_;
  TagRow device_tags_, bar_tags_, ground_tags_;
  std::vector<Bundle> bundles_;
  std::vector<std::pair<std::size_t, std::size_t>> captioned_;
  std::vector<int> level_;
  int deepest_ = 0;
  double jog_step_ = 3.2;
  double x_device_ = 0, out_left_ = 0, out_right_ = 0;
  double bus_step_ = 11, finger_gap_ = 6.6, drop_ = 16, bus_top_ = 0, device_top_ = 0, bar_top_ = 0;
  double jog_top_ = 0, jog_bottom_ = 0, wire_end_ = 0;
};

}  // namespace

std::optional<Layout> lay_out(const View& v, const std::function<bool(double)>& column_fits) {
  std::optional<Point> outline;
  if (v.part && v.part->outline && v.part->outline->size() == 2)
    outline = Point{v.part->outline->at(0).in(units::millimetres), v.part->outline->at(1).in(units::millimetres)};

  const double height = foot_of_captions - wall_top;
  std::vector<Room> rooms;
  for (const double column : {wide_column, narrow_column})
    if (column_fits(frame_right - column)) rooms.push_back({column - 5 - wall_left, height, column});
  rooms.push_back({frame_right - 7 - wall_left, height - safety_height, frame_right});
  const auto attempt = [&](std::optional<Point> size) -> std::optional<Layout> {
    for (const double scale : {1.0, 1.0 / 2, 1.0 / 3})
      for (const Room& room : rooms) {
        auto l = Layouter(v, scale, room, size).run();
        if (!l) continue;
        l->whole_sheet = room.column == frame_right;
        return l;
      }
    return std::nullopt;
  };
  if (outline)
    if (auto l = attempt(outline)) return l;
  auto l = attempt(std::nullopt);
  if (l) l->to_scale = false;
  return l;
}

}  // namespace stringwright::sheets::box
