#include <string>

#include "check/common.hpp"
#include "job/find.hpp"

/// What isolates each box, each input and the PV system, as far as the job says.
namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using wiring::Wiring;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

void add_part_of(const parts::Part& p, int poles, Facts& f) {
  const std::string from = "part." + p.id;
  f.rating = Fact<units::Current>(p.rating, from);
  f.v_dc_pole = Fact<units::Voltage>(p.v_dc_pole, from);
  f.poles = Fact<units::Ratio>(static_cast<double>(poles), "job");
  f.interrupt = Fact<units::Current>(p.interrupt, from);
  f.load_break = Fact<bool>(p.load_break, from);
  f.continuous_100 = Fact<bool>(p.continuous_100.value_or(false), from);
  f.disconnect.lockable = Fact<bool>(p.lockable, from);
  f.place.cover = choice(p.cover, from);
  if (p.not_under_load) f.disconnect.not_under_load = Fact<bool>(p.not_under_load, from);
}

/// @param device  the input's own device (index into w.devices), which stands in where no part is named
void fill(const Wiring& w, const job::Disconnect& d, int device, const std::string& from,
          Facts& f) {
  auto& to = f.disconnect;
  to.given = Fact<bool>(true, from, d.span);
  to.means = choice(d.means, from);
  to.opens = choice(d.opens, from);
  to.side = choice(d.side, from);
  to.distance = Fact<units::Length>(d.distance, from);
  to.in_sight = Fact<bool>(d.in_sight, from);
  to.by_hand = Fact<bool>(d.by_hand, from);
  to.not_under_load = Fact<bool>(d.not_under_load, from);
  if (d.handles) to.handles = Fact<units::Ratio>(static_cast<double>(*d.handles), from);
  f.place.access = choice(d.access, from);
  f.place.stands = choice(d.stands, from);
  f.place.handle = Fact<units::Length>(d.handle, from);
  f.place.depth = Fact<units::Length>(d.space.depth, from);
  f.place.width = Fact<units::Length>(d.space.width, from);
  f.place.height = Fact<units::Length>(d.space.height, from);
  f.place.opposite = choice(d.space.opposite, from);
  const parts::Part* p = d.part ? job::find(w.job.part, *d.part) : w.part_of(device);
  if (p) {
    const bool own = d.part.known() && !(device >= 0 && w.devices[at(device)].part == p->id);
    add_part_of(*p, d.poles.value_or(own ? 1 : w.devices[at(device)].poles), f);
    to.own = Fact<bool>(own, from);
    if (!to.means.known()) to.means = Fact<std::string>("device", from);
  }
  if (to.means.known() && *to.means == "plugs") {
    if (!to.opens.known()) to.opens = Fact<std::string>("both", "plugs of both ends");
    f.load_break = {};
    to.not_under_load = Fact<bool>(d.not_under_load, from);
  }
}

/// Plugs say in their own record whether they may be parted under load.
void add_plugs(const Wiring& w, const std::vector<int>& strings, Facts& f) {
  if (!f.disconnect.means.known() || *f.disconnect.means != "plugs") return;
  bool breaks = true, marked = true;
  for (int s : strings)
    for (int m : w.strings[at(s)].modules) {
      const auto& family = w.module_of(m).family;
      const job::Connector* c = family ? job::find(w.job.connector, *family) : nullptr;
      if (!c || !c->load_break) return;
      breaks = breaks && *c->load_break;
      marked = marked && c->not_under_load.value_or(false);
    }
  f.load_break = Fact<bool>(breaks, "connector");
  if (!f.disconnect.not_under_load.known() && marked)
    f.disconnect.not_under_load = Fact<bool>(true, "connector");
}

Judged start(const Wiring& w, const std::vector<int>& strings, const char* of,
             const std::string& thing, Span span) {
  Judged j{{}, span};
  j.facts.subject = Subject::disconnect;
  j.facts.thing = thing;
  j.facts.disconnect.of = of;
  j.facts.disconnect.given = Fact<bool>(false, "job");
  add_site(w, j.facts);
  if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, j.facts);
  add_parallel(w, strings, "wiring", j.facts);
  return j;
}

}  // namespace

void add_disconnects(const Wiring& w, std::vector<Judged>& all) {
  for (std::size_t b = 0; b < w.boxes.size(); ++b) {
    const auto& circuit = w.boxes[b];
    const job::Box* box = job::find(w.job.box, circuit.id);
    if (!box) continue;
    const auto strings = strings_reaching(w, circuit);
    Judged j = start(w, strings, "box", circuit.id + ".disconnect", circuit.span);
    add_equipment(w, input_of_box(w, static_cast<int>(b)), j.facts);
    j.facts.disconnect.box_stands = choice(box->stands, "box." + box->id);
    if (box->disconnect) {
      fill(w, *box->disconnect, -1, "box." + box->id + ".disconnect", j.facts);
      add_plugs(w, strings, j.facts);
      j.span = box->disconnect->span;
    }
    all.push_back(std::move(j));
  }
  for (std::size_t i = 0; i < w.inputs.size(); ++i) {
    const auto& circuit = w.inputs[i];
    const auto strings = strings_at(w, circuit);
    if (strings.empty()) continue;
    const job::Equipment* e = job::find(w.job.equipment, circuit.equipment);
    const job::Input* in = e ? job::find(e->input, circuit.input) : nullptr;
    if (!in) continue;
    Judged j = start(w, strings, "input", circuit.id + ".disconnect", in->span);
    add_equipment(w, static_cast<int>(i), j.facts);
    const std::string from = "equipment." + circuit.id;
    if (in->disconnect) {
      fill(w, *in->disconnect, circuit.protector, from + ".disconnect", j.facts);
      j.span = in->disconnect->span;
    } else if (circuit.protector >= 0) {
      // The input's device alone: what it opens is in the wiring, where it stands is not said.
      job::Disconnect d;
      d.span = in->device.span;
      fill(w, d, circuit.protector, from, j.facts);
    }
    // An input's own device opens the poles that carry devices.
    if (j.facts.disconnect.given.value.value_or(false) && !j.facts.disconnect.opens.known() &&
        !j.facts.disconnect.own.value.value_or(false) && circuit.protector >= 0)
      j.facts.disconnect.opens = choice(w.job.grounding.devices_in, "grounding");
    all.push_back(std::move(j));
  }
  for (std::size_t i = 0; i < w.inputs.size(); ++i) {
    // One system disconnect a piece of equipment, at its first input that strings reach.
    const auto& circuit = w.inputs[i];
    const auto strings = strings_at(w, circuit);
    bool first = !strings.empty();
    for (std::size_t k = 0; k < i; ++k)
      first = first &&
              (w.inputs[k].equipment != circuit.equipment || strings_at(w, w.inputs[k]).empty());
    const job::Equipment* e = job::find(w.job.equipment, circuit.equipment);
    if (!first || !e) continue;
    Judged j = start(w, strings, "system", e->id + ".system", e->span);
    add_equipment(w, static_cast<int>(i), j.facts);
    j.facts.behind.kind = choice(e->kind, "equipment." + e->id);
    if (e->output)
      j.facts.behind.i_out = Fact<units::Current>(e->output->i_max, "equipment." + e->id);
    if (e->system_disconnect) {
      fill(w, *e->system_disconnect, -1, "equipment." + e->id + ".system_disconnect", j.facts);
      j.span = e->system_disconnect->span;
    }
    all.push_back(std::move(j));
  }
}

}  // namespace stringwright::check
