#include <algorithm>
#include <string>

#include "base/text.hpp"
#include "check/common.hpp"
#include "check/labels.hpp"
#include "job/find.hpp"

/// Every place at which a label may be due, with what decides whether it is.
namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using wiring::Wiring;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// An inverter with nothing behind it but the grid runs on utility power, said or not.
Fact<bool> grid_of(const Wiring& w) {
  if (w.job.site.grid) return Fact<bool>(w.job.site.grid, "site");
  bool inverters = !w.job.equipment.empty();
  for (const auto& e : w.job.equipment)
    inverters = inverters && e.kind && *e.kind == job::EquipmentKind::inverter && !e.battery;
  return inverters ? Fact<bool>(true, "an inverter without battery") : Fact<bool>{};
}

class Places {
 public:
  Places(const Wiring& w, const codebook::Edition& edition, std::vector<Judged>& all)
      : w_(w), edition_(edition), all_(all) {}

  /// A label at one place; null where the edition has none.
  Facts* add(const std::string& id, const std::string& thing, const std::string& place, Span span) {
    if (!codebook::has_label(id, edition_)) return nullptr;
    all_.push_back({{}, span});
    Facts& f = all_.back().facts;
    f.subject = Subject::label;
    f.thing = thing + ":" + id;
    f.label.id = id;
    f.label.place = place;
    f.label.fitted = Fact<bool>(w_.job.site.labels_fitted, "site");
    f.label.grid = grid_of(w_);
    // Two wires are all that the job file can say, so no array has two monopoles.
    f.label.bipolar = Fact<bool>(false, "wiring");
    add_site(w_, f);
    add_place(w_, f);
    f.grounding.pole = choice(w_.job.grounding.pole, "grounding");
    return &f;
  }

 private:
  const Wiring& w_;
  const codebook::Edition& edition_;
  std::vector<Judged>& all_;
};

std::string named(const Wiring& w, const wiring::InputCircuit& in) {
  if (in.protector < 0) return "the disconnect of " + in.id;
  const parts::Part* p = w.part_of(in.protector);
  return in.id + (p && p->title ? ", the " + *p->title : "");
}

bool holds_bare_fuses(const Wiring& w, const wiring::BoxCircuit& box, int& device) {
  for (const int d : box.devices) {
    const parts::Part* p = w.part_of(d);
    if (w.devices[at(d)].spare || !p) continue;
    const bool fuse = p->kind && *p->kind == parts::PartKind::fuse;
    if (!fuse && (!p->load_break || *p->load_break)) continue;
    device = d;
    return true;
  }
  return false;
}

void at_boxes(const Wiring& w, Places& places) {
  for (const auto& box : w.boxes) {
    places.add("raceway", box.id, "on the cover of " + box.id, box.span);
    places.add("iec-box", box.id, "on the cover of " + box.id, box.span);
    places.add("ungrounded", box.id, "on the cover of " + box.id, box.span);
    int device = -1;
    if (holds_bare_fuses(w, box, device))
      if (Facts* f = places.add("holder", box.id, "beside the fuse holders in " + box.id, box.span))
        add_device(w, device, *f);
  }
}

void at_runs(const Wiring& w, Places& places) {
  for (const auto& box : w.boxes) {
    if (box.out_plus < 0) continue;
    const auto& out = w.conductors[at(box.out_plus)];
    const std::string way =
        "along " + out.run +
        ", every 3 m (10 ft) and on each section between boxes, walls or floors";
    places.add("raceway", out.run, way, out.span);
    places.add("iec-route", out.run, "along " + out.run, out.span);
  }
}

void at_inputs(const Wiring& w, Places& places) {
  for (std::size_t i = 0; i < w.inputs.size(); ++i) {
    const auto& in = w.inputs[i];
    const auto strings = strings_at(w, in);
    if (strings.empty()) continue;
    const Span span = w.devices[at(in.device)].span;
    const std::string where = "on " + named(w, in);
    for (const auto* id :
         {"pv-disconnect", "line-load", "dc-values", "ungrounded", "iec-isolator"}) {
      Facts* f = places.add(id, in.id, where, span);
      if (!f) continue;
      if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, *f);
      add_parallel(w, strings, "wiring", *f);
      add_equipment(w, static_cast<int>(i), *f);
    }
    const int holder = in.protector;
    const parts::Part* p = holder >= 0 ? w.part_of(holder) : nullptr;
    if (p && ((p->kind && *p->kind == parts::PartKind::fuse) || !p->load_break.value_or(true)))
      if (Facts* f = places.add("holder", in.id, "beside the fuse holder at " + in.id, span))
        add_device(w, holder, *f);
  }
}

void at_equipment(const Wiring& w, Places& places) {
  for (const auto& e : w.job.equipment) {
    places.add("ground-fault", e.id, "on " + e.id + ", beside what shows a ground fault", e.span);
    const auto kind = e.kind.value_or(job::EquipmentKind::mppt_controller);
    if (kind == job::EquipmentKind::inverter)
      if (Facts* f = places.add("ac-values", e.id, "at the a.c. disconnect of " + e.id, e.span)) {
        f->label.ac_current = Fact<units::Current>(e.ac_current, "equipment." + e.id);
        f->label.ac_voltage = Fact<units::Voltage>(e.ac_voltage, "equipment." + e.id);
      }
    if (!e.battery) continue;
    places.add("ground-fault", e.id + ".battery", "at the battery", e.span);
    if (Facts* f = places.add("battery", e.id + ".battery",
                              "where the PV output meets the battery's conductors", e.span))
      f->v_battery_max = Fact<units::Voltage>(e.battery->v_max, "equipment." + e.id + ".battery");
  }
}

bool any_battery(const Wiring& w) {
  for (const auto& e : w.job.equipment)
    if (e.battery) return true;
  return false;
}

void at_the_building(const Wiring& w, Places& places) {
  const Span site = w.job.site.span;
  places.add("connector", "array", "on plugs that anyone can reach", site);
  places.add("bipolar", "array", "at the equipment", site);
  const Span shutdown = w.job.rapid_shutdown.span;
  const std::string door =
      "outside, at the service disconnect or where the fire service comes first";
  places.add("shutdown-plaque", "building", door, shutdown);
  places.add("shutdown-plaque-outside", "building", door, shutdown);
  places.add("shutdown-switch", "building", "on the switch that starts rapid shutdown", shutdown);
  if (any_battery(w))
    places.add("stand-alone", "building", "outside, where it is seen first", site);
  // Which of the two it is hangs on the same question, asked once.
  if (grid_of(w).known() || !any_battery(w))
    places.add("directory", "building", "at the service and at every source", site);
}

}  // namespace

void add_labels(const Wiring& w, const codebook::Edition& edition, std::vector<Judged>& all) {
  if (w.strings.empty()) return;
  Places places(w, edition, all);
  at_boxes(w, places);
  at_runs(w, places);
  at_inputs(w, places);
  at_equipment(w, places);
  at_the_building(w, places);
}

std::vector<LikeLabels> like_labels(const std::vector<codebook::LabelAnswer>& labels) {
  std::vector<LikeLabels> all;
  for (const auto& l : labels) {
    const auto same = std::find_if(all.begin(), all.end(), [&](const LikeLabels& x) {
      return x.first.label.id == l.label.id && x.first.label.lines == l.label.lines &&
             x.first.due.holds == l.due.holds;
    });
    if (same == all.end())
      all.push_back({l, {l.label.place}});
    else
      same->places.push_back(l.label.place);
  }
  return all;
}

std::string demands(const codebook::Label& label) {
  std::vector<std::string> all;
  if (label.letters) all.push_back("capitals, " + units::print(*label.letters) + " at least");
  if (!label.colours.empty()) all.push_back(label.colours);
  if (!label.asks.empty()) all.push_back(label.asks);
  return text::join(all, "; ");
}

std::string whose_words(const codebook::Label& label) {
  return label.prescribed == "yes"      ? "the code's words"
         : label.prescribed == "values" ? "values by the code, our words"
                                        : "our words";
}

std::vector<codebook::LabelAnswer> labels_due(const Wiring& w, const codebook::Edition& edition) {
  std::vector<Judged> all;
  add_labels(w, edition, all);
  std::vector<codebook::LabelAnswer> due;
  for (const auto& j : all) {
    trail::Trail aside;
    auto answer = codebook::label_of(j.facts, edition, aside);
    answer.label.thing = answer.label.thing.substr(0, answer.label.thing.rfind(':'));
    if (!answer.due.holds || *answer.due.holds) due.push_back(std::move(answer));
  }
  return due;
}

}  // namespace stringwright::check
