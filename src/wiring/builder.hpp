#pragma once

#include <string>

#include "wiring/wiring.hpp"

/// Inside of `build`: the graph under construction. Not for other rooms.
namespace stringwright::wiring {

/// Adds devices, terminals and conductors to a graph and keeps their cross-references right.
class Builder {
 public:
  Builder(Wiring& wiring, Diagnostics& diagnostics) : w(wiring), problems(diagnostics) {}

  Wiring& w;
  Diagnostics& problems;

  int device(DeviceKind kind, std::string id, std::string label, std::string owner, Span span);
  int terminal(int device, std::string suffix, std::string label, Pole pole, int number = 0);
  int conductor(ConductorKind kind, std::string id, std::string tag, Pole pole, int from, int to,
                Span span);
  void problem(std::string id, std::string message, Span span, std::string help = {});
};

/// Pole that carries the string devices, and whether both do. Where the job does not say: the pole that
/// is not grounded; plus where nothing is said at all.
struct DevicePoles {
  bool plus = true, minus = false;
};
DevicePoles device_poles(const job::Grounding& g);

/// Stretches of a home run or run, resolved against the site. `wires` is the number of current-carrying
/// wires that share it, before they are divided among raceways; a junction ends the list that stands
/// before it.
std::vector<std::vector<Stretch>> resolve(const std::vector<job::Segment>& segments,
                                          const job::Job& job, int wires, const std::string& where,
                                          std::vector<const job::Segment*>* junctions);

/// One-way length of a string end from geometry, mated plug to box entry: along the row's lower edge to
/// the box's x, then straight to the box. Empty where row, surface or box position is not known.
std::optional<units::Length> end_from_geometry(const job::Job& j, const job::ModulePlace& end,
                                               const job::Box& box);

/// The colour that the job states for a pole; "" where it states none.
std::string stated_colour(const job::WireMarks& marks, Pole pole);

/// The parts of `build`, in order.
void add_strings(Builder& b);  ///< modules and leads
void add_inputs(Builder& b);   ///< inputs and their devices
void add_boxes(Builder& b);    ///< boxes, slots, bars, arresters
void add_home_runs(Builder& b);
void add_outputs(Builder& b);
void add_bonds(Builder& b);

}  // namespace stringwright::wiring
