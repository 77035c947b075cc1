#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/span.hpp"
#include "job/job.hpp"
#include "parts/part.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

/// The wiring graph: every terminal, conductor and device of a design, and the circuits they form.
/// Things refer to each other by index into the vectors of one `Wiring`; -1 means none.
namespace stringwright::wiring {

/// Electrical role of a terminal or a conductor.
enum class Pole { plus, minus, ground };

enum class DeviceKind {
  module,      ///< terminals: minus, plus
  protector,   ///< breaker or fuse in a slot or at an input; terminals line and load per pole
  bar,         ///< bus bar, terminal bar or joint in a junction box: all terminals are one node
  arrester,    ///< terminals: plus, minus, ground
  input,       ///< PV input of equipment: plus, minus, ground
  rack,        ///< bonded metal of the array: ground
  bond,        ///< joins a pole to ground: the system bond, or one too many
  diode,       ///< blocking diode in a string's plus lead; terminals anode, cathode
  electronics  ///< unit at a module, in its plus lead; terminals in, out
};

struct Terminal {
  std::string id;     ///< unique: "A1.Q1.line", "A1.N.3", "CC1.PV1.plus", "S1.2.minus"
  std::string label;  ///< as on the sheets: "L1", "T1", "N3", "P2", "G1", "+"
  int device = -1;
  Pole pole = Pole::plus;
  int number = 0;    ///< hole or slot, from 1; 0 where there is only one
  bool big = false;  ///< a lug for the output rather than a small hole
  std::optional<parts::TerminalSpec> spec;
};

struct Device {
  std::string id;     ///< unique: "A1.Q1", "A1.N", "S1.2", "CC1.PV1", "CC1.PV1.Q"
  std::string label;  ///< as on the sheets: "Q1", "N", "SA", "PV1"
  DeviceKind kind = DeviceKind::module;
  std::string owner;  ///< box or equipment it sits in; row for a module; "" for none
  int number = 0;     ///< slot, or place in the string from the minus end
  std::string place;  ///< where a module stands: "R1.3"; "" for other devices
  std::string part;   ///< id of the part or module record; "" = none
  int poles = 1;      ///< poles of a protector that lie in the circuit
  /// Module: its short-circuit current over what its sheet's i_sc says, by light on the rear side. Not known
  /// where a bifaciality is given and no light on the rear side.
  std::optional<units::Ratio> rear_gain = units::Ratio(1.0);
  bool spare = false;
  std::vector<int> terminals;
  Span span;  ///< where the job speaks of it
};

/// What a conductor does; with the grounding scheme it decides colour and pattern.
enum class ConductorKind {
  lead,      ///< a module's own lead pair between two modules
  home_run,  ///< string end to box
  output,    ///< box to input or to another box
  equipment_ground,
  rack_bond,
  arrester,
  finger  ///< bus bar finger under a device: no wire
};

/// A stretch under one set of conditions, resolved: what the job leaves out is filled from the site,
/// and `ambient_from` says so.
struct Stretch {
  std::string in;  ///< "" = unknown
  Given<units::TradeSize> size;
  units::Length length;
  std::optional<units::Length> buried, above_roof;
  std::optional<units::Temperature> ambient;
  std::string ambient_from;  ///< "run.OUT segment 2" or "site t_hot"
  std::optional<int> wires;  ///< current-carrying conductors that share it, in each raceway
  int raceways = 1;          ///< alike raceways that parallel conductors are divided among
  std::vector<units::Angle> bends;
  job::Segment said;              ///< what the job says of it, word by word
  bool after_pull_point = false;  ///< a pull box or junction stands at its beginning
  Span span;
};

struct Conductor {
  std::string id;   ///< unique: "S1+", "OUT-", "A1.EGC1", "OUT.EGC"
  std::string tag;  ///< text on the wire: "S1+", "OUT−", "EGC1"
  ConductorKind kind = ConductorKind::home_run;
  Pole pole = Pole::plus;
  int from = -1, to = -1;               ///< terminals, source side first
  Given<units::Wire> wire;              ///< `choose` = left open
  int parallel = 1;                     ///< wires side by side that are this one conductor
  job::WireMarks marks;                 ///< what stands printed on it
  std::string colour;                   ///< as the job states it; "" = it does not
  std::optional<units::Length> length;  ///< one way, with tails; unknown where nothing says
  std::string length_from;              ///< "plus_end + tail", "geometry", "segments of OUT"
  std::vector<Stretch> stretches;
  std::string run;  ///< "" or the run it belongs to
  Span span;
};

/// One string as a circuit. `modules` from the minus end to the plus end.
struct StringCircuit {
  std::string id;
  std::vector<int> modules;   ///< devices
  int plus = -1, minus = -1;  ///< conductors at the string's own ends
  std::vector<int> plus_path,
      minus_path;   ///< all conductors from the end to the landing, in order;
                    ///< more than one where a junction box stands in between
  int device = -1;  ///< protector it lands on; -1 where it lands on an input or a branch
  int inline_fuse = -1, blocking_diode = -1;  ///< devices in its own leads
  std::vector<int> electronics;               ///< devices, one per module, or none
  int box = -1;                               ///< index into boxes; -1 = straight to the input
  units::Ratio age = 1.0;
  Span span;
};

/// One box: the strings and boxes that land on it, its devices and bars, its output.
struct BoxCircuit {
  std::string id;
  std::string part;
  bool branch = false;  ///< a pair of branch connectors: bars without devices, and no ground bar
  std::vector<int> strings;  ///< indices into strings, in slot order
  std::vector<int> feeders;  ///< indices into boxes that land here
  std::vector<int> devices;  ///< protectors, in slot order, spares included
  int bus_plus = -1, bus_minus = -1, bar_ground = -1, arrester = -1;   ///< devices
  int out_plus = -1, out_minus = -1, out_ground = -1, rack_bond = -1;  ///< conductors
  int lands_box = -1;                                                  ///< re-combiner, or -1
  int lands_input = -1;                                                ///< index into inputs, or -1
  Span span;
};

struct InputCircuit {
  std::string equipment, input;
  std::string id;                   ///< "CC1.PV1"
  int device = -1;                  ///< DeviceKind::input
  int protector = -1;               ///< device at the input, or -1
  std::vector<int> boxes, strings;  ///< that land here
  Span span;
};

struct Wiring {
  std::vector<Terminal> terminals;
  std::vector<Conductor> conductors;
  std::vector<Device> devices;
  std::vector<StringCircuit> strings;
  std::vector<BoxCircuit> boxes;
  std::vector<InputCircuit> inputs;
  job::Job job;  ///< the records everything above refers to by id

  const parts::Module& module_of(int device) const;  ///< of a module device
  const parts::Part* part_of(int device) const;      ///< null where the part is not known
  int find_device(std::string_view id) const;
  int find_terminal(std::string_view id) const;
  int find_conductor(std::string_view id) const;
};

/// Counts that every sheet prints: from the graph, never typed.
struct Counts {
  int modules = 0, strings = 0, devices = 0, string_wires = 0, output_wires = 0, boxes = 0;
};
Counts count(const Wiring& w);
std::string counts_line(
    const Wiring& w);  ///< "6 modules · 2 strings · 2 breakers · 4 string wires · 3 down"

/// Colour of a conductor’s insulation: as the job states it, else by its meaning: "red", "black", "white",
/// "green", "green-yellow" (IEC), "bare". White and grey belong to a solidly grounded conductor only
/// from NEC 2017 on (690.31(B)); before, to one that is grounded through a fuse as well (200.6(A)(6),
/// from memory). Positive red and negative black are common practice, no source.
std::string colour(const Wiring& w, const Conductor& c);

/// Two-wire circuits that lie in the raceway of this name, over all home runs and runs, each pair of wires
/// side by side counted; 0 for "".
int circuits_in(const job::Job& job, std::string_view raceway);

/// Build the graph of a design.
///
/// Lengths: an explicit end length wins; else, where rows, surface and box position are known, the path
/// is square: from the end module along its row's lower edge to the box's x, then straight to the
/// box (method: docs/methods/lengths.md). A conductor whose length nothing says stays unknown.
///
/// What is drawn is the design as the job says; `as_built` differences are kept in `job` for later.
/// Problems that the reader could not see (a box without a way out, a run from nowhere) are appended
/// to `diagnostics` as errors with the place in the file.
Wiring build(const job::Job& design, Diagnostics& diagnostics);

}  // namespace stringwright::wiring
