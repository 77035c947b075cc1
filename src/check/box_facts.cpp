#include <algorithm>
#include <map>
#include <string>

#include "check/common.hpp"
#include "job/find.hpp"

/// A combiner box in its place: bus bar, holes and what lands there, openings, who reaches it.
namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using wiring::ConductorKind;
using wiring::Wiring;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// Whether the strands of a conductor are finer than class C. What the job does not say is known of the
/// usual building wire alone, which is made in class B or C.
Fact<bool> fine_strands(const Wiring& w, const wiring::Conductor& c) {
  Given<bool> said;
  if (c.kind == ConductorKind::home_run) {
    for (const auto& s : w.strings)
      if (s.box >= 0 && (std::find(s.plus_path.begin(), s.plus_path.end(),
                                   w.find_conductor(c.id)) != s.plus_path.end() ||
                         std::find(s.minus_path.begin(), s.minus_path.end(),
                                   w.find_conductor(c.id)) != s.minus_path.end()))
        if (const auto* box = job::find(w.job.box, w.boxes[at(s.box)].id))
          said = box->home_run.fine_strands;
  } else if (const auto* run = job::find(w.job.run, c.run)) {
    said = run->wire.fine_strands;
  }
  if (said) return Fact<bool>(said, "job");
  if (!c.wire.known()) return {};
  const std::string& type = c.wire->insulation;
  const bool building = type == "XHHW-2" || type == "THWN-2" || type == "XHHW" || type == "THWN" ||
                        type == "THHN" || type == "THW" || type == "bare";
  return building ? Fact<bool>(false, "type " + type) : Fact<bool>{};
}

const char* kind_of_hole(const wiring::BoxCircuit& box, const wiring::Terminal& t) {
  if (t.device == box.bar_ground) return "earth";
  if (t.device == box.bus_minus) return "minus";
  if (t.device == box.bus_plus) return "plus";
  return "line";
}

/// Every terminal of the box in which a wire of the job lands.
std::vector<codebook::HoleFacts> holes_of(const Wiring& w, const wiring::BoxCircuit& box) {
  std::map<int, codebook::HoleFacts> holes;  // by terminal: in the order of the graph
  const auto own = [&](int t) {
    return t >= 0 && w.devices[at(w.terminals[at(t)].device)].owner == box.id;
  };
  for (const auto& c : w.conductors) {
    if (c.kind == ConductorKind::finger || c.kind == ConductorKind::lead) continue;
    for (int t : {c.from, c.to}) {
      if (!own(t)) continue;
      const auto& terminal = w.terminals[at(t)];
      auto& h = holes[t];
      const bool first = h.id.empty();
      h.id = terminal.id;
      h.kind = kind_of_hole(box, terminal);
      h.count = Fact<units::Ratio>((first ? 0.0 : h.count->in(units::plain)) + 1.0, "wiring");
      if (c.wire.known())
        h.wire = Fact<units::Wire>(c.wire, c.run.empty() ? "job" : "run." + c.run);
      h.fine = fine_strands(w, c);
      if (!terminal.spec) continue;
      const std::string from = "part";
      h.least = Fact<units::WireSize>(terminal.spec->wire_min, from);
      h.most = Fact<units::WireSize>(terminal.spec->wire_max, from);
      h.fine_allowed = Fact<bool>(terminal.spec->fine_strands, from);
      h.torque = Fact<bool>(terminal.spec->torque.known(), from);
      if (terminal.spec->wires)
        h.may_hold = Fact<units::Ratio>(static_cast<double>(*terminal.spec->wires), from);
    }
  }
  std::vector<codebook::HoleFacts> all;
  for (auto& [t, h] : holes) all.push_back(std::move(h));
  return all;
}

void add_devices(const Wiring& w, const wiring::BoxCircuit& box, Facts& f) {
  units::Current sum;
  bool all = true;
  double spare = 0;
  std::string holds;
  bool marked = true, marks_known = true;
  for (int d : box.devices) {
    if (w.devices[at(d)].spare) {
      ++spare;
      continue;
    }
    const parts::Part* p = w.part_of(d);
    if (!p || !p->rating) {
      all = false;
    } else {
      sum += *p->rating;
    }
    if (!p || !p->kind) continue;
    holds = *choice(p->kind, "").value;
    if (*p->kind == parts::PartKind::fuse) {
      marks_known = marks_known && p->not_under_load.known();
      marked = marked && p->not_under_load.value.value_or(false);
    }
  }
  f.box.spare = Fact<units::Ratio>(spare, "box." + box.id);
  if (all) f.box.devices = Fact<units::Current>(sum, "box." + box.id);
  f.box.holds = Fact<std::string>(holds, "box." + box.id);
  if (holds == "fuse" && marks_known) f.box.holders_marked = Fact<bool>(marked, "box." + box.id);
}

}  // namespace

void add_boxes(const Wiring& w, std::vector<Judged>& all) {
  for (std::size_t b = 0; b < w.boxes.size(); ++b) {
    const auto& circuit = w.boxes[b];
    const job::Box* box = job::find(w.job.box, circuit.id);
    if (!box) continue;
    const std::string from = "box." + circuit.id;
    Judged j{{}, circuit.span};
    Facts& f = j.facts;
    f.subject = Subject::box;
    f.thing = circuit.id;
    add_site(w, f);
    const auto strings = strings_reaching(w, circuit);
    if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, f);
    add_parallel(w, strings, from, f);
    add_equipment(w, input_of_box(w, static_cast<int>(b)), f);
    f.place.access = choice(box->access, from);
    f.place.stands = choice(box->stands, from);
    f.place.depth = Fact<units::Length>(box->space.depth, from);
    f.place.width = Fact<units::Length>(box->space.width, from);
    f.place.height = Fact<units::Length>(box->space.height, from);
    f.place.opposite = choice(box->space.opposite, from);
    f.box.closed = Fact<bool>(box->closed, from);
    f.box.arrester = Fact<bool>(circuit.arrester >= 0, from);
    add_devices(w, circuit, f);
    f.box.holes = holes_of(w, circuit);
    if (const parts::Part* p = job::find(w.job.part, circuit.part)) {
      const std::string part = "part." + p->id;
      f.box.bus_rating = Fact<units::Current>(p->bus_rating, part);
      f.box.short_circuit = Fact<units::Current>(p->short_circuit, part);
      f.v_rated = Fact<units::Voltage>(p->v_dc, part);
      f.place.cover = choice(p->cover, part);
      if (p->outline && !p->outline->empty())
        f.place.own_width = Fact<units::Length>(p->outline->front(), part);
    }
    if (const parts::Part* a = w.part_of(circuit.arrester))
      f.box.v_arrester = Fact<units::Voltage>(a->v_dc, "part." + a->id);
    f.disconnect.given = Fact<bool>(box->disconnect.has_value(), from);
    if (box->disconnect) {
      f.disconnect.means = choice(box->disconnect->means, from);
      if (box->disconnect->part && !f.disconnect.means.known())
        f.disconnect.means = Fact<std::string>("device", from);
      if (box->disconnect->part)
        if (const parts::Part* p = job::find(w.job.part, *box->disconnect->part))
          f.load_break = Fact<bool>(p->load_break, "part." + p->id);
    }
    all.push_back(std::move(j));
  }
}

}  // namespace stringwright::check
