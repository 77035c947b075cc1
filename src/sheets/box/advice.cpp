#include "sheets/box/advice.hpp"

#include <algorithm>

#include "sheets/draw/scene.hpp"
#include "sheets/words.hpp"

namespace stringwright::sheets::box {
namespace {

using wiring::Pole;

/// What stands on the sheet, in the letters of its bars.
struct Names {
  bool both = false;       ///< devices in both poles: two buses, no other bar
  std::string bus, other;  ///< letters: P and N, whichever carries the devices first
  Pole other_pole = Pole::minus;
  std::string devices;  ///< "Q1, Q2"
  std::string line;     ///< "L1", "every L"
  std::string outputs;  ///< "OUT+"
};

Names names(const View& v) {
  Names n;
  n.both = v.buses.size() > 1;
  const Pole device_pole = v.buses.empty() ? Pole::plus : v.buses.front().pole;
  n.other_pole = device_pole == Pole::plus ? Pole::minus : Pole::plus;
  n.bus = device_pole == Pole::plus ? "P" : "N";
  n.other = device_pole == Pole::plus ? "N" : "P";
  std::vector<std::string> labels;
  for (const auto& p : v.places)
    if (!p.spare) labels.push_back(v.device(p.device).label);
  n.devices = listed(labels);
  n.line = labels.size() == 1 ? "L1" : "every L";
  std::vector<std::string> outs;
  for (int c : {v.circuit().out_plus, v.circuit().out_minus})
    if (c >= 0 && (n.both || v.conductor(c).pole == device_pole))
      outs.push_back(v.conductor(c).tag);
  n.outputs = listed(outs);
  return n;
}

/// What is locked at the far end, and what behind it.
std::string far_end(const View& v) {
  const auto& circuit = v.circuit();
  std::string far = "the device at the far end";
  bool battery = false;
  if (circuit.lands_input >= 0) {
    const auto& input = v.wiring.inputs[static_cast<std::size_t>(circuit.lands_input)];
    far = input.protector >= 0 ? device_word(v.wiring.part_of(input.protector)) + " at " + input.id
                               : "input " + input.id;
    for (const auto& e : v.wiring.job.equipment)
      battery = battery || (e.id == input.equipment && e.battery);
  } else if (circuit.lands_box >= 0) {
    far = "its device in box " + v.wiring.boxes[static_cast<std::size_t>(circuit.lands_box)].id;
  }
  return far + " off and locked" + (battery ? ", then the battery off." : ".");
}

Advice before_landing(const View& v, const Names& n) {
  Advice a{"Before you land a wire", {}};
  const bool boxes =
      std::any_of(v.circuit().feeders.begin(), v.circuit().feeders.end(),
                  [&](int f) { return !v.wiring.boxes[static_cast<std::size_t>(f)].branch; });
  if (boxes) a.lines.push_back("Every box that lands here: devices off and locked.");
  if (!n.devices.empty()) {
    const auto holders = v.labels(true), switches = v.labels(false);
    a.lines.push_back((holders.empty() ? "" : "Holders " + listed(holders) + " empty; ") +
                      (switches.empty() ? "" : listed(switches) + " OFF; ") + far_end(v));
  }
  const bool branches =
      std::any_of(v.circuit().feeders.begin(), v.circuit().feeders.end(),
                  [&](int f) { return v.wiring.boxes[static_cast<std::size_t>(f)].branch; });
  if (v.strings() > 0 || branches)
    a.lines.push_back("Then both plugs of each string open at the array, and capped.");
  const std::string pairs =
      n.both ? "P to N and G, N to G, L+ to L− of each device, " + n.line + " to G"
             : n.bus + " to " + n.other + " and G, " + n.line + " to " + n.other + " and G, " +
                   n.other + " to G";
  a.lines.push_back("Tester on a known source. Prove dead: " + pairs +
                    ". Tester on the known source again.");
  a.lines.push_back("Torque, mark the screw, tick. Close unused openings and spare fingers.");
  return a;
}

bool has_bond(const View& v) {
  for (const auto& d : v.wiring.devices)
    if (d.kind == wiring::DeviceKind::bond && d.owner == v.circuit().id) return true;
  return false;
}

/// Where the bond stands, and what the other pole's metal is worth without it.
void add_floating(Advice& a, const View& v, const Names& n) {
  const auto& g = v.wiring.job.grounding;
  const bool bonded = g.scheme && *g.scheme != job::Scheme::ungrounded;
  const std::string place = g.bond ? draw::plain(*g.bond) : "a place not known";
  const bool minus = !g.pole || *g.pole == job::Pole::minus;
  if (has_bond(v)) {
    a.lines.push_back("A bond joins " + std::string(minus ? "N" : "P") +
                      " to G in this box. It may open on a fault: prove " +
                      std::string(minus ? "N" : "P") + " to G dead each time.");
    return;
  }
  const std::string none = "No bond to G in this box" +
                           (bonded ? ": the one bond is in " + place + "." : " or elsewhere.");
  if (n.both) {
    a.lines.push_back("N is d.c. minus, no neutral. " + none);
    return;
  }
  const std::string what =
      n.other_pole == Pole::minus ? " (d.c. minus, no neutral)" : " (d.c. plus)";
  const bool grounded = bonded && minus == (n.other_pole == Pole::minus);
  a.lines.push_back(n.other + what + ", its wires and output FLOAT: " +
                    (grounded ? "near ground only while the one bond, in " + place +
                                    ", holds. No bond to G in this box."
                              : "any voltage to G. " + none));
}

Advice stays_dangerous(const View& v, const Names& n) {
  Advice a{"What stays dangerous", {}};
  const std::string wires = v.strings() > 0 ? "L and every string wire, + and −: live in light, "
                                            : "L and the feeders: live in light, ";
  a.lines.push_back(wires + (v.fuses() ? "holders full or empty. Never pull one under load."
                                       : "whatever the devices do."));
  a.lines.push_back(n.bus + (n.both ? ", " + n.other : "") + ", spare fingers" +
                    (n.outputs.empty() ? "" : ", " + n.outputs) +
                    ": live once any device closes or a source behind feeds back.");
  add_floating(a, v, n);
  if (v.arrester >= 0) a.lines.push_back("Arrester on the bus side: strings have none while open.");
  if (!v.circuit().feeders.empty() && !n.both)
    a.lines.push_back("The poles of one feeder enter by one raceway; here they are drawn apart.");
  return a;
}

}  // namespace

std::vector<Advice> advice(const View& v) {
  const Names n = names(v);
  return {before_landing(v, n), stays_dangerous(v, n)};
}

}  // namespace stringwright::sheets::box
