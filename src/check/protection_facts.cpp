#include <string>

#include "check/common.hpp"
#include "job/find.hpp"

/// What watches the array, equipment by equipment, and what takes its voltage away.
namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using wiring::Wiring;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

void add_ground_fault(const job::Equipment& e, Facts& f) {
  if (!e.ground_fault) return;
  const auto& g = *e.ground_fault;
  const std::string from = "equipment." + e.id + ".ground_fault";
  f.ground_fault.by = choice(g.by, from);
  f.ground_fault.sees_grounded = Fact<bool>(g.sees_grounded, from);
  f.ground_fault.listed = Fact<bool>(g.listed, from);
  f.ground_fault.rating = Fact<units::Current>(g.rating, from);
}

/// Every stretch of every box's output that reaches this equipment.
void add_ways(const Wiring& w, const std::string& equipment, Facts& f) {
  for (std::size_t b = 0; b < w.boxes.size(); ++b) {
    const auto& box = w.boxes[b];
    const int input = input_of_box(w, static_cast<int>(b));
    if (box.out_plus < 0 || input < 0 || w.inputs[at(input)].equipment != equipment) continue;
    const auto& out = w.conductors[at(box.out_plus)];
    for (const auto& s : out.stretches) {
      codebook::WayFacts way;
      if (!s.in.empty()) way.method = Fact<std::string>(s.in, "run." + out.run, s.span);
      way.underground = Fact<bool>(s.buried.has_value() || s.in == "buried", "run." + out.run);
      f.arc_fault.ways.push_back(way);
    }
  }
}

units::Power power_of(const Wiring& w, const std::vector<int>& strings) {
  units::Power sum;
  for (const int s : strings)
    for (const int d : w.strings[at(s)].modules) {
      const auto& m = w.module_of(d);
      sum += m.p_max ? *m.p_max : *m.v_mp * *m.i_mp;
    }
  return sum;
}

/// Longest way of a string with its output, where all of it is known.
std::optional<units::Length> longest_way(const Wiring& w, const std::vector<int>& strings) {
  std::optional<units::Length> most;
  for (const int s : strings) {
    units::Length way;
    for (const int c : w.strings[at(s)].plus_path) {
      if (!w.conductors[at(c)].length) return {};
      way += *w.conductors[at(c)].length;
    }
    for (int b = w.strings[at(s)].box; b >= 0; b = w.boxes[at(b)].lands_box) {
      const int out = w.boxes[at(b)].out_plus;
      if (out < 0 || !w.conductors[at(out)].length) return {};
      way += *w.conductors[at(out)].length;
    }
    most = most ? units::max(*most, way) : way;
  }
  return most;
}

/// How near the d.c. circuits come to a building: by where the equipment stands, the nearest decides.
Fact<std::string> circuits_end(const Wiring& w) {
  using Place = job::EquipmentPlace;
  bool inside = false, wall = false, open = w.job.equipment.empty();
  for (const auto& e : w.job.equipment) {
    open = open || !e.place.known();
    inside = inside || (e.place && *e.place == Place::inside);
    wall = wall || (e.place && *e.place == Place::outside_wall);
  }
  if (inside && w.job.site.purpose_built.value_or(false))
    return {"pv-only-building", "site.purpose_built"};
  if (inside) return {"inside", "equipment.place"};
  if (open) return {};
  return {wall ? "outside-wall" : "off-building", "equipment.place"};
}

}  // namespace

void add_place(const Wiring& w, Facts& f) {
  f.grounding.place = choice(w.job.site.place, "site");
  f.shutdown.circuits_end = circuits_end(w);
  const auto& s = w.job.rapid_shutdown;
  const std::string from = "rapid_shutdown";
  f.shutdown.fitted = Fact<bool>(s.fitted, from);
  f.shutdown.inside = choice(s.array, from);
  f.shutdown.from_array = Fact<units::Length>(s.from_array, from);
  f.shutdown.in_building = Fact<units::Length>(s.in_building, from);
  f.shutdown.volts_outside = Fact<units::Voltage>(s.volts_outside, from);
  f.shutdown.volts_inside = Fact<units::Voltage>(s.volts_inside, from);
  f.shutdown.seconds = Fact<units::Time>(s.seconds, from);
  f.shutdown.volt_amps = Fact<units::Power>(s.volt_amps, from);
  f.shutdown.switch_is = choice(s.switch_is, from);
  f.shutdown.switch_outside = Fact<bool>(s.switch_outside, from);
  f.shutdown.switch_reachable = Fact<bool>(s.switch_reachable, from);
}

void add_protection(const Wiring& w, std::vector<Judged>& all) {
  for (const auto& e : w.job.equipment) {
    std::vector<int> strings;
    int first = -1;
    for (std::size_t i = 0; i < w.inputs.size(); ++i) {
      if (w.inputs[i].equipment != e.id) continue;
      if (first < 0) first = static_cast<int>(i);
      const auto here = strings_at(w, w.inputs[i]);
      strings.insert(strings.end(), here.begin(), here.end());
    }
    if (strings.empty()) continue;
    Judged& j = of_thing(all, Subject::equipment, e.id, e.span);
    Facts& f = j.facts;
    add_site(w, f);
    add_place(w, f);
    if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, f);
    add_parallel(w, strings, "wiring", f);
    add_equipment(w, first, f);
    add_ground_fault(e, f);
    f.ground_fault.power = Fact<units::Power>(power_of(w, strings), "modules");
    f.arc_fault.fitted = Fact<bool>(e.arc_fault, "equipment." + e.id);
    add_ways(w, e.id, f);
    f.arrester.flashes = Fact<units::Ratio>(w.job.site.flashes, "site");
    if (const auto way = longest_way(w, strings))
      f.arrester.run = Fact<units::Length>(*way, "wiring");
    bool fitted = false;
    for (std::size_t b = 0; b < w.boxes.size(); ++b) {
      const int input = input_of_box(w, static_cast<int>(b));
      if (input >= 0 && w.inputs[at(input)].equipment == e.id)
        fitted = fitted || w.boxes[b].arrester >= 0;
    }
    f.arrester.fitted = Fact<bool>(fitted, "job");
  }
}

}  // namespace stringwright::check
