#pragma once

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

/// How the conductors within the array itself are made safe.
enum class ArrayShutdown { listed, volts, no_metal, none };
constexpr Name<ArrayShutdown> names(ArrayShutdown*, int i) {
  constexpr Name<ArrayShutdown> all[] = {{"listed", ArrayShutdown::listed},
                                         {"volts", ArrayShutdown::volts},
                                         {"no-metal", ArrayShutdown::no_metal},
                                         {"none", ArrayShutdown::none}};
  return i < 4 ? all[i] : Name<ArrayShutdown>{};
}

enum class ShutdownSwitch { service_disconnect, pv_disconnect, own_switch, none };
constexpr Name<ShutdownSwitch> names(ShutdownSwitch*, int i) {
  constexpr Name<ShutdownSwitch> all[] = {
      {"service-disconnect", ShutdownSwitch::service_disconnect},
      {"pv-disconnect", ShutdownSwitch::pv_disconnect},
      {"own-switch", ShutdownSwitch::own_switch},
      {"none", ShutdownSwitch::none}};
  return i < 4 ? all[i] : Name<ShutdownSwitch>{};
}

/// `[rapid_shutdown]`: what takes the voltage away for the fire service.
struct RapidShutdown {
  Span span;
  Given<bool> fitted;
  Given<ArrayShutdown> array;
  Given<units::Length> from_array, in_building;
  Given<units::Voltage> volts_outside, volts_inside;
  Given<units::Time> seconds;
  Given<units::Power> volt_amps;
  Given<ShutdownSwitch> switch_is;
  Given<bool> switch_outside, switch_reachable;
};
template <class V>
void describe(V& visit, RapidShutdown& s) {
  visit("fitted", s.fitted, About{.doc = "Rapid shutdown is fitted.", .example = "true"});
  visit("array", s.array,
        About{.doc = "Within the array: a listed system (rapid shutdown array, hazard control), "
                     "volts that stay under the limit, no-metal (2017 and 2020: no wiring within "
                     "reach and no metal near it), or none.",
              .example = "listed"});
  visit("from_array", s.from_array,
        About{.doc = "From the array's edge to what shuts the leaving conductors down.",
              .example = "0.3 m",
              .min = 0,
              .max = 1000});
  visit("in_building", s.in_building,
        About{.doc = "Conductors that stay live inside the building, from where they come in.",
              .example = "0.9 m",
              .min = 0,
              .max = 1000});
  visit("volts_outside", s.volts_outside,
        About{.doc = "Volts left on the leaving conductors, by its documents.",
              .example = "12 V",
              .min = 0,
              .max = 2000});
  visit("volts_inside", s.volts_inside,
        About{.doc = "Volts left within the array, by its documents.",
              .example = "60 V",
              .min = 0,
              .max = 2000});
  visit("seconds", s.seconds,
        About{.doc = "Time after which no more than that is left.",
              .example = "10 s",
              .min = 0,
              .max = 3600});
  visit("volt_amps", s.volt_amps,
        About{.doc = "Power left on the leaving conductors (asked by 2014 alone).",
              .example = "0 W",
              .min = 0,
              .max = 100000});
  visit("switch", s.switch_is,
        About{.doc = "What starts it: service-disconnect, pv-disconnect, own-switch, none.",
              .example = "pv-disconnect"});
  visit("switch_outside", s.switch_outside,
        About{.doc = "It stands outside the building.", .example = "true"});
  visit("switch_reachable", s.switch_reachable,
        About{.doc = "It is reached at once: no ladder, no key, nothing in the way.",
              .example = "true"});
}

}  // namespace stringwright::job
