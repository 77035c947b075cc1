#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "circuit/network.hpp"
#include "circuit/solve.hpp"
#include "pv/module_model.hpp"
#include "units/quantity.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::circuit {

/// Sun on the plane of a module and the temperature of its cells.
struct Condition {
  units::Irradiance sun = pv::stc_irradiance;
  units::Temperature cell = pv::stc_temperature;
  friend bool operator==(const Condition&, const Condition&) = default;
};

/// What stands at a PV input of equipment.
struct Port {
  enum class Kind { open, short_circuit, voltage, maximum_power };
  Kind kind = Kind::open;
  units::Voltage voltage;  ///< held, where the kind says so

  static Port open() { return {}; }
  static Port short_circuit() { return {Kind::short_circuit, {}}; }
  static Port at(units::Voltage v) { return {Kind::voltage, v}; }
  static Port maximum_power() { return {Kind::maximum_power, {}}; }
};

/// One sky, one position of every switch, one thing at every input.
struct State {
  Condition sky;
  std::map<int, Condition> module_sky;  ///< by device: modules under another sky (shade)
  std::set<std::string>
      open;  ///< ids of protectors that stand open: "A1.Q1", and of shutdown units
  bool diodes_shorted = false;  ///< blocking diodes have failed, as they mostly do: into a joint
  Port port;
  std::map<int, Port> input_port;  ///< by index into inputs: inputs with another port
};

/// Module models by the id of the module record.
using Models = std::map<std::string, pv::ModuleModel>;

/// A model of every module record that the wiring uses. A sheet that can't be fitted is left out, and
/// the reason stands in `failures` under the module's id.
Models fit_models(const wiring::Wiring& w, std::map<std::string, Failure>& failures,
                  const pv::FitOptions& options = {});

/// Resistance of every conductor, `[n_conductors]`; 0 Ω is an ideal joint. Where a resistance is not
/// known the caller decides, and says so.
using Resistances = std::vector<units::Resistance>;

struct InputPoint {
  std::optional<units::Voltage> v;  ///< plus against minus; none where nothing connects the two
  units::Current i;                 ///< into the input's plus terminal
  units::Power p;
};

/// A string as it is seen where it lands: at the box, or at the input.
struct StringPoint {
  units::Current i;  ///< positive out of the string's plus end
  std::optional<units::Voltage>
      v;  ///< between the landing ends of its home run; none: lands nowhere
  units::Power p;
};

struct DevicePoint {
  /// Module: out of its plus terminal. Protector: from line to load, of its first pole. Input: into
  /// its plus terminal. 0 for what carries none.
  units::Current i;
  /// Module, input, arrester: plus against minus. Protector: line against load of its first pole.
  /// None where the two sides have no common potential.
  std::optional<units::Voltage> v;
  bool open = false;
};

/// Everything at one operating point. Vectors have the order of the wiring's.
struct OperatingPoint {
  std::vector<InputPoint> inputs;          ///< [n_inputs]
  std::vector<StringPoint> strings;        ///< [n_strings]
  std::vector<DevicePoint> devices;        ///< [n_devices]
  std::vector<units::Current> conductors;  ///< [n_conductors] from `from` to `to`
  /// [n_terminals] against the minus terminal of the input it is connected to (the first, where there
  /// are several); none: floating, treat it as live.
  std::vector<std::optional<units::Voltage>> potential;
  units::Power lost_in_conductors;
  units::Power from_modules;  ///< sum over the modules; negative where one takes power
  units::Current residual;
  int iterations = 0;
};

/// The network of a wiring in a state, and where its things are. Faults are added to `network` before
/// it is solved.
struct Built {
  Network network;
  std::vector<int> node;       ///< [n_terminals]
  std::vector<int> module;     ///< [n_devices] first element of a module, -1 else
  std::vector<int> conductor;  ///< [n_conductors] element, -1: both ends are one node
  std::vector<int> pole;       ///< [n_devices] element of a closed protector's first pole, -1 else
  std::vector<int> port;       ///< [n_inputs] element, -1: open
  int earth = -1;              ///< node of the first input's ground terminal, -1: none
  /// Every string is of like modules under one sky, so that power over voltage has one maximum. Whoever
  /// adds a fault sets it to false.
  bool one_maximum = true;
};

/// Failures: circuit.no-model (a module record without a model), circuit.bad-resistance (their number,
/// or one that is negative), circuit.no-such-device (a protector in `state.open`), and those of pv::at.
Result<Built> build(const wiring::Wiring& w, const Models& models, const Resistances& resistances,
                    const State& state);

/// The record of a solved network.
OperatingPoint read(const wiring::Wiring& w, const Built& built, const State& state,
                    const Solution& solution);

/// Solves a built network and reads it. A port at maximum power is searched over its voltage for the
/// global maximum (circuit/maximum_power.hpp).
Result<OperatingPoint> operating_point(const wiring::Wiring& w, const Built& built,
                                       const State& state, const SolveOptions& options = {});

/// The same from the beginning: build, solve, read.
Result<OperatingPoint> operating_point(const wiring::Wiring& w, const Models& models,
                                       const Resistances& resistances, const State& state,
                                       const SolveOptions& options = {});

}  // namespace stringwright::circuit
