#include <algorithm>
#include <map>

#include "base/text.hpp"
#include "job/find.hpp"
#include "sheets/schedule/table.hpp"
#include "sheets/sheet.hpp"
#include "sheets/words.hpp"
#include "units/print.hpp"

/// Every conductor of the design once, then the devices, the modules and the runs.
namespace stringwright::sheets {
namespace {

using namespace draw;
using schedule::Tables;
using wiring::Conductor;
using wiring::ConductorKind;
using wiring::DeviceKind;
using wiring::Wiring;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

std::string sign(wiring::Pole p) {
  return p == wiring::Pole::plus ? "+" : p == wiring::Pole::minus ? "−" : "PE";
}

/// "A1 L1", "R1.1 + (S1.3)", "CC1.PV1 −": where a person finds the terminal; of a module its place on the
/// rack first, then its number in the string.
std::string place(const Wiring& w, int terminal) {
  if (terminal < 0) return "not known";
  const auto& t = w.terminals[at(terminal)];
  const auto& d = w.devices[at(t.device)];
  switch (d.kind) {
    case DeviceKind::diode:
    case DeviceKind::electronics:
      return d.id + " " + t.label;
    case DeviceKind::module:
      return plain(d.place) + " " + sign(t.pole) + " (" + d.id + ")";
    case DeviceKind::input:
    case DeviceKind::rack:
    case DeviceKind::bond:
      return d.id + " " + sign(t.pole);
    case DeviceKind::arrester:
      return d.owner + " " + d.label + " " + (t.pole == wiring::Pole::ground ? "E" : sign(t.pole));
    case DeviceKind::bar:
    case DeviceKind::protector:
      break;
  }
  const bool in_box =
      std::any_of(w.boxes.begin(), w.boxes.end(), [&](const auto& b) { return b.id == d.owner; });
  if (in_box) return d.owner + " " + (t.label.empty() ? d.label + ", finger" : t.label);
  return d.kind == DeviceKind::protector ? d.id + " " + t.label : d.owner + " " + t.label;
}

std::string torque_at(const Wiring& w, int terminal) {
  if (terminal < 0) return "";
  const auto& t = w.terminals[at(terminal)];
  const auto kind = w.devices[at(t.device)].kind;
  if (kind == DeviceKind::module || kind == DeviceKind::diode || kind == DeviceKind::electronics)
    return "plug";
  const auto q = torque(t.spec);
  return q ? q->newton_metres + " N·m (" + q->pound_force_inches + " lbf·in)" : "by marking";
}

std::string conditions(const Conductor& c) {
  std::vector<std::string> parts;
  parts.reserve(c.stretches.size());
  for (const auto& s : c.stretches) parts.push_back(stretch_words(s));
  return parts.empty() ? "not known" : text::join(parts, "; ");
}

void wire_sample(Canvas& c, Point p, const void* what) {
  sample(c, *static_cast<const Look*>(what), p, 9);
}

void conductor_row(Tables& t, const Wiring& w, const Conductor& c) {
  const Look shown = look(w, c);
  const bool bonded_metal = c.kind == ConductorKind::rack_bond;
  std::string pole = c.pole == wiring::Pole::ground ? "ground"
                     : c.pole == wiring::Pole::plus ? "plus"
                                                    : "minus";
  const std::string insulation = wiring::colour(w, c);
  if (!insulation.empty()) pole += ", " + insulation;
  const bool short_lead = c.kind == ConductorKind::arrester || bonded_metal;
  t.row({{c.tag, Weight::semibold, false, c.id},
         {place(w, c.from)},
         {place(w, c.to)},
         {pole},
         {wire_words(c), Weight::regular, !c.wire},
         {length_words(w.job, c.length), Weight::regular, !c.length},
         {short_lead && c.stretches.empty()
              ? (bonded_metal ? "rack to box" : "in the box, short and straight")
              : conditions(c),
          Weight::regular, c.stretches.empty() && !short_lead},
         {torque_at(w, c.from)},
         {torque_at(w, c.to)}},
        12, wire_sample, &shown);
}

void conductors(Tables& t, const Wiring& w) {
  t.begin("Conductors", {{"Tag", 32},
                         {"From", 34},
                         {"To", 34},
                         {"Pole, colour", 34},
                         {"Wire", 40},
                         {"Length, one way", 40, Align::right},
                         {"Method and conditions", 96},
                         {"Torque, from", 39},
                         {"to", 38}});
  const std::pair<ConductorKind, const char*> groups[] = {
      {ConductorKind::home_run, "Home runs"},
      {ConductorKind::output, "Outputs"},
      {ConductorKind::equipment_ground, "Equipment grounds"},
      {ConductorKind::rack_bond, "Bonds of the rack"},
      {ConductorKind::arrester, "Arrester leads"}};
  for (const auto& [kind, words] : groups) {
    bool headed = false;
    for (const auto& c : w.conductors) {
      if (c.kind != kind) continue;
      if (!headed) t.group(words);
      headed = true;
      conductor_row(t, w, c);
    }
  }
}

/// The modules that a row of leads joins, from the minus end: "R1.3, R1.2, R1.1".
std::string order(const Wiring& w, const std::vector<const Conductor*>& leads) {
  std::vector<std::string> all;
  const auto standing = [&](int terminal) {
    return plain(w.devices[at(w.terminals[at(terminal)].device)].place);
  };
  all.push_back(standing(leads.front()->from));
  for (const Conductor* c : leads)
    if (w.devices[at(w.terminals[at(c->to)].device)].kind == DeviceKind::module)
      all.push_back(standing(c->to));
  return listed(all);
}

/// Leads of modules and fingers of buses: no one makes them up, so alike ones share a row.
void shared_rows(Tables& t, const Wiring& w) {
  std::vector<std::pair<std::string, std::vector<const Conductor*>>> leads, fingers;
  const auto add = [](auto& list, const std::string& key, const Conductor& c) {
    auto it = std::find_if(list.begin(), list.end(), [&](const auto& e) { return e.first == key; });
    if (it == list.end()) it = list.insert(list.end(), {key, {}});
    it->second.push_back(&c);
  };
  for (const auto& c : w.conductors) {
    if (c.from < 0) continue;
    const auto& d = w.devices[at(w.terminals[at(c.from)].device)];
    if (c.kind == ConductorKind::lead) {
      std::string string_id = c.id.substr(0, c.id.rfind('.'));
      add(leads, string_id, c);
    } else if (c.kind == ConductorKind::finger) {
      // Only what ends in the same bar is alike: links to different things never share a row.
      const auto& to = w.devices[at(w.terminals[at(c.to)].device)];
      add(fingers,
          (d.owner.empty() ? d.id : d.owner) +
              (to.kind == DeviceKind::bar ? " " + to.label : ", " + c.id),
          c);
    }
  }
  if (leads.empty() && fingers.empty()) return;
  t.begin("Joined without a wire of ours",
          {{"What", 60}, {"Count", 18, Align::right}, {"From", 60}, {"To", 60}, {"How", 120}});
  const auto ends = [&](const std::vector<const Conductor*>& list) {
    std::vector<std::string> all;
    for (const Conductor* c : list) all.push_back(place(w, c->from));
    return listed(all);
  };
  for (const auto& [key, list] : leads)
    t.row({{"Module leads of " + key, Weight::semibold},
           {std::to_string(list.size())},
           {list.size() == 1 ? place(w, list.front()->from) : "+ of each module but the last"},
           {list.size() == 1 ? place(w, list.front()->to) : "− of the next one"},
           {"own leads, plug to plug, in this order: " + order(w, list)}});
  for (const auto& [key, list] : fingers)
    t.row({{"Bus fingers and links in " + key, Weight::semibold},
           {std::to_string(list.size())},
           {ends(list)},
           {list.size() == 1 ? place(w, list.front()->to) : "the bar, a finger each"},
           {"metal of the bus or link inside the equipment"}});
}

std::string amount(const Given<units::Current>& v) {
  return v ? text::shortest(v->in(units::amps), 5) + " A" : "not known";
}
std::string amount(const Given<units::Voltage>& v) {
  return v ? text::shortest(v->in(units::volts), 5) + " V" : "not known";
}
std::string yes_no(const Given<bool>& v) { return !v ? "not known" : *v ? "yes" : "no"; }

void devices(Tables& t, const Wiring& w) {
  t.begin("Devices", {{"Where", 62},
                      {"Part", 44},
                      {"What it is", 80},
                      {"Rated", 26, Align::right},
                      {"Volts", 34, Align::right},
                      {"Poles used", 26, Align::right},
                      {"Opens under load", 38},
                      {"Either way", 30},
                      {"Interrupts", 30, Align::right}});
  struct Alike {
    std::string owner, part;
    int poles;
    bool spare;
    std::vector<std::string> labels;
    int first;
  };
  std::vector<Alike> list;
  for (std::size_t i = 0; i < w.devices.size(); ++i) {
    const auto& d = w.devices[i];
    if (d.kind != DeviceKind::protector && d.kind != DeviceKind::arrester) continue;
    auto it = std::find_if(list.begin(), list.end(), [&](const Alike& a) {
      return a.owner == d.owner && a.part == d.part && a.poles == d.poles && a.spare == d.spare &&
             w.devices[at(a.first)].kind == d.kind;
    });
    // Equipment has one device at each input; its own id tells which.
    const bool in_box =
        std::any_of(w.boxes.begin(), w.boxes.end(), [&](const auto& b) { return b.id == d.owner; });
    if (it == list.end() || !in_box)
      it = list.insert(list.end(), {d.owner, d.part, d.poles, d.spare, {}, static_cast<int>(i)});
    it->labels.push_back(in_box ? d.label : d.id);
  }
  for (const auto& a : list) {
    const auto& d = w.devices[at(a.first)];
    const parts::Part* part = w.part_of(a.first);
    const bool in_box = a.labels.front() != d.id;
    const std::string where = (in_box ? a.owner + " " : "") + listed(a.labels);
    if (a.spare) {
      t.row({{where, Weight::semibold}, {"spare place", Weight::regular, true}});
      continue;
    }
    if (!part) {
      t.row({{where, Weight::semibold},
             {d.part.empty() ? "not known" : plain(d.part), Weight::regular, true},
             {"not known", Weight::regular, true}});
      continue;
    }
    const bool arrester = d.kind == DeviceKind::arrester;
    t.row({{where, Weight::semibold},
           {plain(part->id)},
           {plain(part->title.value_or(device_word(part)))},
           {arrester ? "" : amount(part->rating)},
           {part->v_dc_pole ? amount(part->v_dc_pole) + " a pole" : amount(part->v_dc)},
           {arrester ? "" : std::to_string(a.poles)},
           {arrester ? "" : yes_no(part->load_break)},
           {arrester           ? ""
            : !part->polarised ? "not known"
            : *part->polarised ? "no"
                               : "yes"},
           {arrester          ? ""
            : part->interrupt ? text::shortest(part->interrupt->in(units::kiloamps), 4) + " kA"
                              : "not known"}});
  }
}

void modules(Tables& t, const Wiring& w) {
  std::map<std::string, int> counts;
  for (const auto& d : w.devices)
    if (d.kind == DeviceKind::module) ++counts[d.part];
  if (counts.empty()) return;
  t.begin("Modules", {{"Module", 62},
                      {"Count", 22, Align::right},
                      {"Power", 30, Align::right},
                      {"Voc", 30, Align::right},
                      {"Vmp", 30, Align::right},
                      {"Isc", 30, Align::right},
                      {"Imp", 30, Align::right},
                      {"Series fuse, most", 42, Align::right},
                      {"System voltage, most", 48, Align::right}});
  for (const auto& m : w.job.module) {
    const auto it = counts.find(m.id);
    if (it == counts.end()) continue;
    t.row({{plain(m.id), Weight::semibold},
           {std::to_string(it->second)},
           {m.p_max ? text::shortest(m.p_max->in(units::watts), 5) + " W" : "not known"},
           {amount(m.v_oc)},
           {amount(m.v_mp)},
           {amount(m.i_sc)},
           {amount(m.i_mp)},
           {amount(m.fuse_max)},
           {amount(m.v_sys)}});
  }
}

void runs(Tables& t, const Wiring& w) {
  if (w.job.run.empty()) return;
  t.begin("Runs", {{"Run", 32},
                   {"Stretch", 20, Align::right},
                   {"Method", 40},
                   {"Size", 34},
                   {"Length", 46, Align::right},
                   {"Bends", 24, Align::right},
                   {"Buried", 26, Align::right},
                   {"Above roof", 28, Align::right},
                   {"Ambient", 60},
                   {"Current-carrying", 40, Align::right}});
  for (const auto& run : w.job.run) {
    const auto it = std::find_if(w.conductors.begin(), w.conductors.end(),
                                 [&](const auto& c) { return c.run == run.id; });
    if (it == w.conductors.end() || it->stretches.empty()) {
      t.row({{plain(run.id), Weight::semibold}, {""}, {"not known", Weight::regular, true}});
      continue;
    }
    int n = 0;
    for (const auto& s : it->stretches) {
      double bends = 0;
      for (const auto& b : s.bends) bends += b.in(units::degrees);
      const auto millimetres = [](const std::optional<units::Length>& l) {
        return l ? text::shortest(l->in(units::millimetres), 5) + " mm" : std::string();
      };
      std::string ambient = s.ambient ? units::print(*s.ambient) : "not known";
      if (s.ambient && !s.ambient_from.empty()) ambient += " (" + s.ambient_from + ")";
      ++n;
      t.row({{n == 1 ? plain(run.id) : "", Weight::semibold},
             {std::to_string(n)},
             {s.in.empty() ? "not known" : s.in, Weight::regular, s.in.empty()},
             {s.size          ? s.size->print()
              : s.size.choose ? "to be chosen"
                              : "",
              Weight::regular, !s.size},
             {s.length.si() > 0 ? length_words(w.job, s.length) : "not known"},
             {s.bends.empty() ? "" : text::fixed(bends, 0) + " °"},
             {millimetres(s.buried)},
             {millimetres(s.above_roof)},
             {ambient},
             {s.wires ? std::to_string(*s.wires) : ""}});
    }
  }
}

/// Fails of things on this schedule that somebody accepts: who reads the wire reads that too.
void waived(Tables& t, const check::Report& report) {
  bool headed = false;
  for (const auto& f : report.findings) {
    if (!f.waived) continue;
    if (!headed)
      t.begin("Waived: these fail, and somebody answers for it", {{"Thing", 40},
                                                                  {"What fails", 92},
                                                                  {"By how much", 96},
                                                                  {"Accepted because", 100},
                                                                  {"By", 34},
                                                                  {"Date", 25}});
    headed = true;
    const auto said = [](const auto& text) {
      return text ? plain(*text) : std::string("not said");
    };
    t.row({{plain(f.thing), Weight::semibold},
           {f.title},
           {f.outcome.so},
           {said(f.waived->reason)},
           {said(f.waived->by)},
           {said(f.waived->date)}});
  }
}

std::vector<Paper> make(const Material& m) {
  Tables t("Conductor schedule");
  conductors(t, m.wiring);
  devices(t, m.wiring);
  modules(t, m.wiring);
  runs(t, m.wiring);
  shared_rows(t, m.wiring);
  waived(t, m.report);
  return {{"schedule", "Conductor schedule", t.take()}};
}

}  // namespace

extern const Sheet schedule_sheet{"schedule", "Conductor schedule", make};

}  // namespace stringwright::sheets
