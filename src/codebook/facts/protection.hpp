#pragma once

#include <string>
#include <vector>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"

/// What watches the array: ground faults, arcs, rapid shutdown.
namespace stringwright::codebook {

using trail::Fact;

struct GroundFaultFacts {
  Fact<std::string> by;      ///< "residual-current", "insulation", "fuse", "breaker", "none"
  Fact<bool> sees_grounded;  ///< documented to see a fault of the grounded pole too
  Fact<bool> listed;
  Fact<units::Current> rating;  ///< of the fuse or breaker
  Fact<units::Power> power;     ///< of the array at STC
};

template <class V>
void describe(V& visit, GroundFaultFacts& g) {
  visit("by", g.by, About{.doc = "What detects.", .example = "residual-current"});
  visit("sees_grounded", g.sees_grounded,
        About{.doc = "Sees a fault of the grounded pole.", .example = "true"});
  visit("listed", g.listed, About{.doc = "Listed for it.", .example = "true"});
  visit("rating", g.rating, About{.doc = "Of the fuse or breaker.", .example = "1 A"});
  visit("power", g.power, About{.doc = "Of the array at STC.", .example = "2190 W"});
}

/// One way that an output circuit takes.
struct WayFacts {
  Fact<std::string> method;  ///< "PVC40", "EMT", "tray", "buried", "MC", ...
  Fact<bool> underground;
};

template <class V>
void describe(V& visit, WayFacts& w) {
  visit("method", w.method, About{.doc = "Wiring method.", .example = "EMT"});
  visit("underground", w.underground, About{.doc = "Below ground.", .example = "false"});
}

struct ArcFaultFacts {
  Fact<bool> fitted;           ///< listed PV arc-fault protection for these strings
  std::vector<WayFacts> ways;  ///< of the output circuits between boxes and equipment
};

template <class V>
void describe(V& visit, ArcFaultFacts& a) {
  visit("fitted", a.fitted, About{.doc = "Listed arc-fault protection.", .example = "true"});
  visit("ways", a.ways, About{.doc = "Ways of the output circuits."});
}

struct ShutdownFacts {
  Fact<std::string> circuits_end;  ///< "off-building", "pv-only-building", "outside-wall", "inside"
  Fact<bool> fitted;
  Fact<std::string> inside;  ///< "listed", "volts", "no-metal", "none"
  Fact<units::Length> from_array, in_building;
  Fact<units::Voltage> volts_outside, volts_inside;
  Fact<units::Time> seconds;
  Fact<units::Power> volt_amps;
  Fact<std::string> switch_is;  ///< "service-disconnect", "pv-disconnect", "own-switch", "none"
  Fact<bool> switch_outside, switch_reachable;
};

template <class V>
void describe(V& visit, ShutdownFacts& s) {
  visit("circuits_end", s.circuits_end,
        About{.doc = "Where PV circuits end.", .example = "inside"});
  visit("fitted", s.fitted, About{.doc = "Rapid shutdown is fitted.", .example = "true"});
  visit("inside", s.inside, About{.doc = "How the array itself is made safe.", .example = "volts"});
  visit("from_array", s.from_array,
        About{.doc = "From the array to what shuts down.", .example = "0.3 m"});
  visit("in_building", s.in_building,
        About{.doc = "Inside, from the entry to what shuts down.", .example = "0.9 m"});
  visit("volts_outside", s.volts_outside,
        About{.doc = "Left outside the boundary.", .example = "12 V"});
  visit("volts_inside", s.volts_inside, About{.doc = "Left within the array.", .example = "60 V"});
  visit("seconds", s.seconds, About{.doc = "After which they are left.", .example = "10 s"});
  visit("volt_amps", s.volt_amps, About{.doc = "Left outside.", .example = "0 W"});
  visit("switch_is", s.switch_is, About{.doc = "What starts it.", .example = "pv-disconnect"});
  visit("switch_outside", s.switch_outside, About{.doc = "It stands outside.", .example = "true"});
  visit("switch_reachable", s.switch_reachable,
        About{.doc = "Reached without ladder or key.", .example = "true"});
}

}  // namespace stringwright::codebook
