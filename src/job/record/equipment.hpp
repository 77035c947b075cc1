#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/ground_fault.hpp"
#include "job/record/names.hpp"
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

struct Battery {
  Span span;
  Given<units::Voltage> v_max;
  Given<units::Current> fault_current;
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
  visit(
      "device", i.device,
      About{.doc = "Breaker, fuse or disconnect at the input, a part.", .example = "breaker-40A"});
  visit("poles", i.poles,
        About{.doc = "Poles of that device in the circuit.", .example = "1", .min = 1, .max = 4});
  visit("v_impulse", i.v_impulse,
        About{.doc = "Surge voltage that it bears (rated impulse withstand).",
              .example = "2.5 kV",
              .min = 100,
              .max = 20000});
}

struct Equipment {
  std::string id;
  Span span;
  Given<EquipmentKind> kind;
  Given<bool> blocks_reverse, isolated;
  std::optional<Battery> battery;
  std::optional<GroundFault> ground_fault;
  Given<bool> arc_fault;
  Given<units::Current> ac_current;
  Given<units::Voltage> ac_voltage;
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
  visit("input", e.input, About{.doc = "Its PV inputs by name.", .required = true});
}

}  // namespace stringwright::job
