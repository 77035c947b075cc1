#include "events/site.hpp"

#include <algorithm>
#include <map>

namespace stringwright::events {
namespace {

using wiring::DeviceKind;
using wiring::Pole;

template <class List>
int index_of(const List& list, std::string_view id) {
  const auto found =
      std::find_if(list.begin(), list.end(), [&](const auto& x) { return x.id == id; });
  return found == list.end() ? -1 : static_cast<int>(found - list.begin());
}

/// What lands on the line side of a protector.
void find_role(const wiring::Wiring& w, DevicePole& p) {
  for (std::size_t i = 0; i < w.strings.size(); ++i)
    if (w.strings[i].device == p.device || w.strings[i].inline_fuse == p.device)
      p.role = DevicePole::Role::string, p.of = static_cast<int>(i);
  for (std::size_t i = 0; i < w.inputs.size(); ++i)
    if (w.inputs[i].protector == p.device)
      p.role = DevicePole::Role::input, p.of = static_cast<int>(i);
  for (std::size_t i = 0; i < w.boxes.size(); ++i) {
    const auto& b = w.boxes[i];
    if (b.lands_box < 0) continue;
    for (const int c : {b.out_plus, b.out_minus})
      if (c >= 0 && w.conductors[c].to >= 0 && w.terminals[w.conductors[c].to].device == p.device)
        p.role = DevicePole::Role::feeder, p.of = static_cast<int>(i);
  }
}

std::vector<DevicePole> poles_of(const wiring::Wiring& w) {
  std::vector<DevicePole> all;
  for (std::size_t k = 0; k < w.devices.size(); ++k) {
    const auto& d = w.devices[k];
    if (d.kind != DeviceKind::protector || d.spare) continue;
    const parts::Part* part = w.part_of(static_cast<int>(k));
    const bool both = d.terminals.size() >= 4;
    for (std::size_t t = 0; t + 1 < d.terminals.size(); t += 2) {
      DevicePole p;
      p.device = static_cast<int>(k);
      p.line = d.terminals[t];
      p.load = d.terminals[t + 1];
      p.pole = w.terminals[p.line].pole;
      p.name = d.id + (both ? (p.pole == Pole::plus ? "+" : "-") : "");
      find_role(w, p);
      if (part) {
        p.rating = part->rating.value;
        p.protects = !part->kind.known() || *part->kind != parts::PartKind::disconnect;
        const double in_series = both ? d.poles / 2.0 : d.poles;
        if (part->v_dc_pole) p.v_opens = in_series * *part->v_dc_pole;
        p.interrupt = part->interrupt.value;
        p.polarised = part->polarised.value;
        p.load_break = part->load_break.value;
        for (const auto& point : part->curve)
          if (point.times && point.within) p.curve.push_back({*point.times, *point.within});
        for (const auto& point : part->derating)
          if (point.ambient && point.factor) p.derating.push_back({*point.ambient, *point.factor});
        for (const auto& box : w.job.box)
          if (box.id == d.owner) p.in_box = box.t_inside.value;
        if (p.in_box) p.heat_factor = codebook::derating(p.derating, *p.in_box);
      }
      if (p.of >= 0) all.push_back(std::move(p));
    }
  }
  return all;
}

double home_run(const wiring::Wiring& w, const circuit::Resistances& r, int string) {
  double sum = 0;
  for (const auto* path : {&w.strings[string].plus_path, &w.strings[string].minus_path})
    for (const int c : *path) sum += r[c].si();
  return sum;
}

std::vector<LikeStrings> likes_of(const wiring::Wiring& w, const circuit::Resistances& r) {
  std::vector<LikeStrings> all;
  std::map<std::string, std::size_t> known;
  for (std::size_t s = 0; s < w.strings.size(); ++s) {
    const auto& string = w.strings[s];
    if (string.modules.empty() || string.plus_path.empty() || string.minus_path.empty()) continue;
    std::string key = std::to_string(string.box) + "|" + std::to_string(string.age.si());
    if (string.device >= 0) {
      key += "|" + w.devices[string.device].part + "|" +
             std::to_string(w.devices[string.device].poles);
    } else {
      key += "|" + std::to_string(w.terminals[w.conductors[string.plus_path.back()].to].device);
    }
    for (const int d : {string.inline_fuse, string.blocking_diode})
      key += "|" + (d < 0 ? std::string() : w.devices[d].part);
    for (const int m : string.modules) key += "|" + w.devices[m].part;
    const auto [it, fresh] = known.emplace(key, all.size());
    if (fresh) all.emplace_back();
    all[it->second].strings.push_back(static_cast<int>(s));
  }
  for (auto& like : all)
    like.first = *std::min_element(like.strings.begin(), like.strings.end(), [&](int x, int y) {
      return home_run(w, r, x) < home_run(w, r, y);
    });
  return all;
}

}  // namespace

Site::Site(const wiring::Wiring& wiring, const circuit::Models& m, const circuit::Resistances& r,
           codebook::Convention c)
    : w(wiring), models(m), resistances(r), convention(c) {
  const auto& site = w.job.site;
  cold = site.t_min.value_or(units::celsius(25));
  hot = site.t_hot ? *site.t_hot + site.rise.value_or(units::kelvins(30)) : units::celsius(25);
  poles = poles_of(w);
  likes = likes_of(w, r);
  for (std::size_t k = 0; k < w.devices.size(); ++k)
    if (w.devices[k].kind == DeviceKind::bond && w.devices[k].terminals.size() >= 2)
      bonds.push_back(static_cast<int>(k));
}

int Site::find_string(std::string_view id) const { return index_of(w.strings, id); }
int Site::find_box(std::string_view id) const { return index_of(w.boxes, id); }
int Site::find_input(std::string_view id) const { return index_of(w.inputs, id); }

int Site::metal_near(const std::string& owner) const {
  // A module's row stands on a surface; the surface's metal is bonded where a box says so.
  for (const auto& row : w.job.row) {
    if (row.id != owner) continue;
    const int rack = w.find_device(row.on.value_or("rack"));
    if (rack >= 0 && w.devices[rack].kind == DeviceKind::rack)
      return w.devices[rack].terminals.front();
  }
  if (const int box = find_box(owner); box >= 0 && w.boxes[box].bar_ground >= 0)
    return w.devices[w.boxes[box].bar_ground].terminals.front();
  for (const auto& d : w.devices)
    if (d.kind == DeviceKind::rack) return d.terminals.front();
  for (const auto& in : w.inputs)
    for (const int t : w.devices[in.device].terminals)
      if (w.terminals[t].pole == Pole::ground) return t;
  return -1;
}

const job::GroundFault* Site::detector() const {
  const job::GroundFault* found = nullptr;
  for (const auto& e : w.job.equipment) {
    if (!e.ground_fault || !e.ground_fault->by) continue;
    if (e.id == w.job.grounding.bond.value_or("")) return &*e.ground_fault;
    if (!found) found = &*e.ground_fault;
  }
  return found;
}

bool Site::plus_grounded() const {
  return bonded() && w.terminals[w.devices[bonds.front()].terminals.front()].pole == Pole::plus;
}

const job::Battery* Site::battery_of(int input) const {
  for (const auto& e : w.job.equipment)
    if (e.id == w.inputs[input].equipment && e.battery) return &*e.battery;
  return nullptr;
}

bool Site::any_battery() const {
  for (std::size_t k = 0; k < w.inputs.size(); ++k)
    if (battery_of(static_cast<int>(k))) return true;
  return false;
}

int Site::input_of_box(int box) const {
  for (std::size_t guard = 0; box >= 0 && guard <= w.boxes.size(); ++guard) {
    if (w.boxes[box].lands_input >= 0) return w.boxes[box].lands_input;
    box = w.boxes[box].lands_box;
  }
  return -1;
}

int Site::input_of_string(int string) const {
  if (w.strings[string].box >= 0) return input_of_box(w.strings[string].box);
  for (std::size_t i = 0; i < w.inputs.size(); ++i) {
    const auto& here = w.inputs[i].strings;
    if (std::find(here.begin(), here.end(), string) != here.end()) return static_cast<int>(i);
  }
  return -1;
}

}  // namespace stringwright::events
