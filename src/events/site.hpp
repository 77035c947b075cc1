#pragma once

#include <optional>
#include <string>
#include <vector>

#include "circuit/build.hpp"
#include "codebook/device_response.hpp"
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
};

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

  Site(const wiring::Wiring& wiring, const circuit::Models& models,
       const circuit::Resistances& resistances,
       codebook::Convention convention = codebook::Convention::us);

  int find_string(std::string_view id) const;
  int find_box(std::string_view id) const;
  int find_input(std::string_view id) const;
  /// Bonded metal nearest to a module or box: the terminal that a ground fault there touches; -1: none.
  int metal_near(const std::string& owner) const;
  /// Something other than leaks ties a pole to ground.
  bool bonded() const;
  /// Battery behind an input; null where none is said.
  const job::Battery* battery_of(int input) const;
  bool any_battery() const;
  /// Input that a string or box reaches, -1: none.
  int input_of_string(int string) const;
  int input_of_box(int box) const;
};

}  // namespace stringwright::events
