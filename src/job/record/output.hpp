#pragma once

#include "base/about.hpp"
#include "base/span.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

/// What lies behind the PV input as far as rules ask for it: the controller's output, the load centre it
/// lands in, a diversion load.
namespace stringwright::job {

struct ControllerOutput {
  Span span;
  Given<units::Current> i_max, device;
  Given<units::Wire> wire;
  Given<units::Temperature> terminals;
  Given<bool> at_battery;
};
template <class V>
void describe(V& visit, ControllerOutput& o) {
  visit(
      "i_max", o.i_max,
      About{
          .doc = "Rated continuous output current.", .example = "60 A", .min = 0.1, .max = 10000});
  visit("wire", o.wire, About{.doc = "Its conductors.", .example = "4 AWG Cu XHHW-2"});
  visit(
      "device", o.device,
      About{
          .doc = "Rating of its overcurrent device.", .example = "80 A", .min = 0.1, .max = 10000});
  visit("at_battery", o.at_battery,
        About{.doc = "That device stands at the battery's end.", .example = "true"});
  visit("terminals", o.terminals,
        About{.doc = "Temperature rating of the coolest terminal.",
              .example = "75 °C",
              .min = 313.15,
              .max = 423.15});
}

struct LoadCentre {
  Span span;
  Given<bool> listed, battery_switch;
  Given<units::Voltage> v_dc;
  Given<units::Current> bus_rating, devices;
};
template <class V>
void describe(V& visit, LoadCentre& l) {
  visit("listed", l.listed,
        About{.doc = "Panel and its breakers are listed for d.c.", .example = "true"});
  visit("v_dc", l.v_dc,
        About{.doc = "D.c. volts it is marked for.", .example = "160 V", .min = 1, .max = 2000});
  visit("bus_rating", l.bus_rating,
        About{.doc = "Rating of its bus bar.", .example = "200 A", .min = 1, .max = 10000});
  visit("devices", l.devices,
        About{.doc = "Sum of the ratings of the devices that feed it.",
              .example = "140 A",
              .min = 1,
              .max = 10000});
  visit("battery_switch", l.battery_switch,
        About{.doc = "The battery has a disconnect of its own beside the PV breaker.",
              .example = "true"});
}

struct Diversion {
  Span span;
  Given<units::Current> source, load, wire_ampacity, device;
  Given<bool> second_means;
};
template <class V>
void describe(V& visit, Diversion& d) {
  visit("source", d.source,
        About{.doc = "Greatest output current of the charge source.",
              .example = "40 A",
              .min = 0.1,
              .max = 10000});
  visit("load", d.load,
        About{.doc = "Current the diversion load can take without end.",
              .example = "60 A",
              .min = 0.1,
              .max = 10000});
  visit("wire_ampacity", d.wire_ampacity,
        About{.doc = "Ampacity of its conductors.", .example = "65 A", .min = 0.1, .max = 10000});
  visit(
      "device", d.device,
      About{
          .doc = "Rating of its overcurrent device.", .example = "60 A", .min = 0.1, .max = 10000});
  visit("second_means", d.second_means,
        About{.doc = "A second, independent means keeps the battery from overcharge.",
              .example = "true"});
}

}  // namespace stringwright::job
