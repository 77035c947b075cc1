#include <algorithm>
#include <set>
#include <string>

#include "check/common.hpp"
#include "job/find.hpp"

/// How the array and its metal are joined to earth, and the grounds that are no run's.
namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using wiring::Wiring;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

Fact<units::Ratio> counted(std::size_t n) {
  return Fact<units::Ratio>(static_cast<double>(n), "wiring");
}

/// Surfaces that carry modules of strings, and those whose metal a conductor joins to a ground bar.
void add_racks(const Wiring& w, Facts& f) {
  std::set<std::string> racks, bonded;
  for (const auto& s : w.job.row) racks.insert(s.on.value_or("rack"));
  for (const auto& c : w.conductors) {
    if (c.kind != wiring::ConductorKind::rack_bond) continue;
    for (const int t : {c.from, c.to})
      if (t >= 0 && w.devices[at(w.terminals[at(t)].device)].kind == wiring::DeviceKind::rack)
        bonded.insert(w.devices[at(w.terminals[at(t)].device)].id);
  }
  const auto elsewhere =
      std::erase_if(bonded, [&](const std::string& id) { return racks.count(id) == 0; });
  f.grounding.racks = counted(racks.size());
  // The bond of a box that hangs nowhere in particular is that of the only rack; of several it is not
  // known which.
  if (elsewhere == 0 || bonded.size() == racks.size())
    f.grounding.racks_bonded = counted(bonded.size());
  else if (racks.size() == 1)
    f.grounding.racks_bonded = counted(1);
}

void add_largest_wire(const Wiring& w, Facts& f) {
  for (const auto& c : w.conductors) {
    const bool circuit =
        c.kind == wiring::ConductorKind::home_run || c.kind == wiring::ConductorKind::output;
    if (!circuit || !c.wire.known()) continue;
    if (!f.grounding.largest_wire.known() || f.grounding.largest_wire->size < c.wire->size)
      f.grounding.largest_wire = Fact<units::Wire>(*c.wire, "wiring");
  }
}

/// Bonds that stand in boxes and equipment, and whether a battery or its load centre has one. A place
/// that the job leaves open may hold one more, so the number is then not known.
void add_bonds(const Wiring& w, Facts& f) {
  std::size_t here = 0;
  bool behind = false, open = false;
  for (const auto& d : w.devices) {
    if (d.kind != wiring::DeviceKind::bond) continue;
    const bool own = job::find(w.job.equipment, d.owner) || job::find(w.job.box, d.owner);
    here += own ? 1 : 0;
    behind = behind || !own;
  }
  bool battery_said = true;
  const auto& scheme = w.job.grounding.scheme;
  const bool grounded = scheme && *scheme != job::Scheme::ungrounded;
  for (const auto& e : w.job.equipment) {
    const bool owner = w.job.grounding.bond && *w.job.grounding.bond == e.id;
    open = open || (grounded && !owner && !e.bond_inside.known());
    if (!e.battery) continue;
    behind = behind || e.battery->bonded.value_or(false);
    battery_said = battery_said && e.battery->bonded.known();
  }
  // One bond too many is too many, whatever the rest is.
  if (!open || here > 1) f.grounding.bonds = counted(here);
  if (behind || battery_said) f.grounding.battery_bonded = Fact<bool>(behind, "equipment.battery");
}

void add_array(const Wiring& w, Facts& f) {
  const auto& g = w.job.grounding;
  auto& x = f.grounding;
  x.pole = choice(g.pole, "grounding");
  x.electrode = choice(g.electrode, "grounding");
  x.electrode_wire = Fact<units::Wire>(g.electrode_wire, "grounding");
  x.array_electrode = choice(g.array_electrode, "grounding");
  x.array_electrode_near = Fact<bool>(g.array_electrode_near, "grounding");
  x.frames = choice(g.frames, "grounding");
  x.rail_joints = choice(g.rail_joints, "grounding");
  x.bond_in = Fact<std::string>(g.bond, "grounding");
  add_bonds(w, f);
  std::size_t grounded = 0;
  for (const auto& box : w.boxes) grounded += box.out_ground >= 0 ? 1 : 0;
  x.boxes = counted(w.boxes.size());
  x.boxes_grounded = counted(grounded);
  add_racks(w, f);
  add_largest_wire(w, f);
}

/// The bond from a rack to a box's ground bar: an equipment ground of the strings of that box.
void add_rack_bond(const Wiring& w, const wiring::BoxCircuit& box, std::vector<Judged>& all) {
  const auto& c = w.conductors[at(box.rack_bond)];
  const job::Box* b = job::find(w.job.box, box.id);
  Judged& j = of_thing(all, Subject::equipment_ground, c.id, c.span);
  Facts& f = j.facts;
  add_site(w, f);
  f.wire = Fact<units::Wire>(c.wire, "box." + box.id);
  const auto strings = strings_reaching(w, box);
  if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, f);
  // Without a device a string's own current decides: a fault on the rack is fed by one string, and what
  // the others feed back comes through their devices.
  if (f.i_sc.known()) f.i_sc_total = f.i_sc;
  std::optional<units::Current> rating;
  bool fitted = false, known = true;
  for (const int d : box.devices) {
    if (w.devices[at(d)].spare) continue;
    fitted = true;
    const parts::Part* p = w.part_of(d);
    if (!p || !p->rating)
      known = false;
    else
      rating = rating ? units::max(*rating, *p->rating) : *p->rating;
  }
  f.device_ahead_fitted = Fact<bool>(fitted, "box." + box.id);
  if (fitted && known && rating)
    f.device_ahead = Fact<units::Current>(*rating, "string devices of " + box.id);
  if (!box.strings.empty()) {
    const auto& s = w.strings[at(box.strings.front())];
    if (!s.plus_path.empty())
      f.circuit_wire =
          Fact<units::Wire>(w.conductors[at(s.plus_path.front())].wire, "string." + s.id);
  }
  if (b) f.grounding.guarded = Fact<bool>(b->rack_bond_guarded, "box." + box.id);
}

}  // namespace

Judged& of_thing(std::vector<Judged>& all, Subject subject, const std::string& thing, Span span) {
  for (auto& j : all)
    if (j.facts.subject == subject && j.facts.thing == thing) return j;
  all.push_back({{}, span});
  all.back().facts.subject = subject;
  all.back().facts.thing = thing;
  return all.back();
}

void add_grounding(const Wiring& w, std::vector<Judged>& all) {
  if (w.strings.empty()) return;
  for (auto& j : all) {
    Facts& f = j.facts;
    f.grounding.raceway_bonds = Fact<bool>(w.job.grounding.raceway_bonds, "grounding");
    if (f.subject != Subject::equipment_ground) continue;
    // The run's own ground lies where its circuit lies.
    for (const auto& box : w.boxes) {
      if (box.out_ground < 0 || w.conductors[at(box.out_ground)].id != f.thing) continue;
      const auto& egc = w.conductors[at(box.out_ground)];
      for (const auto& s : w.conductors[at(box.out_plus)].stretches) {
        codebook::StretchFacts stretch;
        if (!s.in.empty()) stretch.method = Fact<std::string>(s.in, "run." + egc.run, s.span);
        f.stretches.push_back(stretch);
      }
      if (const auto* run = job::find(w.job.run, egc.run))
        f.grounding.guarded = Fact<bool>(run->wire.egc_guarded, "run." + run->id);
    }
  }
  for (const auto& box : w.boxes)
    if (box.rack_bond >= 0) add_rack_bond(w, box, all);

  Judged& array = of_thing(all, Subject::array, "array", w.job.grounding.span);
  add_site(w, array.facts);
  add_place(w, array.facts);
  add_array(w, array.facts);
  std::size_t most = 0;
  std::optional<bool> battery = false;
  for (std::size_t i = 0; i < w.inputs.size(); ++i) {
    const auto strings = strings_at(w, w.inputs[i]);
    if (strings.size() >= most) {
      most = strings.size();
      add_parallel(w, strings, "wiring", array.facts);
      if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, array.facts);
    }
    add_equipment(w, static_cast<int>(i), array.facts);
    // With several inputs the array is as its worst one: a battery behind any counts.
    if (array.facts.battery.known() && *array.facts.battery) {
      battery = true;
      break;
    }
    if (!array.facts.battery.known()) battery.reset();
  }
  if (battery)
    array.facts.battery = Fact<bool>(*battery, "equipment");
  else
    array.facts.battery = {};
}

}  // namespace stringwright::check
