#include "sheets/box/layouter.hpp"

#include <algorithm>
#include <cmath>

#include "sheets/draw/tokens.hpp"

namespace stringwright::sheets::box {
namespace {

std::vector<double> even_slots(std::size_t count, double pitch) {
  std::vector<double> slots;
  slots.reserve(count);
  for (std::size_t i = 0; i < count; ++i)
    slots.push_back((static_cast<double>(i) - (static_cast<double>(count) - 1) / 2) * pitch);
  return slots;
}

std::string pole_word(wiring::Pole p) {
  return p == wiring::Pole::plus ? "positives" : "negatives";
}

std::vector<int> of_kind(const View& v, const std::vector<int>& wires, wiring::ConductorKind kind,
                         bool wanted) {
  std::vector<int> found;
  for (int c : wires)
    if ((v.conductor(c).kind == kind) == wanted) found.push_back(c);
  return found;
}

/// The box a feeder comes from.
std::string source_box(const View& v, int conductor) {
  const int from = v.conductor(conductor).from;
  return from < 0 ? "" : v.device(v.terminal(from).device).owner;
}

}  // namespace

using wiring::Pole;

void Layouter::make_bundles() {
  using wiring::ConductorKind;
  const auto& out = v_.circuit();
  const auto ours = [&](int c) {
    return c == out.out_plus || c == out.out_minus || c == out.out_ground;
  };
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
  add_reliefs(of_kind(v_, devices, ConductorKind::home_run, true), pole_pitch_,
              both ? "both poles" : pole_word(device_pole), count);
  add_feeders(of_kind(v_, devices, ConductorKind::home_run, false), both ? ""
                                                                    : device_pole == Pole::plus
                                                                        ? "plus"
                                                                        : "minus");
  const auto bar = incoming(from_bar_);
  const Pole other = device_pole == Pole::plus ? Pole::minus : Pole::plus;
  add_reliefs(of_kind(v_, bar, ConductorKind::home_run, true), hole_pitch_, pole_word(other),
              count);
  add_feeders(of_kind(v_, bar, ConductorKind::home_run, false),
              other == Pole::plus ? "plus" : "minus");
  const auto ground = incoming(from_ground_);
  add_hub(Entry::Kind::ground, of_kind(v_, ground, ConductorKind::rack_bond, true), slot_pitch_,
          "rack");
  add_feeders(of_kind(v_, ground, ConductorKind::rack_bond, false), "ground");

  // The way out: the other bar's output, the ground, then the buses', the upper one outermost.
  std::vector<int> outs;
  const auto pole_of = [&](int c) { return v_.conductor(c).pole; };
  for (int c : from_bar_)
    if (ours(c)) outs.push_back(c);
  for (int c : from_ground_)
    if (ours(c)) outs.push_back(c);
  for (std::size_t i = v_.buses.size(); i-- > 0;)
    for (int c : {out.out_plus, out.out_minus})
      if (c >= 0 && pole_of(c) == v_.buses[i].pole && v_.buses[i].pole != Pole::ground)
        outs.push_back(c);
  add_hub(Entry::Kind::out, outs, out_pitch_, out_caption());
}

void Layouter::add_reliefs(const std::vector<int>& wires, double above, const std::string& what,
                           std::size_t& count) {
  if (wires.empty()) return;
  // Holes lie no farther apart than what is above them, or the wires would have to spread.
  const double pitch = above < slot_pitch_ ? 5 : slot_pitch_;
  const TagRow row = tag_row(wires, pitch);
  const std::size_t first = count;
  const std::size_t reliefs = (wires.size() + 3) / 4;
  for (std::size_t r = 0; r < reliefs; ++r) {
    Bundle b;
    b.slots = even_slots(4, pitch);
    b.pitch = pitch;
    b.upright = row.upright;
    b.width = 3 * pitch + (pitch > 8 ? 14.0 : 7.6);
    for (std::size_t i = 4 * r; i < std::min(wires.size(), 4 * r + 4); ++i)
      b.wires.push_back(wires[i]);
    ++count;
    bundles_.push_back(std::move(b));
  }
  const std::size_t plugged = 4 * reliefs - wires.size();
  std::string words = "Gland " + std::to_string(first + 1);
  if (reliefs > 1) words += "–" + std::to_string(count);
  words += " from array, " + what;
  if (plugged > 0) words += " (" + std::to_string(plugged) + "\u00a0plugged)";
  bundles_[bundles_.size() - reliefs].caption = words;
  captioned_.push_back({bundles_.size() - reliefs, bundles_.size()});
}

void Layouter::add_hub(Entry::Kind kind, std::vector<int> wires, double pitch,
                       const std::string& caption) {
  if (wires.empty()) return;
  Bundle b;
  b.kind = kind;
  const TagRow row = tag_row(wires, pitch);
  b.upright = row.upright;
  b.pitch = pitch;
  b.slots = even_slots(wires.size(), pitch);
  const bool one_wire = kind == Entry::Kind::ground;
  b.width =
      b.slots.back() - b.slots.front() + (s_ >= 1 ? (one_wire ? 17 : 22) : (one_wire ? 12 : 14));
  // A tag must not reach over its neighbour's.
  for (int c : wires)
    if (row.upright) b.width = std::max(b.width, tag_length(c) + b.slots.back() - b.slots.front());
  b.wires = std::move(wires);
  b.caption = caption;
  bundles_.push_back(std::move(b));
  captioned_.push_back({bundles_.size() - 1, bundles_.size()});
}

void Layouter::add_feeders(const std::vector<int>& wires, const std::string& what) {
  std::vector<std::pair<std::string, std::vector<int>>> by_box;
  for (int c : wires) {
    const std::string from = source_box(v_, c);
    auto it =
        std::find_if(by_box.begin(), by_box.end(), [&](const auto& e) { return e.first == from; });
    if (it == by_box.end()) it = by_box.insert(by_box.end(), {from, {}});
    it->second.push_back(c);
  }
  for (auto& [from, list] : by_box)
    add_hub(Entry::Kind::feeder, list, slot_pitch_,
            "from " + from + (what.empty() ? "" : ", " + what));
}

std::string Layouter::out_caption() const {
  const auto& out = v_.circuit();
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

void Layouter::place_bundles() {
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
    if (b.kind == Entry::Kind::out)
      b.centre = std::min(b.tops.back() - b.slots.back(), right - b.width / 2);
  }
  spread(left, right);
  nest_jogs();
  write_captions();
}

/// Moves entries apart, each as little as may be: least squares under the demand that they keep their
/// order and distance (pooling of neighbours that would overlap).
void Layouter::spread(double left, double right) {
  struct Pool {
    double place, weight;
    std::size_t count;
  };
  std::vector<Pool> pools;
  std::vector<double> offset;  // of each middle, were all pushed to the left
  double x = left;
  for (const auto& b : bundles_) {
    offset.push_back(x + b.width / 2);
    x += b.width + between_entries;
  }
  const double most = right - (x - between_entries);
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
void Layouter::nest_jogs() {
  struct Down {
    draw::Jog jog;
    std::size_t index;
  };
  std::vector<Down> downs;
  std::size_t index = 0;
  for (const auto& b : bundles_)
    for (std::size_t i = 0; i < b.wires.size(); ++i, ++index)
      if (bus_of(inside_end(b.wires[i])) < 0) downs.push_back({{b.tops[i], b.x(i)}, index});
  std::sort(downs.begin(), downs.end(), [](const Down& a, const Down& b) {
    return a.jog.from != b.jog.from ? a.jog.from < b.jog.from : a.index < b.index;
  });
  std::vector<draw::Jog> jogs;
  jogs.reserve(downs.size());
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
void Layouter::align_bars() {
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
      place_bars();
      place_bundles();
    }
  // A bond may pass its relief beside the middle.
  for (auto& b : bundles_)
    if (b.kind == Entry::Kind::ground && b.wires.size() == 1) {
      const double reach = b.width / 2 - 4;
      b.slots[0] = std::min(std::max(b.tops[0] - b.centre, -reach), reach);
    }
  nest_jogs();
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
  nest_jogs();
}

void Layouter::write_captions() {
  l_.captions.clear();
  struct Reach {
    double left, right;
  };
  std::vector<Reach> own;
  own.reserve(captioned_.size());
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
    if (draw::wrap(words, std::max(room, 8.0), draw::size::caption, draw::Weight::medium).size() >
        2) {
      centre = (before + after) / 2;
      room = after - before;
    }
    l_.captions.push_back({centre, room, words});
  }
}

double Layouter::caption_height() const {
  for (const auto& k : l_.captions)
    if (draw::measure(k.words, draw::size::caption, draw::Weight::medium).width >
        std::max(14.0, k.room))
      return 11;
  return 6.3;
}

void Layouter::add_entries() {
  for (const auto& b : bundles_) {
    Entry e;
    e.kind = b.kind;
    e.left = b.centre - b.width / 2;
    e.right = b.centre + b.width / 2;
    for (std::size_t i = b.wires.size(); i < b.slots.size(); ++i) e.plugged.push_back(b.x(i));
    l_.entries.push_back(std::move(e));
  }
}

}  // namespace stringwright::sheets::box
