#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"

namespace stringwright::codebook {

/// What stands behind the PV input: equipment, its output, battery, load centre, diversion load.
struct BehindFacts {
  trail::Fact<std::string> kind;  ///< "mppt-controller", "pwm-controller", "inverter", "pump-drive"
  trail::Fact<bool> motor_disconnect;
  // The controller's output; its conductor and terminals are those of `Facts`
  trail::Fact<bool> output_given, at_battery;
  trail::Fact<units::Current> i_out, out_device;
  // Battery
  trail::Fact<units::Voltage> v_nominal;
  trail::Fact<units::Energy> energy;
  trail::Fact<std::string> cells;  ///< "lead", "other"
  trail::Fact<bool> guarded, leaves, device, disconnect;
  // Load centre
  trail::Fact<bool> centre_given, centre_listed, battery_switch;
  trail::Fact<units::Voltage> centre_volts;
  trail::Fact<units::Current> centre_bus, centre_devices;
  // Diversion load
  trail::Fact<bool> diversion, second_means;
  trail::Fact<units::Current> source, diversion_load, diversion_wire, diversion_device;
};
template <class V>
void describe(V& visit, BehindFacts& b) {
  visit("kind", b.kind, About{.doc = "What it is.", .example = "mppt-controller"});
  visit("motor_disconnect", b.motor_disconnect,
        About{.doc = "The motor has its own.", .example = "true"});
  visit("output_given", b.output_given, About{.doc = "The job tells it.", .example = "true"});
  visit("at_battery", b.at_battery, About{.doc = "Its device's place.", .example = "true"});
  visit("i_out", b.i_out, About{.doc = "Rated output current.", .example = "60 A"});
  visit("out_device", b.out_device, About{.doc = "Device of the output.", .example = "80 A"});
  visit("v_nominal", b.v_nominal, About{.doc = "Nominal battery volts.", .example = "48 V"});
  visit("energy", b.energy, About{.doc = "What it stores.", .example = "10 kWh"});
  visit("cells", b.cells, About{.doc = "lead or other.", .example = "lead"});
  visit("guarded", b.guarded, About{.doc = "Live parts out of touch.", .example = "true"});
  visit("leaves", b.leaves, About{.doc = "Leads over 5 ft or through a wall.", .example = "true"});
  visit("device", b.device, About{.doc = "Device at the bank.", .example = "true"});
  visit("disconnect", b.disconnect, About{.doc = "Disconnect at the bank.", .example = "true"});
  visit("centre_given", b.centre_given, About{.doc = "The job tells it.", .example = "true"});
  visit("centre_listed", b.centre_listed, About{.doc = "Listed for d.c.", .example = "true"});
  visit("battery_switch", b.battery_switch,
        About{.doc = "The battery has its own.", .example = "true"});
  visit("centre_volts", b.centre_volts, About{.doc = "D.c. volts marked.", .example = "160 V"});
  visit("centre_bus", b.centre_bus, About{.doc = "Bus bar.", .example = "200 A"});
  visit("centre_devices", b.centre_devices, About{.doc = "Devices feeding.", .example = "140 A"});
  visit("diversion", b.diversion, About{.doc = "There is one.", .example = "true"});
  visit("second_means", b.second_means, About{.doc = "A second means.", .example = "true"});
  visit("source", b.source, About{.doc = "Charge source.", .example = "40 A"});
  visit("diversion_load", b.diversion_load, About{.doc = "The load takes.", .example = "60 A"});
  visit("diversion_wire", b.diversion_wire, About{.doc = "Its wires carry.", .example = "65 A"});
  visit("diversion_device", b.diversion_device, About{.doc = "Its device.", .example = "60 A"});
}

}  // namespace stringwright::codebook
