#include "check/facts.hpp"

#include <algorithm>
#include <string>

#include "base/text.hpp"
#include "check/common.hpp"
#include "check/laid_facts.hpp"
#include "check/parallel_facts.hpp"
#include "codebook/methods/drop.hpp"
#include "job/find.hpp"

namespace stringwright::check {
namespace {

using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using wiring::Wiring;

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// The light on the rear side of every module is known, or there is none.
bool rear_known(const Wiring& w, int string) {
  const auto& modules = w.strings[at(string)].modules;
  return std::all_of(modules.begin(), modules.end(),
                     [&](int d) { return w.devices[at(d)].rear_gain.has_value(); });
}

}  // namespace

/// The highest short-circuit current that one of its modules is said to give, rear side included.
units::Current i_sc_of(const Wiring& w, int string) {
  units::Current most;
  for (int d : w.strings[at(string)].modules)
    most = units::max(
        most, w.devices[at(d)].rear_gain.value_or(units::Ratio(1.0)) * *w.module_of(d).i_sc);
  return most;
}

namespace {

/// What the string's weakest module lets through at the maximum power point.
units::Current i_mp_of(const Wiring& w, int string) {
  std::optional<units::Current> least;
  for (int d : w.strings[at(string)].modules) {
    const units::Current i = *w.module_of(d).i_mp;
    least = least ? units::min(*least, i) : i;
  }
  return least.value_or(units::Current{});
}

std::string make_up(const Wiring& w, int string) {
  std::string s;
  for (int d : w.strings[at(string)].modules) s += w.devices[at(d)].part + " ";
  return s;
}

std::vector<codebook::SeriesGroup> series_of(const Wiring& w, int string) {
  std::vector<codebook::SeriesGroup> groups;
  std::vector<std::string> ids;
  for (int d : w.strings[at(string)].modules) {
    const parts::Module& m = w.module_of(d);
    const auto known = std::find(ids.begin(), ids.end(), m.id);
    if (known != ids.end()) {
      auto& count = groups[static_cast<std::size_t>(known - ids.begin())].count;
      count.value = *count.value + units::Ratio(1.0);
      continue;
    }
    ids.push_back(m.id);
    const std::string from = "module." + m.id;
    codebook::SeriesGroup g;
    g.count = Fact<units::Ratio>(1.0, "string." + w.strings[at(string)].id);
    g.v_oc = Fact<units::Voltage>(m.v_oc, from);
    g.v_mp = Fact<units::Voltage>(m.v_mp, from);
    if (m.b_voc) g.b_voc = Fact<units::PerKelvin>(m.b_voc->per_kelvin(*m.v_oc), from, m.b_voc.span);
    if (m.b_vmp) {
      g.b_vmp = Fact<units::PerKelvin>(m.b_vmp->per_kelvin(*m.v_mp), from, m.b_vmp.span);
    } else if (m.g_pmp) {
      // Power falls faster with heat than voltage does, so its coefficient errs on the safe side.
      const units::Power p = m.p_max ? *m.p_max : *m.v_mp * *m.i_mp;
      g.b_vmp =
          Fact<units::PerKelvin>(m.g_pmp->per_kelvin(p), from + " (that of power)", m.g_pmp.span);
    }
    groups.push_back(g);
  }
  return groups;
}

/// The maker's factor on a rating at a temperature: between two points on the straight line, below the
/// first that point's, above the last not known.
std::optional<units::Ratio> derating_at(const parts::Part& p, units::Temperature t) {
  const auto& points = p.derating;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (!points[i].ambient || !points[i].factor) return {};
    if (t > *points[i].ambient) continue;
    if (i == 0) return *points[i].factor;
    const auto& low = points[i - 1];
    const double share = (t - *low.ambient) / (*points[i].ambient - *low.ambient);
    return *low.factor + share * (*points[i].factor - *low.factor);
  }
  return {};
}

units::Power power_of(const Wiring& w) {
  units::Power all;
  for (const auto& s : w.strings)
    for (int d : s.modules) {
      const parts::Module& m = w.module_of(d);
      all += m.p_max ? *m.p_max : *m.v_mp * *m.i_mp;
    }
  return all;
}

}  // namespace

void add_site(const Wiring& w, Facts& f) {
  const auto& s = w.job.site;
  f.t_min = Fact<units::Temperature>(s.t_min, "site");
  f.t_record = Fact<units::Temperature>(s.t_record, "site");
  f.t_hot = Fact<units::Temperature>(s.t_hot, "site");
  f.rise = Fact<units::TemperatureDifference>(s.rise, "site");
  f.dwelling = Fact<bool>(s.dwelling, "site");
  f.on_building = Fact<bool>(s.on_building, "site");
  const auto method = w.job.job.voltage_by.value_or(job::VoltageMethod::coefficient);
  f.voltage_by = Fact<std::string>(
      method == job::VoltageMethod::coefficient ? "coefficient" : "table",
      w.job.job.voltage_by ? "job" : "left out: coefficient", w.job.job.voltage_by.span);
  if (w.job.grounding.scheme) {
    const auto scheme = *w.job.grounding.scheme;
    f.scheme = Fact<std::string>(scheme == job::Scheme::functional ? "functional"
                                 : scheme == job::Scheme::solid    ? "solid"
                                                                   : "ungrounded",
                                 "grounding", w.job.grounding.scheme.span);
  }
  if (w.job.grounding.pole)
    f.marks.pole =
        Fact<std::string>(*w.job.grounding.pole == job::Pole::plus ? "plus" : "minus", "grounding");
  const auto& g = w.job.grounding;
  f.grounded_pole = choice(g.pole, "grounding");
  f.devices_in = choice(g.devices_in, "grounding");
  // Two wires are what the wiring draws: a job that says nothing of a second half has none.
  f.bipolar =
      Fact<bool>(g.bipolar.value_or(false), g.bipolar ? "grounding" : "wiring", g.bipolar.span);
  f.apart = Fact<bool>(g.apart, "grounding");
  f.study.given = Fact<bool>(w.job.study.has_value(), "job");
  if (w.job.study) {
    const auto& study = *w.job.study;
    f.study.v_max = Fact<units::Voltage>(study.v_max, "study");
    f.study.i_string = Fact<units::Current>(study.i_string, "study");
    f.study.by = Fact<std::string>(study.by, "study");
    f.study.licence = Fact<std::string>(study.licence, "study");
    f.study.method = Fact<std::string>(study.method, "study");
    f.study.power = Fact<units::Power>(power_of(w), "sum of the modules");
  }
}

/// What all strings give together can be said.
bool countable(const Wiring& w, const std::vector<int>& strings);

/// Units that give other volts and amperes than their modules: what the modules' sheet says of voltage and
/// current then says nothing of the string.
bool converts(const Wiring& w, int string) {
  const auto& units = w.strings[at(string)].electronics;
  return std::any_of(units.begin(), units.end(), [&](int d) {
    const parts::Part* p = w.part_of(d);
    return !p || !p->does || *p->does == parts::ElectronicsKind::converter;
  });
}

bool countable(const Wiring& w, const std::vector<int>& strings) {
  return std::none_of(strings.begin(), strings.end(),
                      [&](int s) { return converts(w, s) || !rear_known(w, s); });
}

void add_label(const Wiring& w, int string, Facts& f);

void add_string(const Wiring& w, int string, Facts& f) {
  const auto& s = w.strings[at(string)];
  if (converts(w, string)) {
    add_label(w, string, f);
    return;
  }
  f.series = series_of(w, string);
  if (rear_known(w, string)) {
    double gain = 1;
    for (int d : s.modules) gain = std::max(gain, w.devices[at(d)].rear_gain->in(units::plain));
    f.i_sc = Fact<units::Current>(
        i_sc_of(w, string),
        "string." + s.id +
            (gain > 1 ? ", rear side " + text::fixed(100 * (gain - 1), 1) + " %" : std::string()));
  }
  f.i_mp = Fact<units::Current>(i_mp_of(w, string), "string." + s.id);
  add_label(w, string, f);
}

/// What the label of the string's modules allows.
void add_label(const Wiring& w, int string, Facts& f) {
  const auto& s = w.strings[at(string)];
  std::optional<units::Current> fuse;
  std::optional<units::Voltage> v_sys;
  bool fuses_known = true;
  bool volts_known = true;
  std::string from;
  for (int d : s.modules) {
    const auto& m = w.module_of(d);
    from = "module." + m.id;
    if (m.fuse_max) fuse = fuse ? units::min(*fuse, *m.fuse_max) : *m.fuse_max;
    if (m.v_sys) v_sys = v_sys ? units::min(*v_sys, *m.v_sys) : *m.v_sys;
    fuses_known = fuses_known && m.fuse_max.known();
    volts_known = volts_known && m.v_sys.known();
  }
  if (fuse && fuses_known) f.fuse_max = Fact<units::Current>(*fuse, from);
  if (v_sys && volts_known) f.v_sys = Fact<units::Voltage>(*v_sys, from);
}

/// Every string that stands in parallel with others at an input, through any number of boxes.
std::vector<int> strings_at(const Wiring& w, const wiring::InputCircuit& in) {
  std::vector<int> all = in.strings;
  for (int b : in.boxes) {
    const auto more = strings_reaching(w, w.boxes[at(b)]);
    all.insert(all.end(), more.begin(), more.end());
  }
  return all;
}

int input_of_box(const Wiring& w, int box) {
  for (int guard = 0; box >= 0 && guard <= static_cast<int>(w.boxes.size()); ++guard) {
    if (w.boxes[at(box)].lands_input >= 0) return w.boxes[at(box)].lands_input;
    box = w.boxes[at(box)].lands_box;
  }
  return -1;
}

int input_of_string(const Wiring& w, int string) {
  const int box = w.strings[at(string)].box;
  if (box >= 0) return input_of_box(w, box);
  for (std::size_t i = 0; i < w.inputs.size(); ++i) {
    const auto& here = w.inputs[i].strings;
    if (std::find(here.begin(), here.end(), string) != here.end()) return static_cast<int>(i);
  }
  return -1;
}

namespace {

/// Sum of a current over strings.
template <class F>
units::Current total(const std::vector<int>& strings, F current) {
  units::Current sum;
  for (int s : strings) sum += current(s);
  return sum;
}

}  // namespace

void add_parallel(const Wiring& w, const std::vector<int>& strings, const std::string& from,
                  Facts& f) {
  if (!countable(w, strings)) return;
  f.strings = Fact<units::Ratio>(static_cast<double>(strings.size()), from);
  f.i_sc_total = Fact<units::Current>(total(strings, [&](int s) { return i_sc_of(w, s); }), from);
  f.i_mp_total = Fact<units::Current>(total(strings, [&](int s) { return i_mp_of(w, s); }), from);
}

void add_equipment(const Wiring& w, int input, Facts& f) {
  if (input < 0) return;
  const auto& circuit = w.inputs[at(input)];
  const job::Equipment* e = job::find(w.job.equipment, circuit.equipment);
  const job::Input* in = e ? job::find(e->input, circuit.input) : nullptr;
  if (!in) return;
  const std::string from = "equipment." + circuit.id;
  f.v_max_input = Fact<units::Voltage>(in->v_max, from);
  f.v_operating_min = Fact<units::Voltage>(in->v_operating_min, from);
  f.v_start = Fact<units::Voltage>(in->v_start, from);
  f.isc_max_input = Fact<units::Current>(in->isc_max, from);
  f.i_rated_input = Fact<units::Current>(in->i_max, from);
  f.blocks_reverse = Fact<bool>(e->blocks_reverse, "equipment." + e->id);
  f.isolated = Fact<bool>(e->isolated, "equipment." + e->id);
  // A charge controller has a battery behind it, written down or not: only its absence from an inverter
  // or a pump drive says that there is none.
  const auto kind = e->kind.value_or(job::EquipmentKind::mppt_controller);
  const bool controller =
      kind == job::EquipmentKind::mppt_controller || kind == job::EquipmentKind::pwm_controller;
  if (e->battery || !controller)
    f.battery = Fact<bool>(e->battery.has_value(), "equipment." + e->id);
  if (e->battery) {
    f.v_battery_max = Fact<units::Voltage>(e->battery->v_max, "equipment." + e->id + ".battery");
    f.battery_fault =
        Fact<units::Current>(e->battery->fault_current, "equipment." + e->id + ".battery");
  }
}

void add_device(const Wiring& w, int device, Facts& f) {
  f.fitted = Fact<bool>(device >= 0, "job");
  if (device < 0) return;
  const auto& d = w.devices[at(device)];
  const parts::Part* p = w.part_of(device);
  f.fitted = Fact<bool>(!d.part.empty(), "job", d.span);
  f.poles = Fact<units::Ratio>(static_cast<double>(d.poles), d.owner, d.span);
  if (!p) return;
  const std::string from = "part." + p->id;
  f.rating = Fact<units::Current>(p->rating, from);
  f.v_dc_pole = Fact<units::Voltage>(p->v_dc_pole, from);
  f.polarised = Fact<bool>(p->polarised, from);
  f.load_break = Fact<bool>(p->load_break, from);
  f.continuous_100 = Fact<bool>(p->continuous_100.value_or(false), from);
  f.interrupt = Fact<units::Current>(p->interrupt, from);
  const job::Box* box = job::find(w.job.box, d.owner);
  if (!box) {
    f.place.stands = Fact<std::string>("indoors", "beside " + d.owner);
  } else if (box->t_inside) {
    f.t_inside = Fact<units::Temperature>(box->t_inside, "box." + box->id);
    if (const auto k = derating_at(*p, *box->t_inside)) f.derating = Fact<units::Ratio>(*k, from);
  }
  // With devices in both poles each pole of the device stands in its own conductor.
  const auto& g = w.job.grounding;
  if (g.devices_in && *g.devices_in == job::DevicesIn::both && d.poles >= 2)
    f.poles.value = d.poles / 2.0;
}

namespace {

std::optional<units::Temperature> lowest_rating(const Wiring& w,
                                                const std::vector<int>& terminals) {
  std::optional<units::Temperature> lowest;
  for (int t : terminals) {
    if (t < 0) return {};
    const auto& spec = w.terminals[at(t)].spec;
    if (!spec || !spec->rated) return {};
    lowest = lowest ? std::min(*lowest, *spec->rated) : *spec->rated;
  }
  return lowest;
}

codebook::StretchFacts stretch_facts(const wiring::Stretch& s, const std::string& from) {
  codebook::StretchFacts f;
  if (!s.in.empty()) f.method = Fact<std::string>(s.in, from, s.span);
  if (s.ambient) f.ambient = Fact<units::Temperature>(*s.ambient, s.ambient_from, s.span);
  f.above_roof = s.above_roof;
  if (s.wires) f.wires = Fact<units::Ratio>(static_cast<double>(*s.wires), from, s.span);
  f.raceways = Fact<units::Ratio>(static_cast<double>(s.raceways), from, s.span);
  f.length = Fact<units::Length>(s.length, from, s.span);
  f.inside = Fact<bool>(s.said.inside, from);
  return f;
}

/// Wire, lengths and conditions of a pair of conductors; the pair's one-way length is the mean of both.
void add_pair(const Wiring& w, int plus, int minus, const std::string& from, Facts& f) {
  const auto& p = w.conductors[at(plus)];
  const auto& m = w.conductors[at(minus)];
  f.wire = Fact<units::Wire>(p.wire, from);
  f.wires_per_pole = Fact<units::Ratio>(static_cast<double>(p.parallel), from);
  if (p.length && m.length) f.length = Fact<units::Length>(0.5 * (*p.length + *m.length), from);
  for (const auto& s : p.stretches) f.stretches.push_back(stretch_facts(s, from));
  f.hot_rating = Fact<units::Temperature>(p.marks.rated, from);
  if (!p.colour.empty()) f.marks.plus = Fact<std::string>(p.colour, from);
  if (!m.colour.empty()) f.marks.minus = Fact<std::string>(m.colour, from);
}

/// @param part  of the home run, from the string on; the last one lands
Judged string_facts(const Wiring& w, int i, std::size_t part) {
  const auto& s = w.strings[at(i)];
  Judged j{{}, s.span};
  Facts& f = j.facts;
  f.subject = Subject::string_circuit;
  const bool last = part + 1 >= s.plus_path.size();
  f.thing = s.id + (last ? "" : "/" + std::to_string(part + 1));
  add_site(w, f);
  add_string(w, i, f);
  const int input = input_of_string(w, i);
  if (input >= 0) {
    auto others = strings_at(w, w.inputs[at(input)]);
    add_parallel(w, others, "wiring", f);
    others.erase(std::remove(others.begin(), others.end(), i), others.end());
    if (countable(w, others))
      f.i_sc_others =
          Fact<units::Current>(total(others, [&](int o) { return i_sc_of(w, o); }), "wiring");
  }
  add_equipment(w, input, f);
  // A fuse in the string's own lead stands ahead of its modules. What comes back from the bus runs through
  // the home run first, which that fuse does not protect.
  add_device(w, s.device >= 0 ? s.device : s.inline_fuse, f);
  if (s.device >= 0 && f.fitted.value.value_or(false)) f.protected_by = f.rating;
  f.shared_device = Fact<units::Ratio>(1.0, "wiring");
  if (s.device < 0 && input >= 0 && w.inputs[at(input)].protector >= 0) {
    // Strings that land on an input itself have its device in common.
    const auto sharing = static_cast<double>(strings_at(w, w.inputs[at(input)]).size());
    f.shared_device = Fact<units::Ratio>(sharing, "wiring");
    if (const parts::Part* p = w.part_of(w.inputs[at(input)].protector); p && sharing > 1)
      f.protected_by = Fact<units::Current>(p->rating, "part." + p->id);
  }
  if (part < s.plus_path.size() && part < s.minus_path.size()) {
    add_pair(w, s.plus_path[part], s.minus_path[part], "string." + s.id, f);
    const auto rated = lowest_rating(
        w, {w.conductors[at(s.plus_path[part])].to, w.conductors[at(s.minus_path[part])].to});
    const std::string where = !last        ? "the junction box"
                              : s.box >= 0 ? w.boxes[at(s.box)].id
                                           : "the equipment";
    if (rated) f.terminals = Fact<units::Temperature>(*rated, "terminals in " + where);
    if (s.box >= 0)
      if (const auto* box = job::find(w.job.box, w.boxes[at(s.box)].id))
        f.v_rated = Fact<units::Voltage>(box->home_run.v_dc, "box." + box->id + ".home_run");
  }
  return j;
}

/// All parts of one string's home run, each with what the parts before it lose.
std::vector<Judged> string_parts(const Wiring& w, int i, const codebook::Edition& edition) {
  std::vector<Judged> parts;
  const std::size_t n = std::max<std::size_t>(1, w.strings[at(i)].plus_path.size());
  std::optional<units::Voltage> lost;
  for (std::size_t part = 0; part < n; ++part) {
    Judged j = string_facts(w, i, part);
    if (part > 0 && lost) j.facts.drop_before = Fact<units::Voltage>(*lost, "earlier parts");
    trail::Trail aside;
    const auto own = codebook::voltage_drop(j.facts, edition, aside);
    if (part == 0) lost = units::Voltage{};
    if (lost && own.value)
      *lost += *own.value;
    else
      lost.reset();
    parts.push_back(std::move(j));
  }
  return parts;
}

/// What the worst of these strings loses in its home run; nothing where one of them is not known.
std::optional<units::Voltage> worst_home_run(const Wiring& w, const std::vector<int>& strings,
                                             const codebook::Edition& edition) {
  std::optional<units::Voltage> worst;
  for (int s : strings) {
    const auto parts = string_parts(w, s, edition);
    trail::Trail aside;
    const auto own = codebook::voltage_drop(parts.back().facts, edition, aside);
    const auto& before = parts.back().facts.drop_before;
    if (!own.value || (parts.size() > 1 && !before.known())) return {};
    const units::Voltage all = *own.value + before.value.value_or(units::Voltage{});
    worst = worst ? units::max(*worst, all) : all;
  }
  return worst;
}

/// @param device  in the box or in the string's own lead
Judged string_device_facts(const Wiring& w, int i, int device) {
  const std::size_t parts = w.strings[at(i)].plus_path.size();
  Judged j = string_facts(w, i, parts == 0 ? 0 : parts - 1);
  j.facts.subject = Subject::string_device;
  add_device(w, device, j.facts);
  j.facts.thing = w.devices[at(device)].id;
  j.span = w.devices[at(device)].span;
  return j;
}

}  // namespace

/// The string of a set with the highest open-circuit voltage at STC: it decides what parts must bear.
int highest_string(const Wiring& w, const std::vector<int>& strings) {
  int best = -1;
  units::Voltage most;
  for (int s : strings) {
    units::Voltage v;
    for (int d : w.strings[at(s)].modules) v += *w.module_of(d).v_oc;
    if (best < 0 || v > most) best = s, most = v;
  }
  return best;
}

namespace {

/// Device that the output of a box meets at its far end: in the re-combiner's slot, or at the input.
int far_device(const Wiring& w, const wiring::BoxCircuit& box) {
  if (box.out_plus < 0) return -1;
  for (int c : {box.out_plus, box.out_minus}) {
    const auto& d = w.devices[at(w.terminals[at(w.conductors[at(c)].to)].device)];
    if (d.kind == wiring::DeviceKind::protector)
      return w.terminals[at(w.conductors[at(c)].to)].device;
  }
  return -1;
}

Judged output_facts(const Wiring& w, int b, const codebook::Edition& edition) {
  const auto& box = w.boxes[at(b)];
  const auto& out = w.conductors[at(box.out_plus)];
  Judged j{{}, out.span};
  Facts& f = j.facts;
  f.subject = Subject::output_circuit;
  f.thing = out.run;
  add_site(w, f);
  const auto strings = strings_reaching(w, box);
  if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, f);
  add_parallel(w, strings, "box." + box.id, f);
  const int input = input_of_box(w, b);
  add_equipment(w, input, f);
  if (input >= 0) {
    auto others = strings_at(w, w.inputs[at(input)]);
    const auto own = [&](int o) {
      return std::find(strings.begin(), strings.end(), o) != strings.end();
    };
    others.erase(std::remove_if(others.begin(), others.end(), own), others.end());
    if (countable(w, others))
      f.i_sc_others =
          Fact<units::Current>(total(others, [&](int o) { return i_sc_of(w, o); }), "wiring");
  }
  add_pair(w, box.out_plus, box.out_minus, "run." + out.run, f);
  if (const auto* run = job::find(w.job.run, out.run)) {
    f.v_rated = Fact<units::Voltage>(run->wire.v_dc, "run." + run->id);
    f.converter_limit = Fact<bool>(run->wire.converter_limit.value_or(false), "run." + run->id,
                                   run->wire.converter_limit.span);
  }
  const auto& in = w.conductors[at(box.out_minus)];
  if (const auto rated = lowest_rating(w, {out.from, out.to, in.from, in.to}))
    f.terminals = Fact<units::Temperature>(*rated, "terminals at both ends of " + out.run);
  const int device = far_device(w, box);
  add_device(w, device, f);
  if (device >= 0) f.protected_by = f.rating;
  f.with_ground = Fact<bool>(box.out_ground >= 0, "run." + out.run);
  if (const auto lost = worst_home_run(w, strings, edition))
    f.drop_before = Fact<units::Voltage>(*lost, "its worst string");
  return j;
}

Judged output_device_facts(const Wiring& w, int b, int device, const codebook::Edition& edition) {
  Judged j = output_facts(w, b, edition);
  j.facts.subject = Subject::output_device;
  j.facts.thing = w.devices[at(device)].id;
  j.span = w.devices[at(device)].span;
  return j;
}

/// Boxes whose outputs come to an input, directly or through others.
std::size_t boxes_reaching(const Wiring& w, const wiring::InputCircuit& in) {
  std::size_t all = 0;
  for (std::size_t b = 0; b < w.boxes.size(); ++b) {
    const int input = input_of_box(w, static_cast<int>(b));
    all += input >= 0 && w.inputs[at(input)].id == in.id;
  }
  return all;
}

/// What the modules of a string take on their rear: the largest, known where all of them say it.
void add_rear(const Wiring& w, int string, Facts& f) {
  bool gain = true, share = true, all_shares = true;
  units::Ratio most_gain, most_share;
  for (int d : w.strings[at(string)].modules) {
    const auto& m = w.module_of(d);
    const auto& counted = w.devices[at(d)].rear_gain;
    gain = gain && counted && (m.rear_gain.known() || m.bifaciality.known());
    share = share && (m.bifaciality.known() || m.rear_gain.known());
    all_shares = all_shares && m.bifaciality.known();
    if (counted) most_gain = units::max(most_gain, *counted - units::Ratio(1.0));
    if (m.bifaciality) most_share = units::max(most_share, *m.bifaciality);
  }
  const std::string from = "string." + w.strings[at(string)].id;
  if (gain) f.rear_gain = Fact<units::Ratio>(most_gain, from);
  if (gain ? all_shares : share) f.bifaciality = Fact<units::Ratio>(most_share, from);
}

std::vector<Judged> input_facts(const Wiring& w, int i) {
  const auto& in = w.inputs[at(i)];
  const auto strings = strings_at(w, in);
  std::vector<Judged> all;
  std::vector<std::string> seen;
  for (int s : strings) {
    const std::string kind = make_up(w, s);
    if (std::find(seen.begin(), seen.end(), kind) != seen.end()) continue;
    seen.push_back(kind);
    Judged j{{}, w.devices[at(in.device)].span};
    Facts& f = j.facts;
    f.subject = Subject::input;
    f.thing = in.id + (seen.size() > 1 ? "/" + w.strings[at(s)].id : "");
    add_site(w, f);
    add_string(w, s, f);
    add_parallel(w, strings, "wiring", f);
    add_equipment(w, i, f);
    add_rear(w, s, f);
    f.marks.wires = Fact<units::Ratio>(
        static_cast<double>(2 * strings.size() + 2 * boxes_reaching(w, in)), "wiring");
    all.push_back(std::move(j));
  }
  return all;
}

}  // namespace

std::vector<int> strings_reaching(const Wiring& w, const wiring::BoxCircuit& box) {
  std::vector<int> all = box.strings;
  for (int f : box.feeders) {
    const auto more = strings_reaching(w, w.boxes[at(f)]);
    all.insert(all.end(), more.begin(), more.end());
  }
  return all;
}

Facts basis_of(const Wiring& w, const std::vector<int>& strings, const std::string& from) {
  Facts f;
  add_site(w, f);
  if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, f);
  add_parallel(w, strings, from, f);
  return f;
}

Judged equipment_ground_facts(const Wiring& w, const wiring::BoxCircuit& box) {
  const auto& egc = w.conductors[at(box.out_ground)];
  Judged j{{}, egc.wire.span.known() ? egc.wire.span : egc.span};
  Facts& f = j.facts;
  f.subject = Subject::equipment_ground;
  f.thing = egc.id;
  add_site(w, f);
  const auto strings = strings_reaching(w, box);
  if (const int s = highest_string(w, strings); s >= 0) add_string(w, s, f);
  add_parallel(w, strings, "box." + box.id, f);
  f.wire = Fact<units::Wire>(egc.wire, "run." + egc.run);
  f.wires_per_pole = Fact<units::Ratio>(static_cast<double>(egc.parallel), "run." + egc.run);
  // Beside parallel conductors no ground may be smaller than its device asks for: which size would be the
  // circuit's is not said.
  if (w.conductors[at(box.out_plus)].parallel == 1)
    f.circuit_wire = Fact<units::Wire>(w.conductors[at(box.out_plus)].wire, "run." + egc.run);
  if (!egc.colour.empty()) f.marks.ground = Fact<std::string>(egc.colour, "run." + egc.run);
  if (egc.length) f.length = Fact<units::Length>(*egc.length, "run." + egc.run);
  const int device = far_device(w, box);
  f.device_ahead_fitted = Fact<bool>(device >= 0, "job");
  if (const parts::Part* p = w.part_of(device))
    f.device_ahead = Fact<units::Current>(p->rating, "part." + p->id);
  return j;
}

std::vector<Judged> facts_of(const Wiring& w, const codebook::Edition& edition) {
  std::vector<Judged> all;
  for (std::size_t i = 0; i < w.inputs.size(); ++i)
    for (auto& j : input_facts(w, static_cast<int>(i))) all.push_back(std::move(j));
  for (std::size_t i = 0; i < w.strings.size(); ++i)
    if (!w.strings[i].modules.empty())
      for (auto& j : string_parts(w, static_cast<int>(i), edition)) all.push_back(std::move(j));
  for (std::size_t i = 0; i < w.strings.size(); ++i)
    for (const int device : {w.strings[i].device, w.strings[i].inline_fuse})
      if (device >= 0) all.push_back(string_device_facts(w, static_cast<int>(i), device));
  for (std::size_t b = 0; b < w.boxes.size(); ++b)
    if (w.boxes[b].out_plus >= 0) all.push_back(output_facts(w, static_cast<int>(b), edition));
  for (std::size_t b = 0; b < w.boxes.size(); ++b)
    if (const int d = far_device(w, w.boxes[b]); d >= 0)
      all.push_back(output_device_facts(w, static_cast<int>(b), d, edition));
  for (const auto& box : w.boxes)
    if (box.out_ground >= 0) all.push_back(equipment_ground_facts(w, box));
  for (auto& j : laid_facts(w)) all.push_back(std::move(j));
  for (auto& j : enclosure_facts(w)) all.push_back(std::move(j));
  add_parallel_facts(w, all);
  add_parts(w, all);
  add_boxes(w, all);
  add_disconnects(w, all);
  add_connectors(w, all);
  add_what_stands_behind(w, all);
  add_grounding(w, all);
  add_protection(w, all);
  add_arresters(w, all);
  add_labels(w, edition, all);
  return all;
}

std::vector<std::optional<units::Resistance>> conductor_resistances(
    const Wiring& w, const codebook::Edition& edition) {
  std::vector<std::optional<units::Resistance>> all(w.conductors.size());
  for (std::size_t i = 0; i < w.conductors.size(); ++i) {
    const auto& c = w.conductors[i];
    if (c.kind == wiring::ConductorKind::lead || c.kind == wiring::ConductorKind::finger) {
      all[i] = units::Resistance{};
      continue;
    }
    if (!c.wire.known() || !c.length) continue;
    const auto r = edition.resistance(c.wire->size, c.wire->metal, units::celsius(75));
    if (r.value) all[i] = *r.value * *c.length / static_cast<double>(c.parallel);
  }
  return all;
}

}  // namespace stringwright::check
