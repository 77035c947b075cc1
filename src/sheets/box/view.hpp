#pragma once

#include <string>
#include <vector>

#include "wiring/wiring.hpp"

namespace stringwright::sheets::box {

/// One pole of a string device: where the string lands and where the bus takes over. Terminals, −1 in
/// a spare place.
struct PoleEnds {
  wiring::Pole pole = wiring::Pole::plus;
  int line = -1, load = -1;
};

/// A place on the rail.
struct Place {
  int device = -1;
  int number = 0;
  bool spare = false;
  std::vector<PoleEnds> ends;  ///< plus before minus
};

/// A bar with fingers or with holes.
struct Bar {
  int device = -1;
  std::string letter;
  wiring::Pole pole = wiring::Pole::plus;
  std::vector<int> holes;  ///< terminals with a number, in order; fingers are not among them
};

/// A conductor with at least one end in the box.
struct BoxWire {
  int conductor = -1;
  std::vector<int> inside;  ///< its terminals here: one or two
};

/// What lies in one box, read off the graph, without places.
struct View {
  const wiring::Wiring& wiring;
  int index;
  const parts::Part* part;         ///< of the box; null where it is not known
  const parts::Part* device_part;  ///< of the first used place
  std::vector<Place> places;
  std::vector<Bar> buses;  ///< with fingers: plus before minus
  std::vector<Bar>
      bars;  ///< with holes: the other pole's (none where both poles have devices), then ground
  int arrester = -1;
  std::vector<BoxWire> wires;  ///< fingers left out

  const wiring::BoxCircuit& circuit() const {
    return wiring.boxes[static_cast<std::size_t>(index)];
  }
  const wiring::Terminal& terminal(int t) const {
    return wiring.terminals[static_cast<std::size_t>(t)];
  }
  const wiring::Conductor& conductor(int c) const {
    return wiring.conductors[static_cast<std::size_t>(c)];
  }
  const wiring::Device& device(int d) const { return wiring.devices[static_cast<std::size_t>(d)]; }
  /// Conductors on a terminal, fingers left out.
  std::vector<int> on(int terminal) const;
  int strings() const { return static_cast<int>(circuit().strings.size()); }
  bool is_fuse(const Place& p) const {
    const parts::Part* own = wiring.part_of(p.device);
    return own && own->kind && *own->kind == parts::PartKind::fuse;
  }
  /// Labels of the used places, of fuses or of all else.
  std::vector<std::string> labels(bool of_fuses) const;
  /// The parts of the used places, each once, in the order of their first places.
  std::vector<const parts::Part*> kinds() const;
  bool one_kind() const { return kinds().size() < 2; }
  bool fuses() const { return !labels(true).empty(); }
};

View view(const wiring::Wiring& w, int box);

/// What stands behind the letter of a bar in the label of a terminal: "3" in "N3"; else the label.
std::string number_in(const std::string& label, const std::string& letter);

}  // namespace stringwright::sheets::box
