#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

/// What a rule may know: quantities and plain words, no design types. `check/` fills it from a wiring
/// and its solutions; a case file fills it by the keys of `describe`.
namespace stringwright::codebook {

using trail::Fact;

/// What is being judged.
enum class Subject {
  string_circuit,   ///< one string from its modules to the box (690: PV string or source circuit)
  output_circuit,   ///< what leaves a box (690: PV source or output circuit)
  string_device,    ///< overcurrent device of a string
  output_device,    ///< overcurrent device or switch at the input end of an output circuit
  input,            ///< PV input of equipment
  equipment_ground  ///< equipment grounding conductor of a run
};
constexpr std::pair<std::string_view, Subject> names(Subject*, int i) {
  constexpr std::pair<std::string_view, Subject> all[] = {
      {"string-circuit", Subject::string_circuit},
      {"output-circuit", Subject::output_circuit},
      {"string-device", Subject::string_device},
      {"output-device", Subject::output_device},
      {"input", Subject::input},
      {"equipment-ground", Subject::equipment_ground}};
  return i < 6 ? all[i] : std::pair<std::string_view, Subject>{};
}

/// Voltage of one group of like modules in series; a string of unlike modules has several.
struct SeriesGroup {
  Fact<units::Ratio> count;  ///< modules in series, a whole number
  Fact<units::Voltage> v_oc, v_mp;
  Fact<units::PerKelvin> b_voc;  ///< per kelvin, negative; of the value at STC
  Fact<units::PerKelvin>
      b_vmp;  ///< of V_mp; where the sheet gives none, that of P_mp (larger: cautious)
};

/// One stretch of the conductor under its conditions of use.
struct StretchFacts {
  Fact<std::string> method;  ///< "PVC40", "free-air", "tray", "buried", ...
  Fact<units::Temperature> ambient;
  std::optional<units::Length> above_roof;  ///< set only over a sunlit roof
  Fact<units::Ratio> wires;                 ///< current-carrying conductors that share it
  Fact<units::Length> length;
};

struct Facts {
  Subject subject = Subject::string_circuit;
  std::string thing;  ///< "S1", "OUT", "A1.Q1", "CC1.PV1", "OUT.EGC"; the finding is rule@thing

  // The array on this circuit
  std::vector<SeriesGroup> series;  ///< of the string, or of the worst string on an output or input
  Fact<units::Current> i_sc;        ///< of one string: the largest module's, rear gain included
  Fact<units::Current> i_mp;        ///< of one string
  Fact<units::Current> i_sc_total;  ///< output, input: sum of the strings' i_sc
  Fact<units::Current> i_mp_total;  ///< output, input: sum of the strings' i_mp
  Fact<units::Ratio> strings;       ///< strings in parallel on the bus this circuit belongs to
  Fact<units::Current>
      i_sc_others;  ///< string: sum of i_sc of all other strings that can feed back into it
  Fact<units::Current> fuse_max;  ///< smallest maximum series fuse rating of the string's modules
  Fact<units::Voltage> v_sys;     ///< smallest maximum system voltage of the modules

  // Site
  Fact<units::Temperature> t_min, t_record, t_hot;
  Fact<units::TemperatureDifference> rise;
  Fact<std::string> voltage_by;  ///< "coefficient" or "table"
  Fact<bool> dwelling, on_building;
  Fact<std::string> scheme;  ///< "functional", "solid", "ungrounded"

  // Conductor
  Fact<units::Wire> wire;
  Fact<units::Length> length;  ///< one way
  std::vector<StretchFacts> stretches;
  Fact<units::Temperature> terminals;  ///< lowest terminal rating at both ends
  Fact<units::Current> protected_by;   ///< rating of the device that protects this conductor
  Fact<bool> protected_needed;         ///< false: no device is needed or fitted ahead of it

  // Device
  Fact<units::Current> rating;
  Fact<units::Voltage> v_dc_pole;
  Fact<units::Ratio> poles;  ///< poles in series in the circuit
  Fact<bool> polarised, load_break, continuous_100;
  Fact<units::Current> interrupt;
  Fact<bool> fitted;  ///< a device is fitted

  // Equipment and battery
  Fact<units::Voltage> v_max_input, v_operating_min, v_start, v_battery_max;
  Fact<units::Current> isc_max_input, battery_fault;
  Fact<bool> battery;  ///< a battery stands behind the equipment
  Fact<bool> blocks_reverse;
  Fact<bool> isolated;

  // Equipment ground
  Fact<units::Current> device_ahead;  ///< rating of the overcurrent device ahead of the circuit
  Fact<bool> device_ahead_fitted;
  Fact<units::Wire> circuit_wire;  ///< of the circuit it runs with: it never has to be larger
};

}  // namespace stringwright::codebook
