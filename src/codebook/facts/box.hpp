#pragma once

#include <string>
#include <vector>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

namespace stringwright::codebook {

/// One terminal or hole, and what lands in it.
struct HoleFacts {
  std::string id;                 ///< "A1.N.3"
  std::string kind;               ///< "line", "bus", "minus", "earth": for words
  trail::Fact<units::Wire> wire;  ///< the thickest and thinnest are the same here
  trail::Fact<units::Ratio> count, may_hold;
  trail::Fact<units::WireSize> least, most;
  trail::Fact<bool> fine, fine_allowed;  ///< strands finer than class C; terminal marked for them
  trail::Fact<bool> torque;              ///< its torque is given
};
template <class V>
void describe(V& visit, HoleFacts& h) {
  visit("id", h.id, About{.doc = "Its name.", .required = true, .example = "A1.N.3"});
  visit("kind", h.kind, About{.doc = "line, bus, minus, earth.", .example = "minus"});
  visit("wire", h.wire, About{.doc = "What lands in it.", .example = "10 AWG Cu PV"});
  visit("count", h.count, About{.doc = "How many of them.", .example = "1"});
  visit("may_hold", h.may_hold, About{.doc = "How many it may hold.", .example = "1"});
  visit("least", h.least, About{.doc = "Smallest wire it takes.", .example = "14 AWG"});
  visit("most", h.most, About{.doc = "Largest wire it takes.", .example = "6 AWG"});
  visit("fine", h.fine, About{.doc = "The wire has fine strands.", .example = "false"});
  visit("fine_allowed", h.fine_allowed, About{.doc = "Marked for them.", .example = "true"});
  visit("torque", h.torque, About{.doc = "Its torque is given.", .example = "true"});
}

/// A combiner box as a thing of its own.
struct BoxFacts {
  trail::Fact<units::Current> bus_rating, short_circuit, devices;  ///< devices: sum of ratings
  trail::Fact<std::string> holds;          ///< its devices: "breaker", "fuse", "disconnect"
  trail::Fact<bool> closed;                ///< unused openings and bare fingers
  trail::Fact<units::Ratio> spare;         ///< slots that nothing lands on
  trail::Fact<bool> holders_marked;        ///< fuse holders: not under load
  trail::Fact<units::Voltage> v_arrester;  ///< set where it has an arrester
  trail::Fact<bool> arrester;
  std::vector<HoleFacts> holes;
};
template <class V>
void describe(V& visit, BoxFacts& b) {
  visit("bus_rating", b.bus_rating, About{.doc = "Rating of its bus bar.", .example = "100 A"});
  visit("short_circuit", b.short_circuit,
        About{.doc = "Short-circuit current rating.", .example = "10 kA"});
  visit("devices", b.devices, About{.doc = "Sum of its devices' ratings.", .example = "40 A"});
  visit("holds", b.holds, About{.doc = "Kind of its devices.", .example = "fuse"});
  visit("closed", b.closed, About{.doc = "Unused openings are closed.", .example = "true"});
  visit("spare", b.spare, About{.doc = "Slots that nothing lands on.", .example = "2"});
  visit("holders_marked", b.holders_marked,
        About{.doc = "Holders are marked not under load.", .example = "true"});
  visit("v_arrester", b.v_arrester,
        About{.doc = "Continuous voltage of its arrester.", .example = "200 V"});
  visit("arrester", b.arrester, About{.doc = "It has an arrester.", .example = "true"});
  visit("holes", b.holes, About{.doc = "Its terminals and what lands there."});
}

}  // namespace stringwright::codebook
