#include <algorithm>
#include <array>

#include "job/find.hpp"
#include "wiring/builder.hpp"

namespace stringwright::wiring {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// Where the two ends of a string come to land, and on what.
struct Ends {
  int plus = -1, minus = -1;  ///< terminals
};

/// The terminal that slot `n` of a box offers to each pole: the device's line side where that pole
/// carries devices, the hole of that number elsewhere.
Ends slot_ends(const Wiring& w, const BoxCircuit& box, int n) {
  const DevicePoles where = box.branch ? DevicePoles{false, false} : device_poles(w.job.grounding);
  const bool both = where.plus && where.minus;
  const std::string q = box.id + ".Q" + std::to_string(n) + ".line";
  const std::string hole = "." + std::to_string(n);
  Ends e;
  e.plus = where.plus ? w.find_terminal(q + (both ? "_plus" : ""))
                      : w.find_terminal(w.devices[at(box.bus_plus)].id + hole);
  e.minus = where.minus ? w.find_terminal(q + (both ? "_minus" : ""))
                        : w.find_terminal(w.devices[at(box.bus_minus)].id + hole);
  return e;
}

/// Where something that lands on an input meets it: the line side of the input's device if there is one.
Ends input_ends(const Wiring& w, const InputCircuit& in) {
  Ends e{w.find_terminal(in.id + ".plus"), w.find_terminal(in.id + ".minus")};
  if (in.protector < 0) return e;
  for (int t : w.devices[at(in.protector)].terminals) {
    const Terminal& terminal = w.terminals[at(t)];
    if (terminal.label != "line") continue;
    (terminal.pole == Pole::plus ? e.plus : e.minus) = t;
  }
  return e;
}

template <class List>
int index_of(const List& list, const std::string& id) {
  for (std::size_t i = 0; i < list.size(); ++i)
    if (list[i].id == id) return static_cast<int>(i);
  return -1;
}

/// One pole of a home run: a conductor for each stretch between junction boxes.
struct Pull {
  const job::String& string;
  const Given<units::Wire>& wire;
  int parallel = 1;
  const job::WireMarks& marks;
  std::vector<std::vector<Stretch>> parts;
  std::vector<const job::Segment*> junctions;
  std::optional<units::Length>
      length;  ///< explicit or by geometry, with tail; split is by segments
  std::string length_from;
};

units::Length sum(const std::vector<Stretch>& stretches) {
  units::Length total;
  for (const auto& s : stretches) total += s.length;
  return total;
}

std::vector<int> pull(Builder& b, Pull p, Pole pole, int from, int to, const std::string& run) {
  const char* ascii = pole == Pole::plus ? "+" : "-";
  const char* sign = pole == Pole::plus ? "+" : "−";
  std::vector<int> path;
  Given<units::Wire> wire = p.wire;
  for (std::size_t i = 0; i < p.parts.size(); ++i) {
    const bool last = i + 1 == p.parts.size();
    const std::string suffix = i == 0 ? "" : "/" + std::to_string(i + 1);
    int end = to;
    int next = -1;
    if (!last) {
      const std::string box = *p.junctions[i]->junction;
      const int joint = b.device(DeviceKind::bar, box + "." + p.string.id + ascii + suffix, box,
                                 box, p.junctions[i]->span);
      end = b.terminal(joint, "in", p.string.id + sign, pole);
      next = b.terminal(joint, "out", p.string.id + sign, pole);
    }
    const int c = b.conductor(ConductorKind::home_run, p.string.id + ascii + suffix,
                              p.string.id + sign, pole, from, end, p.string.span);
    Conductor& made = b.w.conductors[at(c)];
    made.wire = wire;
    made.parallel = p.parallel;
    if (i == 0) made.marks = p.marks;  // another wire follows a junction
    made.colour = i == 0 ? stated_colour(p.marks, pole) : "";
    made.stretches = p.parts[i];
    made.run = run;
    if (p.parts.size() == 1) {
      made.length = p.length;
      made.length_from = p.length_from;
    } else {
      made.length = sum(p.parts[i]);
      made.length_from = "stretches of " + run;
    }
    path.push_back(c);
    if (!last) {
      from = next;
      if (p.junctions[i]->wire) wire = p.junctions[i]->wire;
    }
  }
  return path;
}

/// The end of a string's own leads in one pole, behind all that sits in them: unit of the last module,
/// blocking diode, in-line fuse, from the modules on.
int own_lead(Builder& b, const job::String& s, StringCircuit& circuit, Pole pole) {
  const bool plus = pole == Pole::plus;
  const int end = plus && !circuit.electronics.empty() ? circuit.electronics.back()
                  : plus                               ? circuit.modules.back()
                                                       : circuit.modules.front();
  int here = plus ? b.w.devices[at(end)].terminals.back() : b.w.devices[at(end)].terminals.front();
  if (plus && s.blocking_diode) {
    const int d = b.device(DeviceKind::diode, s.id + ".D", s.id + ".D", "", s.blocking_diode.span);
    b.w.devices[at(d)].part = *s.blocking_diode;
    circuit.blocking_diode = d;
    const int anode = b.terminal(d, "anode", "A", pole);
    const int cathode = b.terminal(d, "cathode", "K", pole);
    b.conductor(ConductorKind::lead, s.id + ".lead-D", "", pole, here, anode,
                s.blocking_diode.span);
    here = cathode;
  }
  DevicePoles where = device_poles(b.w.job.grounding);
  if (s.inline_fuse_in)
    where = {*s.inline_fuse_in != job::DevicesIn::minus, *s.inline_fuse_in != job::DevicesIn::plus};
  if (s.inline_fuse && (plus ? where.plus : where.minus)) {
    const bool both = where.plus && where.minus;
    if (circuit.inline_fuse < 0) {
      circuit.inline_fuse =
          b.device(DeviceKind::protector, s.id + ".F", s.id + ".F", "", s.inline_fuse.span);
      auto& f = b.w.devices[at(circuit.inline_fuse)];
      f.part = *s.inline_fuse;
      f.poles = both ? 2 : 1;
    }
    const std::string sign = both ? (plus ? "_plus" : "_minus") : "";
    const int line = b.terminal(circuit.inline_fuse, "line" + sign, "line", pole);
    const int load = b.terminal(circuit.inline_fuse, "load" + sign, "load", pole);
    b.conductor(ConductorKind::lead, s.id + ".lead-F" + (plus ? "+" : "-"), "", pole, here, line,
                s.inline_fuse.span);
    here = load;
  }
  return here;
}

}  // namespace

void add_home_runs(Builder& b) {
  const job::Job& j = b.w.job;
  for (std::size_t i = 0; i < j.string.size(); ++i) {
    const job::String& s = j.string[i];
    StringCircuit& circuit = b.w.strings[i];
    if (circuit.modules.empty() || !s.lands) continue;

    const int box_index = index_of(b.w.boxes, s.lands->owner);
    const job::Box* box = job::find(j.box, s.lands->owner);
    const job::Run* run = s.home_run ? job::find(j.run, *s.home_run) : nullptr;

    Ends ends;
    if (box_index >= 0) {
      BoxCircuit& landed = b.w.boxes[at(box_index)];
      circuit.box = box_index;
      ends = slot_ends(b.w, landed, s.lands->number);
      for (int q : landed.devices)
        if (b.w.devices[at(q)].number == s.lands->number && !b.w.devices[at(q)].spare)
          circuit.device = q;
      landed.strings.push_back(static_cast<int>(i));
    } else {
      const int in = index_of(b.w.inputs, s.lands->owner + "." + s.lands->bar);
      if (in < 0) continue;  // the reader has refused it
      ends = input_ends(b.w, b.w.inputs[at(in)]);
      b.w.inputs[at(in)].strings.push_back(static_cast<int>(i));
    }

    // Everything that the job puts into this home run shares it.
    const auto sharers =
        static_cast<int>(std::count_if(j.string.begin(), j.string.end(), [&](const job::String& o) {
          return run ? o.home_run && *o.home_run == run->id
                     : !o.home_run && o.lands && o.lands->owner == s.lands->owner;
        }));
    static const std::vector<job::Segment> none;
    const auto& segments = run ? run->segment : box ? box->home_run.segment : none;
    const std::string where = run ? "run." + run->id : "box." + s.lands->owner + " home_run";
    static const Given<units::Wire> unknown;
    const auto& wire = run ? run->wire.poles : box ? box->home_run.wire : unknown;

    static const job::WireMarks unmarked;
    const auto& marks = run ? run->wire.marks : box ? box->home_run.marks : unmarked;

    const auto make = [&](Pole pole) {
      const int parallel = run ? run->wire.parallel.value_or(1) : 1;
      Pull p{s, wire, parallel, marks, {}, {}, {}, {}};
      p.parts = resolve(segments, j, 2 * sharers * parallel, where, &p.junctions);
      const auto& given = pole == Pole::plus ? s.plus_end : s.minus_end;
      const auto& end = pole == Pole::plus ? s.walk->back() : s.walk->front();
      std::optional<units::Length> length;
      std::string from;
      if (given) {
        length = *given;
        from = pole == Pole::plus ? "plus_end" : "minus_end";
      } else if (run) {
        units::Length total;
        for (const auto& part : p.parts) total += sum(part);
        if (total.si() > 0) length = total, from = "stretches of " + run->id;
      } else if (box) {
        length = end_from_geometry(j, end, *box);
        from = "geometry";
      }
      if (length && box && box->home_run.tail) {
        *length += *box->home_run.tail;
        from += " + tail";
      }
      if (length) {
        p.length = length;
        p.length_from = from;
        // A home run described by one stretch without a length is all of that stretch.
        if (p.parts.size() == 1 && p.parts[0].size() == 1 && p.parts[0][0].length.si() == 0)
          p.parts[0][0].length = *length;
      }
      const int start = own_lead(b, s, circuit, pole);
      return pull(b, std::move(p), pole, start, pole == Pole::plus ? ends.plus : ends.minus,
                  run ? run->id : "");
    };
    circuit.plus_path = make(Pole::plus);
    circuit.minus_path = make(Pole::minus);
    circuit.plus = circuit.plus_path.front();
    circuit.minus = circuit.minus_path.front();
  }
  for (auto& box : b.w.boxes)
    std::sort(box.strings.begin(), box.strings.end(), [&](int x, int y) {
      return j.string[at(x)].lands->number < j.string[at(y)].lands->number;
    });
}

void add_outputs(Builder& b) {
  const job::Job& j = b.w.job;
  const bool several = j.box.size() > 1;
  for (std::size_t i = 0; i < j.box.size(); ++i) {
    const job::Box& box = j.box[i];
    BoxCircuit& circuit = b.w.boxes[i];
    const job::Run* run = box.out ? job::find(j.run, *box.out) : nullptr;
    if (!run) {
      for (const auto& r : j.run)
        if (r.from && *r.from == box.id) run = &r;
    }
    if (!run) {
      b.problem("wiring.no-output", "box " + box.id + " has no run that leaves it", box.span,
                "write out = \"...\" in the box, or from = \"" + box.id + "\" in a run");
      continue;
    }
    Ends ends;
    int ground_to = -1;
    std::string to = box.lands ? box.lands->text : run->to.value_or("");
    const int input = index_of(b.w.inputs, to);
    const std::size_t dot = to.rfind('.');
    const int other = dot == std::string::npos ? -1 : index_of(b.w.boxes, to.substr(0, dot));
    if (input >= 0) {
      circuit.lands_input = input;
      b.w.inputs[at(input)].boxes.push_back(static_cast<int>(i));
      ends = input_ends(b.w, b.w.inputs[at(input)]);
      ground_to = b.w.find_terminal(to + ".ground");
    } else if (other >= 0) {
      circuit.lands_box = other;
      BoxCircuit& landed = b.w.boxes[at(other)];
      landed.feeders.push_back(static_cast<int>(i));
      ends = slot_ends(b.w, landed, std::atoi(to.c_str() + dot + 1));
      if (landed.bar_ground >= 0) {
        const auto& bar = b.w.devices[at(landed.bar_ground)];
        ground_to = bar.terminals[at(std::min(static_cast<int>(bar.terminals.size()) - 2,
                                              static_cast<int>(landed.feeders.size())))];
      }
    }
    if (ends.plus < 0 || ends.minus < 0) {
      b.problem("wiring.lands-nowhere",
                "the output of box " + box.id + " lands on nothing that exists",
                run->to.span.known() ? run->to.span : box.span,
                "write to = \"EQUIPMENT.INPUT\" or lands = \"BOX.slot\"");
      continue;
    }

    const auto out_hole = [&](int bar) {
      int hole = -1;
      for (int t : b.w.devices[at(bar)].terminals)
        if (b.w.terminals[at(t)].big) hole = t;
      return hole;
    };
    const int parallel = run->wire.parallel.value_or(1);
    const auto parts = resolve(run->segment, j, 2 * parallel, "run." + run->id, nullptr);
    std::vector<Stretch> stretches;
    for (const auto& p : parts) stretches.insert(stretches.end(), p.begin(), p.end());
    units::Length length;
    bool known = !stretches.empty();
    for (const auto& s : stretches) {
      known = known && s.length.si() > 0;
      length += s.length;
    }

    const auto wire = [&](int c, const Given<units::Wire>& w, int side_by_side) {
      Conductor& made = b.w.conductors[at(c)];
      made.wire = w;
      made.parallel = side_by_side;
      made.stretches = stretches;
      made.run = run->id;
      if (known) made.length = length;
      made.length_from = known ? "stretches of " + run->id : "";
    };
    circuit.out_plus = b.conductor(ConductorKind::output, run->id + "+", run->id + "+", Pole::plus,
                                   out_hole(circuit.bus_plus), ends.plus, run->span);
    wire(circuit.out_plus, run->wire.poles, parallel);
    b.w.conductors[at(circuit.out_plus)].marks = run->wire.marks;
    b.w.conductors[at(circuit.out_plus)].colour = stated_colour(run->wire.marks, Pole::plus);
    circuit.out_minus =
        b.conductor(ConductorKind::output, run->id + "-", run->id + "−", Pole::minus,
                    out_hole(circuit.bus_minus), ends.minus, run->span);
    wire(circuit.out_minus, run->wire.poles, parallel);
    b.w.conductors[at(circuit.out_minus)].marks = run->wire.marks;
    b.w.conductors[at(circuit.out_minus)].colour = stated_colour(run->wire.marks, Pole::minus);
    if (circuit.bar_ground >= 0 && ground_to >= 0 &&
        (run->wire.egc.known() || run->wire.egc.choose)) {
      const int bar_end = b.w.devices[at(circuit.bar_ground)].terminals.back();
      // Each raceway holds an equipment ground of full size.
      int raceways = 1;
      for (const auto& st : stretches) raceways = std::max(raceways, st.raceways);
      circuit.out_ground = b.conductor(ConductorKind::equipment_ground, run->id + ".EGC",
                                       (several ? run->id + "." : "") + "EGC2", Pole::ground,
                                       bar_end, ground_to, run->span);
      wire(circuit.out_ground, run->wire.egc, raceways);
      if (run->wire.egc_colour)
        b.w.conductors[at(circuit.out_ground)].colour = std::string(
            names(static_cast<job::Colour*>(nullptr), static_cast<int>(*run->wire.egc_colour))
                .first);
    }
  }
}

}  // namespace stringwright::wiring
