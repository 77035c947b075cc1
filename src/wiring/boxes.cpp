#include <algorithm>

#include "job/find.hpp"
#include "wiring/builder.hpp"

namespace stringwright::wiring {
namespace {

std::size_t at(int index) { return static_cast<std::size_t>(index); }

/// Slots of a box that something lands on, from the strings and boxes of the job; index = slot number.
int highest_used_slot(const job::Job& j, const std::string& box) {
  int highest = 0;
  for (const auto& s : j.string)
    if (s.lands && s.lands->owner == box && s.lands->bar.empty())
      highest = std::max(highest, s.lands->number);
  for (const auto& other : j.box)
    if (other.lands && other.lands->owner == box && other.lands->bar.empty())
      highest = std::max(highest, other.lands->number);
  return highest;
}

bool used(const job::Job& j, const std::string& box, int slot) {
  const auto here = [&](const Given<job::Landing>& l) {
    return l && l->owner == box && l->bar.empty() && l->number == slot;
  };
  return std::any_of(j.string.begin(), j.string.end(),
                     [&](const auto& s) { return here(s.lands); }) ||
         std::any_of(j.box.begin(), j.box.end(), [&](const auto& o) { return here(o.lands); });
}

void spec(Wiring& w, int terminal, const parts::TerminalSpec* s) {
  if (s) w.terminals[at(terminal)].spec = *s;
}

/// A terminal bar: holes 1..n, the last of them the output's.
int add_hole_bar(Builder& b, const job::Box& box, const parts::Part* part, Pole pole,
                 const char* letter, int holes) {
  const int bar = b.device(DeviceKind::bar, box.id + "." + letter, letter, box.id, box.span);
  for (int n = 1; n <= holes; ++n) {
    const std::string number = std::to_string(n);
    const int t = b.terminal(bar, number, letter + number, pole, n);
    const bool out = n == holes;
    b.w.terminals[at(t)].big = out;
    spec(b.w, t, part ? (out ? &part->minus_out : &part->minus) : nullptr);
  }
  return bar;
}

/// A bus bar with a finger under each device; hole 1 the arrester's where there is one, then the output's.
int add_finger_bus(Builder& b, const job::Box& box, const parts::Part* part, Pole pole,
                   const char* letter) {
  const int bus = b.device(DeviceKind::bar, box.id + "." + letter, letter, box.id, box.span);
  int n = 0;
  if (box.arrester) {
    ++n;
    const int t = b.terminal(bus, std::to_string(n), letter + std::to_string(n), pole, n);
    spec(b.w, t, part ? &part->bus : nullptr);
  }
  ++n;
  const int out = b.terminal(bus, std::to_string(n), letter + std::to_string(n), pole, n);
  b.w.terminals[at(out)].big = true;
  spec(b.w, out, part ? &part->bus_out : nullptr);
  return bus;
}

/// The slots' common record with what slot `number` has of its own.
job::Slot slot_of(const job::Box& box, const std::string& number) {
  job::Slot slot = box.slot;
  if (const job::SlotException* own = job::find(box.slot.except, number)) {
    slot.span = own->span;
    if (own->device) slot.device = own->device;
    if (own->poles) slot.poles = own->poles;
  }
  return slot;
}

void add_slot(Builder& b, const job::Box& box, BoxCircuit& circuit, int n,
              const DevicePoles& where) {
  const std::string number = std::to_string(n);
  const job::Slot slot = slot_of(box, number);
  const int q =
      b.device(DeviceKind::protector, box.id + ".Q" + number, "Q" + number, box.id, slot.span);
  circuit.devices.push_back(q);
  auto& d = b.w.devices[at(q)];
  d.number = n;
  d.spare = !used(b.w.job, box.id, n);
  if (d.spare) return;
  d.part = slot.device.value_or("");
  d.poles = slot.poles.value_or(1);
  const parts::Part* part = job::find(b.w.job.part, d.part);
  const bool both = where.plus && where.minus;
  const auto pole = [&](Pole p, int bus) {
    const std::string sign = both ? (p == Pole::plus ? "_plus" : "_minus") : "";
    const std::string mark = both ? (p == Pole::plus ? "+" : "−") : "";
    const int line = b.terminal(q, "line" + sign, "L" + number + mark, p, n);
    const int load = b.terminal(q, "load" + sign, "T" + number + mark, p, n);
    spec(b.w, line, part ? &part->line : nullptr);
    spec(b.w, load, part ? &part->load : nullptr);
    const int finger = b.terminal(bus, "finger" + number, "", p, n);
    b.conductor(ConductorKind::finger, b.w.devices[at(q)].id + ".finger" + sign, "finger", p, load,
                finger, slot.span);
  };
  if (where.plus) pole(Pole::plus, circuit.bus_plus);
  if (where.minus) pole(Pole::minus, circuit.bus_minus);
}

/// A pair of branch connectors: a hole for each string in either pole, the last one for what leaves.
void add_branch(Builder& b, const job::Box& box, BoxCircuit& circuit) {
  const int used_slots = highest_used_slot(b.w.job, box.id);
  circuit.bus_plus = add_hole_bar(b, box, nullptr, Pole::plus, "P", used_slots + 1);
  circuit.bus_minus = add_hole_bar(b, box, nullptr, Pole::minus, "N", used_slots + 1);
}

void add_arrester(Builder& b, const job::Box& box, BoxCircuit& circuit, const DevicePoles& where,
                  bool several) {
  const std::string prefix = several ? box.id + "." : "";
  const int sa = b.device(DeviceKind::arrester, box.id + ".SA", "SA", box.id, box.arrester.span);
  circuit.arrester = sa;
  b.w.devices[at(sa)].part = *box.arrester;
  const parts::Part* part = job::find(b.w.job.part, *box.arrester);
  const int plus = b.terminal(sa, "plus", "SA+", Pole::plus);
  const int minus = b.terminal(sa, "minus", "SA−", Pole::minus);
  const int earth = b.terminal(sa, "ground", "SAE", Pole::ground);
  for (int t : {plus, minus, earth}) spec(b.w, t, part ? &part->line : nullptr);

  // On a finger bus the arrester has hole 1; on a bar of holes the one before the output's.
  const auto hole = [&](int bar, bool finger_bus) {
    const auto& d = b.w.devices[at(bar)];
    const int holes =
        static_cast<int>(std::count_if(d.terminals.begin(), d.terminals.end(),
                                       [&](int t) { return !b.w.terminals[at(t)].label.empty(); }));
    return b.w.find_terminal(d.id + "." + std::to_string(finger_bus ? 1 : std::max(1, holes - 1)));
  };
  const auto lead = [&](const char* id, const char* tag, Pole p, int from, int to) {
    const int c = b.conductor(ConductorKind::arrester, box.id + "." + id, prefix + tag, p, from, to,
                              box.arrester.span);
    b.w.conductors[at(c)].wire = box.arrester_wire;
  };
  lead("SA+", "SA+", Pole::plus, hole(circuit.bus_plus, where.plus), plus);
  lead("SA-", "SA−", Pole::minus, hole(circuit.bus_minus, where.minus), minus);
  const int g = b.w.find_terminal(b.w.devices[at(circuit.bar_ground)].id + ".2");
  lead("SAE", "SAE", Pole::ground, earth, g);
}

}  // namespace

void add_boxes(Builder& b) {
  const job::Job& j = b.w.job;
  const DevicePoles where = device_poles(j.grounding);
  const bool several = j.box.size() > 1;
  for (const auto& box : j.box) {
    BoxCircuit circuit;
    circuit.id = box.id;
    circuit.span = box.span;
    circuit.part = box.part.value_or("");
    const parts::Part* part = job::find(j.part, circuit.part);

    circuit.branch = part && part->kind && *part->kind == parts::PartKind::branch;
    if (circuit.branch) {
      add_branch(b, box, circuit);
      b.w.boxes.push_back(std::move(circuit));
      continue;
    }
    const int used_slots = highest_used_slot(j, box.id);
    const int slots = std::max(used_slots, part ? part->slots.value_or(used_slots) : used_slots);
    const int needed = used_slots + (box.arrester ? 1 : 0) + 1;
    const int holes =
        part && part->minus_holes ? *part->minus_holes : slots + (box.arrester ? 1 : 0) + 1;
    if (!(where.plus && where.minus) && holes < needed)
      b.problem("wiring.no-hole",
                "box " + box.id + ": " + std::to_string(needed) +
                    " wires land on its terminal bar, which has " + std::to_string(holes) +
                    " holes",
                part && part->minus_holes.span.known() ? part->minus_holes.span : box.span,
                "use a box with more holes, or fewer strings on it");

    circuit.bus_plus = where.plus
                           ? add_finger_bus(b, box, part, Pole::plus, "P")
                           : add_hole_bar(b, box, part, Pole::plus, "P", std::max(holes, needed));
    circuit.bus_minus = where.minus
                            ? add_finger_bus(b, box, part, Pole::minus, "N")
                            : add_hole_bar(b, box, part, Pole::minus, "N", std::max(holes, needed));

    // Ground bar: rack bond in hole 1 (the big one), arrester in 2, the run's ground in the last.
    const int earth_holes = std::max(part ? part->earth_holes.value_or(4) : 4, 3);
    circuit.bar_ground = b.device(DeviceKind::bar, box.id + ".G", "G", box.id, box.span);
    for (int n = 1; n <= earth_holes; ++n) {
      const std::string number = std::to_string(n);
      const int t = b.terminal(circuit.bar_ground, number, "G" + number, Pole::ground, n);
      b.w.terminals[at(t)].big = n == 1;
      spec(b.w, t, part ? (n == 1 ? &part->earth_out : &part->earth) : nullptr);
    }

    for (int n = 1; n <= slots; ++n) add_slot(b, box, circuit, n, where);
    if (box.arrester) add_arrester(b, box, circuit, where, several);

    if (box.rack_bond) {
      const std::string on = box.at.on.value_or("rack");
      int rack = b.w.find_device(on);
      if (rack < 0) {
        rack = b.device(DeviceKind::rack, on, on, "", box.rack_bond.span);
        b.terminal(rack, "ground", "PE", Pole::ground);
      }
      circuit.rack_bond = b.conductor(ConductorKind::rack_bond, box.id + ".EGC1",
                                      (several ? box.id + "." : "") + "EGC1", Pole::ground,
                                      b.w.devices[at(rack)].terminals.front(),
                                      b.w.find_terminal(box.id + ".G.1"), box.rack_bond.span);
      b.w.conductors[at(circuit.rack_bond)].wire = box.rack_bond;
    }
    b.w.boxes.push_back(std::move(circuit));
  }
}

}  // namespace stringwright::wiring
