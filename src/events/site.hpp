#pragma once

#include <optional>
#include <string>
#include <vector>

#include "circuit/build.hpp"
#include "codebook/device_response.hpp"
#include "codebook/methods/time_current.hpp"
#include "units/quantity.hpp"
#include "wiring/wiring.hpp"

/// Faults and mistakes at every place of a wiring, and what they do: kinds -> catalogue -> table.
namespace stringwright::events {

/// One pole of an overcurrent device or switch as it stands in its conductor.
struct DevicePole {
  enum class Role { string, feeder, input };
  int device = -1;  ///< into Wiring::devices
  wiring::Pole pole = wiring::Pole::plus;
  std::string name;  ///< "A1.Q1"; where the device has both poles "A1.Q1+" and "A1.Q1-"
  Role role = Role::string;
  int of = -1;                           ///< string, box whose output lands here, or input
  int line = -1, load = -1;              ///< terminals
  std::optional<units::Current> rating;  ///< none for a part that is not known
  bool protects = true;                  ///< false: a disconnect, which opens by hand only
  std::optional<units::Voltage>
      v_opens;  ///< d.c. volts that this pole may open: pole times poles in series
  std::optional<units::Current> interrupt;
  std::optional<bool> polarised, load_break;
  std::vector<codebook::TimeCurrent> curve;  ///< printed points of its part, rising
  std::vector<codebook::Derating> derating;  ///< its part's table, rising
  std::optional<units::Temperature> in_box;  ///< air around it on the hottest day, where known
  std::optional<units::Ratio> heat_factor;   ///< on its rating then; none: not known
};

/// The two ends of what cells and devices can be.
enum class Season { cold, hot };

/// Strings of one make-up on one box behind one kind of device: what happens to one happens to each.
struct LikeStrings {
  std::vector<int> strings;
  int first = -1;  ///< the one that is solved: the shortest home run, into which most flows
};

/// What all events of one wiring share. Keeps references: the wiring and what belongs to it must stay.
struct Site {
  const wiring::Wiring& w;
  const circuit::Models& models;
  const circuit::Resistances& resistances;
  units::Temperature cold, hot;  ///< cells on the coldest and on the hottest day
  codebook::Convention convention = codebook::Convention::us;
  /// Leak from each pole to ground where nothing else ties the array to ground: the least that an
  /// insulation test lets pass.
  units::Resistance insulation = units::megohms(1);

  std::vector<DevicePole> poles;
  std::vector<LikeStrings> likes;
  std::vector<int> bonds;  ///< devices that tie a pole to ground

  Site(const wiring::Wiring& wiring, const circuit::Models& models,
       const circuit::Resistances& resistances,
       codebook::Convention convention = codebook::Convention::us);

  int find_string(std::string_view id) const;
  int find_box(std::string_view id) const;
  int find_input(std::string_view id) const;
  /// Bonded metal nearest to a module or box: the terminal that a ground fault there touches; -1: none.
  int metal_near(const std::string& owner) const;
  /// Something other than leaks ties a pole to ground.
  bool bonded() const { return !bonds.empty(); }
  /// What watches for ground faults: in the equipment that owns the bond, else in the first that says; null
  /// where the job does not say how.
  const job::GroundFault* detector() const;
  bool plus_grounded() const;
  /// Battery behind an input; null where none is said.
  const job::Battery* battery_of(int input) const;
  bool any_battery() const;
  /// Input that a string or box reaches, -1: none.
  int input_of_string(int string) const;
  int input_of_box(int box) const;
};

}  // namespace stringwright::events
