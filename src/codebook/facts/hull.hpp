#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

namespace stringwright::codebook {

using trail::Fact;

/// The enclosure of a box: what it is made of, how it hangs, what comes into it.
struct HullFacts {
  Fact<std::string> type;     ///< enclosure type by its marking: "3R", "4X"
  Fact<std::string> mounted;  ///< "upright", "sloped", "flat"
  Fact<bool> outdoors;
  Fact<bool> metal;          ///< of metal; false: plastic
  Fact<bool> metal_raceway;  ///< a metal raceway comes into it
  Fact<bool> jumper;         ///< that raceway is bonded to the ground bar by a jumper
  Fact<bool> aluminium;      ///< an aluminium conductor lands in it
};

template <class V>
void describe(V& visit, HullFacts& h) {
  visit("type", h.type, About{.doc = "Enclosure type.", .example = "3R"});
  visit("mounted", h.mounted, About{.doc = "upright, sloped or flat.", .example = "upright"});
  visit("outdoors", h.outdoors, About{.doc = "It hangs outdoors.", .example = "true"});
  visit("metal", h.metal, About{.doc = "Made of metal.", .example = "true"});
  visit("metal_raceway", h.metal_raceway, About{.doc = "One comes in.", .example = "false"});
  visit("jumper", h.jumper, About{.doc = "It is bonded by a jumper.", .example = "true"});
  visit("aluminium", h.aluminium, About{.doc = "Aluminium lands in it.", .example = "false"});
}

/// A box that wires are pulled through, or spliced in.
struct PullFacts {
  Fact<units::TradeSize> largest;  ///< of the raceways that enter
  Fact<units::Length> smallest;    ///< of its sides
  Fact<std::string> pull;          ///< "straight" or "angle"
  Fact<units::Wire> wire;          ///< thickest conductor
};

template <class V>
void describe(V& visit, PullFacts& p) {
  visit("largest", p.largest, About{.doc = "Largest raceway.", .example = "2 in"});
  visit("smallest", p.smallest, About{.doc = "Its smaller side.", .example = "12 in"});
  visit("pull", p.pull, About{.doc = "straight or angle.", .example = "straight"});
  visit("wire", p.wire, About{.doc = "Thickest conductor.", .example = "2 AWG Cu XHHW-2"});
}

/// What marks and work people leave on the wires of a circuit, and what stands beside the modules.
struct MarkFacts {
  Fact<std::string> plus, minus, ground;  ///< colours as the job states them
  Fact<std::string> pole;                 ///< the grounded pole: "plus", "minus"
  Fact<units::Ratio> wires;               ///< ends to mark: circuit conductors of an input
  Fact<units::Ratio> plugs;               ///< connectors fitted on site
  Fact<units::Length> od;                 ///< outside diameter of the string wire
  Fact<std::string> place;                ///< "ground", "roof", "pole", ...
  Fact<bool> guarded;                     ///< nobody can touch the leads behind the modules
};

template <class V>
void describe(V& visit, MarkFacts& m) {
  visit("plus", m.plus, About{.doc = "Colour of the plus wires.", .example = "red"});
  visit("minus", m.minus, About{.doc = "Colour of the minus wires.", .example = "black"});
  visit("ground", m.ground, About{.doc = "Colour of the ground.", .example = "green"});
  visit("pole", m.pole, About{.doc = "Grounded pole.", .example = "minus"});
  visit("wires", m.wires, About{.doc = "Conductors to mark.", .example = "6"});
  visit("plugs", m.plugs, About{.doc = "Connectors fitted on site.", .example = "4"});
  visit("od", m.od, About{.doc = "Outside diameter.", .example = "6.1 mm"});
  visit("place", m.place, About{.doc = "What the array stands on.", .example = "ground"});
  visit("guarded", m.guarded, About{.doc = "Leads out of reach.", .example = "true"});
}

}  // namespace stringwright::codebook
