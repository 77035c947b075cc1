#pragma once

#include <iterator>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/about.hpp"
#include "codebook/facts/arrester.hpp"
#include "codebook/facts/behind.hpp"
#include "codebook/facts/box.hpp"
#include "codebook/facts/connector.hpp"
#include "codebook/facts/disconnect.hpp"
#include "codebook/facts/grounding.hpp"
#include "codebook/facts/hull.hpp"
#include "codebook/facts/label.hpp"
#include "codebook/facts/laid.hpp"
#include "codebook/facts/parallel.hpp"
#include "codebook/facts/place.hpp"
#include "codebook/facts/protection.hpp"
#include "codebook/facts/study.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

/// What a rule may know: quantities and plain words, no design types. `check/` fills it from a wiring
/// and its solutions; a case file fills it by the keys of `describe` (cases/README.md).
namespace stringwright::codebook {

using trail::Fact;

/// What is being judged.
enum class Subject {
  string_circuit,    ///< one string from its modules to the box (690: PV string or source circuit)
  output_circuit,    ///< what leaves a box (690: PV source or output circuit)
  string_device,     ///< overcurrent device of a string
  output_device,     ///< overcurrent device or switch at the input end of an output circuit
  input,             ///< PV input of equipment
  equipment_ground,  ///< equipment grounding conductor of a run, or the bond of a rack
  array,             ///< the whole array: its grounding, its metal, rapid shutdown
  equipment,         ///< what the array feeds: its ground-fault and arc-fault protection
  arrester,          ///< surge arrester of a box
  label,             ///< one label that may be due at one place
  stretch,           ///< of raceway, tray, earth or open air, with everything that lies in it
  enclosure,         ///< of a box: how it hangs, what it is made of
  surface,           ///< what modules stand on, with their leads
  pull_box,          ///< a box that wires are pulled through
  box,               ///< a combiner or re-combiner box in its place
  part,              ///< a kind of part or a piece of equipment, by its marking
  disconnect,        ///< what isolates a box, an input or the PV system
  connector,         ///< a connector family
  connector_pair     ///< two families that mate
};
constexpr std::pair<std::string_view, Subject> names(Subject*, int i) {
  constexpr std::pair<std::string_view, Subject> all[] = {
      {"string-circuit", Subject::string_circuit},
      {"output-circuit", Subject::output_circuit},
      {"string-device", Subject::string_device},
      {"output-device", Subject::output_device},
      {"input", Subject::input},
      {"equipment-ground", Subject::equipment_ground},
      {"array", Subject::array},
      {"equipment", Subject::equipment},
      {"arrester", Subject::arrester},
      {"label", Subject::label},
      {"stretch", Subject::stretch},
      {"enclosure", Subject::enclosure},
      {"surface", Subject::surface},
      {"pull-box", Subject::pull_box},
      {"box", Subject::box},
      {"part", Subject::part},
      {"disconnect", Subject::disconnect},
      {"connector", Subject::connector},
      {"connector-pair", Subject::connector_pair}};
  return i < static_cast<int>(std::size(all)) ? all[i] : std::pair<std::string_view, Subject>{};
}

/// Voltage of one group of like modules in series; a string of unlike modules has several.
struct SeriesGroup {
  Fact<units::Ratio> count;  ///< modules in series, a whole number
  Fact<units::Voltage> v_oc, v_mp;
  Fact<units::PerKelvin> b_voc;  ///< per kelvin, negative; of the value at STC
  Fact<units::PerKelvin>
      b_vmp;  ///< of V_mp; where the sheet gives none, that of P_mp (larger: cautious)
};

template <class V>
void describe(V& visit, SeriesGroup& g) {
  visit("count", g.count, About{.doc = "Modules in series.", .example = "3"});
  visit("v_oc", g.v_oc, About{.doc = "Open-circuit voltage at STC.", .example = "40.9 V"});
  visit("v_mp", g.v_mp, About{.doc = "Voltage at maximum power at STC.", .example = "34.1 V"});
  visit("b_voc", g.b_voc, About{.doc = "Temperature coefficient of v_oc.", .example = "-0.28 %/K"});
  visit("b_vmp", g.b_vmp, About{.doc = "Temperature coefficient of v_mp.", .example = "-0.36 %/K"});
}

/// One stretch of the conductor under its conditions of use.
struct StretchFacts {
  Fact<std::string> method;  ///< "PVC40", "free-air", "tray", "buried", ...
  Fact<units::Temperature> ambient;
  std::optional<units::Length> above_roof;  ///< set only over a sunlit roof
  Fact<units::Ratio> wires;                 ///< current-carrying conductors that share it
  Fact<units::Ratio> raceways;  ///< alike raceways that parallel wires are divided among
  Fact<bool> inside;            ///< in a building
  Fact<units::Length> length;
};

template <class V>
void describe(V& visit, StretchFacts& s) {
  visit("method", s.method, About{.doc = "Wiring method.", .example = "PVC40"});
  visit("ambient", s.ambient, About{.doc = "Ambient without sun on a roof.", .example = "32 °C"});
  visit("above_roof", s.above_roof,
        About{.doc = "Underside above a sunlit roof.", .example = "25 mm"});
  visit("wires", s.wires,
        About{.doc = "Current-carrying conductors that share it.", .example = "2"});
  visit("raceways", s.raceways,
        About{.doc = "Raceways that parallel wires are divided among.", .example = "1"});
  visit("length", s.length, About{.doc = "Length of the stretch.", .example = "36.5 m"});
  visit("inside", s.inside, About{.doc = "In a building.", .example = "false"});
}

/// What one event (a fault or a mistake at one place) does to the thing that is judged, from a solution
/// of the faulted circuit under the strongest light.
struct EventFacts {
  std::string id;               ///< "reversed@S1"
  Fact<bool> work_error;        ///< a mistake of people, not a fault of equipment
  Fact<bool> cleared;           ///< an overcurrent device in the path opens under that current
  Fact<units::Current> i;       ///< largest through it; backwards through a string's modules
  Fact<units::Current> i_wire;  ///< string: largest through its conductors
  Fact<bool> against_marks;     ///< device: it opens in one direction only, and this is the other
  Fact<units::Voltage> v_recovery;  ///< device: across it when it alone opens
  Fact<units::Current> i_diode;     ///< string: largest through a bypass diode
  Fact<units::Current> i_plug;      ///< string: largest through a connector
  Fact<std::string> gf_sees;        ///< fault to ground: "seen", "blind", "at-start", "unsure"
  Fact<units::Current>
      i_gf;  ///< fault to ground: least that the ground-fault device sees in full sun
};

template <class V>
void describe(V& visit, EventFacts& e) {
  visit("id", e.id, About{.doc = "Kind and place.", .required = true, .example = "reversed@S1"});
  visit("work_error", e.work_error, About{.doc = "A mistake of people.", .example = "true"});
  visit("cleared", e.cleared, About{.doc = "A device opens under it.", .example = "false"});
  visit("i", e.i, About{.doc = "Largest current; backwards in modules.", .example = "48.7 A"});
  visit("i_wire", e.i_wire, About{.doc = "Largest in the conductors.", .example = "48.7 A"});
  visit("against_marks", e.against_marks, About{.doc = "Against its marks.", .example = "false"});
  visit("v_recovery", e.v_recovery,
        About{.doc = "Across the device when it opens.", .example = "283.4 V"});
  visit("i_diode", e.i_diode, About{.doc = "Largest in a bypass diode.", .example = "33.1 A"});
  visit("i_plug", e.i_plug, About{.doc = "Largest in a connector.", .example = "48.7 A"});
  visit("gf_sees", e.gf_sees,
        About{.doc = "What the ground-fault device makes of it: seen, blind, at-start, unsure.",
              .example = "blind"});
  visit("i_gf", e.i_gf, About{.doc = "Least that device sees in full sun.", .example = "0.4 A"});
}

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
      i_sc_others;  ///< sum of i_sc of all strings elsewhere that can feed back into this circuit
  Fact<units::Current> fuse_max;  ///< smallest maximum series fuse rating of the string's modules
  Fact<units::Voltage> v_sys;     ///< smallest maximum system voltage of the modules

  // Site
  Fact<units::Temperature> t_min, t_record, t_hot;
  Fact<units::TemperatureDifference> rise;
  Fact<std::string> voltage_by;  ///< "coefficient" or "table"
  Fact<bool> dwelling, on_building;
  Fact<std::string> scheme;                     ///< "functional", "solid", "ungrounded"
  Fact<std::string> grounded_pole, devices_in;  ///< "plus", "minus"; devices_in also "both"
  Fact<bool> bipolar, apart;                    ///< two halves; kept in equipment of their own
  StudyFacts study;

  // Conductor
  Fact<units::Wire> wire;
  Fact<units::Ratio>
      wires_per_pole;          ///< such wires side by side in each pole; unknown counts as one
  Fact<units::Length> length;  ///< one way
  Fact<units::Voltage> drop_before;  ///< lost ahead of it: by its worst string, or earlier parts
  std::vector<StretchFacts> stretches;
  Fact<units::Temperature> terminals;  ///< lowest terminal rating at both ends
  Fact<units::Current> protected_by;   ///< rating of the device that protects this conductor
  Fact<bool> protected_needed;         ///< false: no device is needed or fitted ahead of it
  Fact<units::Ratio> shared_device;    ///< strings that share its device; 1: it has its own
  Fact<bool> converter_limit;          ///< sized by the input's rated current (690.8(A)(2))
  Fact<units::Current> i_rated_input;  ///< rated current of the equipment's input
  Fact<units::Voltage> v_rated;        ///< what a part, a conductor or a connector is made for

  // Device
  Fact<units::Current> rating;
  Fact<units::Voltage> v_dc_pole;
  Fact<units::Ratio> poles;  ///< poles in series in the circuit
  Fact<bool> polarised, load_break, continuous_100;
  Fact<units::Current> interrupt;
  Fact<bool> fitted;                  ///< a device is fitted
  Fact<units::Temperature> t_inside;  ///< air around it on the hottest day
  Fact<units::Ratio> derating;        ///< the maker's factor on the rating there
  Fact<std::string> part_kind, listed;

  // Equipment and battery
  Fact<units::Voltage> v_max_input, v_operating_min, v_start, v_battery_max;
  Fact<units::Current> isc_max_input, battery_fault;
  Fact<bool> battery;  ///< a battery stands behind the equipment
  Fact<bool> blocks_reverse;
  Fact<bool> isolated;

  // Events: empty where none were solved
  std::vector<EventFacts> events;
  Fact<units::Current> ampacity;  ///< what the conductor may carry without end
  Fact<units::Current> bypass_rating, connector_rating;  ///< smallest of the string's modules

  // Equipment ground
  Fact<units::Current> device_ahead;  ///< rating of the overcurrent device ahead of the circuit
  Fact<bool> device_ahead_fitted;
  Fact<units::Wire> circuit_wire;  ///< of the circuit it runs with: it never has to be larger

  // By concern, one header each in facts/
  GroundingFacts grounding;
  GroundFaultFacts ground_fault;
  ArcFaultFacts arc_fault;
  ShutdownFacts shutdown;
  ArresterFacts arrester;
  LabelFacts label;
  LaidFacts laid;                             ///< stretch
  HullFacts hull;                             ///< box
  PullFacts pull;                             ///< pull box
  MarkFacts marks;                            ///< string and output circuits, input, array
  Fact<units::Temperature> hot_rating;        ///< insulation marked above 90 °C, where it is
  Fact<units::Ratio> bifaciality, rear_gain;  ///< of the modules; zero: one-sided
  Fact<bool> with_ground;                     ///< output: an equipment ground wire runs with it
  ParallelFacts parallel;
  PlaceFacts place;
  BoxFacts box;
  DisconnectFacts disconnect;
  ConnectorFacts connector;
  BehindFacts behind;
};

template <class V>
void describe(V& visit, Facts& f) {
  visit("subject", f.subject,
        About{.doc = "What is judged.", .required = true, .example = "input"});
  visit("thing", f.thing, About{.doc = "Its name.", .example = "CC1.PV1"});
  visit("series", f.series, About{.doc = "Groups of like modules in series."});
  visit("i_sc", f.i_sc, About{.doc = "Short-circuit current of one string.", .example = "11.35 A"});
  visit("i_mp", f.i_mp,
        About{.doc = "Current at maximum power of one string.", .example = "10.71 A"});
  visit("i_sc_total", f.i_sc_total, About{.doc = "Sum of the strings' i_sc.", .example = "22.7 A"});
  visit("i_mp_total", f.i_mp_total,
        About{.doc = "Sum of the strings' i_mp.", .example = "21.42 A"});
  visit("strings", f.strings, About{.doc = "Strings in parallel.", .example = "2"});
  visit("i_sc_others", f.i_sc_others,
        About{.doc = "Sum of i_sc of what else can feed back.", .example = "11.35 A"});
  visit("fuse_max", f.fuse_max, About{.doc = "Maximum series fuse rating.", .example = "20 A"});
  visit("v_sys", f.v_sys, About{.doc = "Maximum system voltage.", .example = "1000 V"});
  visit("t_min", f.t_min, About{.doc = "Lowest expected ambient.", .example = "-31 °C"});
  visit("t_record", f.t_record, About{.doc = "Record low.", .example = "-42 °C"});
  visit("t_hot", f.t_hot, About{.doc = "Hot design ambient.", .example = "32 °C"});
  visit("rise", f.rise, About{.doc = "Cells above air in full sun.", .example = "30 K"});
  visit("voltage_by", f.voltage_by,
        About{.doc = "coefficient or table.", .example = "coefficient"});
  visit("dwelling", f.dwelling, About{.doc = "A one- or two-family dwelling.", .example = "true"});
  visit("on_building", f.on_building, About{.doc = "On or in a building.", .example = "false"});
  visit("scheme", f.scheme, About{.doc = "Grounding scheme.", .example = "functional"});
  visit("grounded_pole", f.grounded_pole, About{.doc = "plus or minus.", .example = "minus"});
  visit("devices_in", f.devices_in, About{.doc = "Poles with devices.", .example = "plus"});
  visit("bipolar", f.bipolar, About{.doc = "Two halves of opposite sign.", .example = "false"});
  visit("apart", f.apart, About{.doc = "The halves stand apart.", .example = "true"});
  visit("study", f.study, About{.doc = "An engineer's study."});
  visit("wire", f.wire, About{.doc = "The conductor.", .example = "6 AWG Cu XHHW-2"});
  visit("wires_per_pole", f.wires_per_pole,
        About{.doc = "Such wires side by side in each pole.", .example = "2"});
  visit("length", f.length, About{.doc = "One way.", .example = "38 m"});
  visit("drop_before", f.drop_before,
        About{.doc = "Voltage lost ahead of this circuit at maximum power.", .example = "0.41 V"});
  visit("stretches", f.stretches, About{.doc = "Stretches of the conductor."});
  visit("terminals", f.terminals, About{.doc = "Lowest terminal rating.", .example = "75 °C"});
  visit("protected_by", f.protected_by,
        About{.doc = "Rating of the device that protects it.", .example = "40 A"});
  visit("protected_needed", f.protected_needed,
        About{.doc = "false: no device needed or fitted.", .example = "true"});
  visit("shared_device", f.shared_device,
        About{.doc = "Strings that share its device.", .example = "2"});
  visit("converter_limit", f.converter_limit,
        About{.doc = "Sized by the input's rated current.", .example = "true"});
  visit("i_rated_input", f.i_rated_input,
        About{.doc = "Rated current of the input.", .example = "40 A"});
  visit("v_rated", f.v_rated, About{.doc = "Voltage it is made for.", .example = "600 V"});
  visit("rating", f.rating, About{.doc = "Rating of the device.", .example = "20 A"});
  visit("v_dc_pole", f.v_dc_pole, About{.doc = "Volts that one pole opens.", .example = "150 V"});
  visit("poles", f.poles, About{.doc = "Poles in series in the circuit.", .example = "1"});
  visit("polarised", f.polarised, About{.doc = "Opens in one direction only.", .example = "false"});
  visit("load_break", f.load_break, About{.doc = "May be opened under load.", .example = "true"});
  visit("continuous_100", f.continuous_100,
        About{.doc = "Assembly listed for full load.", .example = "false"});
  visit("interrupt", f.interrupt, About{.doc = "Interrupting rating.", .example = "5 kA"});
  visit("fitted", f.fitted, About{.doc = "A device is fitted.", .example = "true"});
  visit("t_inside", f.t_inside, About{.doc = "Air around it.", .example = "55 °C"});
  visit("derating", f.derating, About{.doc = "Factor on the rating there.", .example = "0.9"});
  visit("part_kind", f.part_kind, About{.doc = "Kind of part.", .example = "breaker"});
  visit("listed", f.listed, About{.doc = "pv, dc, supplementary or none.", .example = "pv"});
  visit("v_max_input", f.v_max_input, About{.doc = "Absolute maximum.", .example = "150 V"});
  visit("v_operating_min", f.v_operating_min,
        About{.doc = "Lowest volts of its window.", .example = "60 V"});
  visit("v_start", f.v_start, About{.doc = "Above the battery to start.", .example = "5 V"});
  visit("v_battery_max", f.v_battery_max,
        About{.doc = "Highest charge voltage.", .example = "54 V"});
  visit("isc_max_input", f.isc_max_input,
        About{.doc = "Highest array current allowed.", .example = "50 A"});
  visit("battery_fault", f.battery_fault,
        About{.doc = "Fault current of the battery.", .example = "5 kA"});
  visit("battery", f.battery, About{.doc = "A battery stands behind.", .example = "true"});
  visit("blocks_reverse", f.blocks_reverse,
        About{.doc = "Documented to block reverse current.", .example = "true"});
  visit("isolated", f.isolated, About{.doc = "Input isolated from output.", .example = "false"});
  visit("events", f.events, About{.doc = "What events do to it."});
  visit("ampacity", f.ampacity,
        About{.doc = "What the conductor may carry without end.", .example = "35 A"});
  visit("bypass_rating", f.bypass_rating,
        About{.doc = "Smallest rating of the bypass diodes.", .example = "15 A"});
  visit("connector_rating", f.connector_rating,
        About{.doc = "Smallest rating of the connectors.", .example = "30 A"});
  visit("device_ahead", f.device_ahead,
        About{.doc = "Device ahead of the circuit.", .example = "40 A"});
  visit("device_ahead_fitted", f.device_ahead_fitted,
        About{.doc = "One is fitted.", .example = "true"});
  visit("circuit_wire", f.circuit_wire,
        About{.doc = "Conductor of its circuit.", .example = "6 AWG Cu XHHW-2"});
  visit("grounding", f.grounding, About{.doc = "How it is joined to earth."});
  visit("ground_fault", f.ground_fault, About{.doc = "What watches for ground faults."});
  visit("arc_fault", f.arc_fault, About{.doc = "What watches for arcs."});
  visit("shutdown", f.shutdown, About{.doc = "Rapid shutdown."});
  visit("arrester", f.arrester, About{.doc = "Surge arrester."});
  visit("label", f.label, About{.doc = "A label."});
  visit("laid", f.laid, About{.doc = "The stretch and what lies in it."});
  visit("parallel", f.parallel, About{.doc = "How circuits stand beside each other."});
  visit("hull", f.hull, About{.doc = "Enclosure of a box."});
  visit("pull", f.pull, About{.doc = "A pull box."});
  visit("marks", f.marks, About{.doc = "Marks, colours, work on site."});
  visit("hot_rating", f.hot_rating,
        About{.doc = "Insulation marked above 90 °C.", .example = "105 °C"});
  visit("bifaciality", f.bifaciality, About{.doc = "Of the modules.", .example = "0.7"});
  visit("rear_gain", f.rear_gain, About{.doc = "Gain of the rear side.", .example = "10 %"});
  visit("with_ground", f.with_ground, About{.doc = "A ground wire runs along.", .example = "true"});
  visit("place", f.place, About{.doc = "Where it stands."});
  visit("box", f.box, About{.doc = "A box."});
  visit("disconnect", f.disconnect, About{.doc = "A disconnect."});
  visit("connector", f.connector, About{.doc = "A connector family or pair."});
  visit("behind", f.behind, About{.doc = "What stands behind the input."});
}

}  // namespace stringwright::codebook
