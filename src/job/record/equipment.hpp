#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/disconnect.hpp"
#include "job/record/ground_fault.hpp"
#include "job/record/names.hpp"
#include "job/record/output.hpp"
#include "parts/part.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

enum class EquipmentKind { mppt_controller, pwm_controller, inverter, pump_drive };
constexpr Name<EquipmentKind> names(EquipmentKind*, int i) {
  constexpr Name<EquipmentKind> all[] = {{"mppt-controller", EquipmentKind::mppt_controller},
                                         {"pwm-controller", EquipmentKind::pwm_controller},
                                         {"inverter", EquipmentKind::inverter},
                                         {"pump-drive", EquipmentKind::pump_drive}};
  return i < 4 ? all[i] : Name<EquipmentKind>{};
}

/// What a battery is made of, as far as the rules ask.
enum class Cells { lead, other };
constexpr Name<Cells> names(Cells*, int i) {
  constexpr Name<Cells> all[] = {{"lead", Cells::lead}, {"other", Cells::other}};
  return i < 2 ? all[i] : Name<Cells>{};
}

/// Where a piece of equipment stands: it decides how far PV circuits run on or in a building.
enum class EquipmentPlace { inside, outside_wall, off_building };
constexpr Name<EquipmentPlace> names(EquipmentPlace*, int i) {
  constexpr Name<EquipmentPlace> all[] = {{"inside", EquipmentPlace::inside},
                                          {"outside-wall", EquipmentPlace::outside_wall},
                                          {"off-building", EquipmentPlace::off_building}};
  return i < 3 ? all[i] : Name<EquipmentPlace>{};
}

struct Battery {
  Span span;
  Given<units::Voltage> v_max, v_nominal;
  Given<units::Current> fault_current;
  Given<units::Energy> energy;
  Given<Cells> cells;
  Given<bool> guarded, device, leaves, disconnect;
  Given<bool> bonded;
};
template <class V>
void describe(V& visit, Battery& b) {
  visit("v_max", b.v_max,
        About{.doc = "Highest charge voltage.", .example = "54 V", .min = 1, .max = 1500});
  visit("fault_current", b.fault_current,
        About{.doc = "Fault current the battery can give at the equipment.",
              .example = "5 kA",
              .min = 1,
              .max = 1e6});
  visit("v_nominal", b.v_nominal,
        About{.doc = "Nominal voltage: cells times 2 V for lead.",
              .example = "48 V",
              .min = 1,
              .max = 1500});
  visit("energy", b.energy,
        About{.doc = "What it stores.", .example = "9.6 kWh", .min = 1, .max = 1e12});
  visit("cells", b.cells, About{.doc = "lead, or other.", .example = "lead"});
  visit(
      "guarded", b.guarded,
      About{.doc = "Nobody can touch its live parts in the course of upkeep.", .example = "true"});
  visit("leaves", b.leaves,
        About{.doc = "Its conductors run more than 5 ft (1.5 m) or through a wall.",
              .example = "false"});
  visit("device", b.device,
        About{.doc = "It has an overcurrent device at its own end.", .example = "true"});
  visit("disconnect", b.disconnect,
        About{.doc = "It has a disconnect of its own.", .example = "true"});
  visit("bonded", b.bonded,
        About{.doc = "One of its poles is joined to ground, at the battery or in the load centre "
                     "between; left out, the number of bonds can't be told.",
              .example = "false"});
}

struct Input {
  std::string id;
  Span span;
  Given<units::Voltage> v_max, v_operating_max, v_operating_min, v_start;
  Given<units::Current> isc_max, i_max;
  Given<units::Temperature> terminals;
  Given<std::string> device;
  Given<int> poles;
  Given<units::Voltage> v_impulse;
  std::optional<Disconnect> disconnect;
};
template <class V>
void describe(V& visit, Input& i) {
  visit("v_max", i.v_max,
        About{.doc = "Absolute maximum input voltage.", .example = "150 V", .min = 1, .max = 2000});
  visit("v_operating_max", i.v_operating_max,
        About{.doc = "Highest voltage it works at, where lower than v_max.",
              .example = "145 V",
              .min = 1,
              .max = 2000});
  visit("v_operating_min", i.v_operating_min,
        About{.doc = "Lowest voltage of its tracking window.",
              .example = "60 V",
              .min = 1,
              .max = 2000});
  visit("v_start", i.v_start,
        About{.doc = "What it needs above the battery to start, or its start voltage where there "
                     "is no battery.",
              .example = "5 V",
              .min = 0,
              .max = 2000});
  visit("isc_max", i.isc_max,
        About{.doc = "Highest array short-circuit current allowed at the input.",
              .example = "50 A",
              .min = 0.1,
              .max = 10000});
  visit("i_max", i.i_max,
        About{.doc = "Rated input current; more is clipped, not dangerous.",
              .example = "40 A",
              .min = 0.1,
              .max = 10000});
  visit("terminals", i.terminals,
        About{.doc = "Temperature rating of its terminals.",
              .example = "75 °C",
              .min = 313.15,
              .max = 423.15});
  visit("device", i.device,
        About{.doc = "Breaker, fuse or disconnect at the input, a part.",
              .example = "breaker-40A",
              .may_choose = true});
  visit("poles", i.poles,
        About{.doc = "Poles of that device in the circuit.", .example = "1", .min = 1, .max = 4});
  visit("v_impulse", i.v_impulse,
        About{.doc = "Surge voltage that it bears (rated impulse withstand).",
              .example = "2.5 kV",
              .min = 100,
              .max = 20000});
  visit("disconnect", i.disconnect,
        About{.doc = "What isolates the equipment from this circuit; its part may be the device "
                     "above."});
}

struct Equipment {
  std::string id;
  Span span;
  Given<EquipmentKind> kind;
  Given<bool> blocks_reverse, isolated, bond_inside, motor_disconnect;
  Given<parts::Listing> listed;
  Given<EquipmentPlace> place;
  Given<std::string> load_centre;
  std::optional<Battery> battery;
  std::optional<GroundFault> ground_fault;
  Given<bool> arc_fault;
  Given<units::Current> ac_current;
  Given<units::Voltage> ac_voltage;
  std::optional<ControllerOutput> output;
  std::optional<LoadCentre> centre;
  std::optional<Diversion> diversion;
  std::optional<Disconnect> system_disconnect;
  std::vector<Input> input;
};
template <class V>
void describe(V& visit, Equipment& e) {
  visit("kind", e.kind,
        About{.doc = "What it is.", .required = true, .example = "mppt-controller"});
  visit("blocks_reverse", e.blocks_reverse,
        About{.doc = "Its documents say that it blocks current from battery to array; left out, "
                     "back-feed can't be told.",
              .example = "true"});
  visit("isolated", e.isolated,
        About{.doc = "Input and output are isolated from each other.", .example = "false"});
  visit(
      "listed", e.listed,
      About{.doc = "What its marking lists it for: pv, dc, supplementary, none.", .example = "pv"});
  visit("motor_disconnect", e.motor_disconnect,
        About{.doc = "Of a pump: a disconnect of its own stands in sight of the motor.",
              .example = "true"});
  visit("bond_inside", e.bond_inside,
        About{.doc = "It joins a pole to ground inside, such as through a ground-fault fuse; left "
                     "out, the number of bonds can't be told.",
              .example = "true"});
  visit("place", e.place,
        About{.doc = "Where it stands: inside a building, on an outside wall, off every building.",
              .example = "inside"});
  visit("load_centre", e.load_centre,
        About{.doc = "Load centre behind its output, by a name of your own that grounding.bond may "
                     "say.",
              .example = "LC1"});
  visit("battery", e.battery, About{.doc = "The battery behind it: a source."});
  visit("ground_fault", e.ground_fault,
        About{.doc = "What in it watches for ground faults; left out is not known."});
  visit("arc_fault", e.arc_fault,
        About{.doc = "Listed PV arc-fault protection watches its strings and is switched on.",
              .example = "true"});
  visit("ac_current", e.ac_current,
        About{.doc = "Rated a.c. output current of an inverter, for its label.",
              .example = "24 A",
              .min = 0.1,
              .max = 10000});
  visit("ac_voltage", e.ac_voltage,
        About{.doc = "Nominal a.c. voltage of an inverter, for its label.",
              .example = "240 V",
              .min = 1,
              .max = 1500});
  visit("output", e.output, About{.doc = "Of a charge controller: its output circuit."});
  visit("centre", e.centre, About{.doc = "The d.c. load centre its breakers sit in."});
  visit("diversion", e.diversion,
        About{.doc = "A diversion load that takes what the full battery does not."});
  visit("system_disconnect", e.system_disconnect,
        About{.doc = "The disconnect that parts the whole PV system from all other wiring."});
  visit("input", e.input, About{.doc = "Its PV inputs by name.", .required = true});
}

}  // namespace stringwright::job
