#pragma once

#include <map>
#include <optional>
#include <tuple>
#include <vector>

#include "base/result.hpp"
#include "circuit/solve.hpp"
#include "events/event.hpp"

namespace stringwright::events {

using Sky = circuit::Condition;

/// The network of a wiring in an event, before anyone solves it.
struct Faulted {
  circuit::Built built;
  Applied applied;
  std::vector<int> pole;     ///< [n_poles] element of a closed pole, -1: open
  std::vector<int> battery;  ///< [n_inputs] element of its battery, -1: none
  std::vector<int> load;     ///< [n_inputs] element that takes what the equipment takes, -1: none
  std::vector<int> bond;     ///< [n_bonds] element of a bond, by Site::bonds; -1: open
  std::vector<int> leaks;    ///< elements that stand for the insulation
};

/// What people or devices have moved: poles that stand open, the bond that its ground-fault device has
/// opened, and what that device's own resistance is.
struct Position {
  std::vector<int> open = {};  ///< poles, by index into Site::poles
  bool bond_open = false;
  /// None: as the job says; where it says nothing an ideal joint, which lets the most current pass.
  std::optional<units::Resistance> bond = {};
};

struct Solved {
  Faulted faulted;
  circuit::Solution solution;

  units::Current current(int element) const {
    return element < 0 ? units::Current{} : solution.current[element];
  }
  /// Voltage between two nodes; none where they float against each other.
  std::optional<units::Voltage> between(int plus, int minus) const;
};

/// What everything carries. Devices: positive in the direction of normal service, out of the string and
/// to the equipment.
struct Reading {
  std::vector<units::Current> poles;       ///< [n_poles]
  std::vector<units::Current> conductors;  ///< [n_conductors] from `from` to `to`
  std::vector<units::Current> reverse;   ///< [n_strings] largest into the plus terminal of a module
  std::vector<units::Current> bypass;    ///< [n_strings] largest through a bypass diode
  std::vector<units::Current> through;   ///< [n_strings] largest of a module, either way
  std::vector<units::Current> residual;  ///< [n_inputs] what does not come back by the other pole
  units::Current bond;                   ///< largest over a bond
  units::Current fault;
};

/// Solves events of one wiring; keeps the sound networks of the skies it has met, and counts.
class Trials {
 public:
  explicit Trials(const Site& site) : s_(site) {}

  Result<Faulted> network(const Event& e, const Sky& sky, const Position& position = {});
  /// Without any event.
  Result<Faulted> sound_network(Load load, const Sky& sky);
  Result<Solved> solve(const Event& e, const Sky& sky, const Position& position = {});
  Reading read(const Solved& x) const;

  /// Sum of the open-circuit voltages of a string's modules.
  Result<units::Voltage> open_circuit(int string, const Sky& sky);

  const Site& site() const { return s_; }
  int solutions() const { return solutions_; }

 private:
  Result<const Faulted*> sound(Load load, const Sky& sky);

  const Site& s_;
  std::map<std::tuple<int, double, double>, Faulted> sound_;
  int solutions_ = 0;
};

}  // namespace stringwright::events
