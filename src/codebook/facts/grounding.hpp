#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

namespace stringwright::codebook {

using trail::Fact;

/// How the array and its metal are joined to earth.
struct GroundingFacts {
  Fact<std::string> place;      ///< "ground", "roof", "pole", "open-structure"
  Fact<std::string> pole;       ///< the grounded one: "plus", "minus"
  Fact<units::Ratio> bonds;     ///< bonds of a pole to ground that the job draws
  Fact<std::string> bond_in;    ///< "CC1"; the thing that owns it
  Fact<bool> battery_bonded;    ///< a pole of the battery or its load centre has a bond of its own
  Fact<std::string> electrode;  ///< what the system's electrode conductor goes to
  Fact<units::Wire> electrode_wire;
  Fact<units::Wire> largest_wire;  ///< largest circuit conductor of the PV side
  Fact<std::string> array_electrode;
  Fact<bool> array_electrode_near;  ///< it would stand within 6 ft of the building's electrode
  Fact<std::string> frames;         ///< how frames are bonded to the rack
  Fact<std::string> rail_joints;    ///< how the bond gets across joints of the rails
  Fact<units::Ratio> racks, racks_bonded;  ///< surfaces with modules; those joined to a ground bar
  Fact<units::Ratio> boxes, boxes_grounded;  ///< boxes; those with an equipment ground that leaves
  Fact<bool> raceway_bonds;                  ///< its ends are bonded around knockouts
  Fact<bool> guarded;  ///< ground conductor: protected from damage where it is in the open
};

template <class V>
void describe(V& visit, GroundingFacts& g) {
  visit("place", g.place, About{.doc = "What the array stands on.", .example = "roof"});
  visit("pole", g.pole, About{.doc = "The grounded pole.", .example = "minus"});
  visit("bonds", g.bonds, About{.doc = "Bonds that the job draws.", .example = "1"});
  visit("bond_in", g.bond_in, About{.doc = "What owns the bond.", .example = "CC1"});
  visit("battery_bonded", g.battery_bonded,
        About{.doc = "The battery has a bond of its own.", .example = "false"});
  visit("electrode", g.electrode, About{.doc = "Electrode of the system.", .example = "rod"});
  visit("electrode_wire", g.electrode_wire,
        About{.doc = "Conductor to it.", .example = "6 AWG bare Cu"});
  visit("largest_wire", g.largest_wire,
        About{.doc = "Largest circuit conductor.", .example = "6 AWG Cu XHHW-2"});
  visit("array_electrode", g.array_electrode,
        About{.doc = "Electrode at the array.", .example = "rod"});
  visit("array_electrode_near", g.array_electrode_near,
        About{.doc = "The building's electrode is within 6 ft.", .example = "false"});
  visit("frames", g.frames, About{.doc = "How frames are bonded.", .example = "listed-clamps"});
  visit("rail_joints", g.rail_joints,
        About{.doc = "How rails are bonded across joints.", .example = "jumpers"});
  visit("racks", g.racks, About{.doc = "Surfaces with modules.", .example = "1"});
  visit("racks_bonded", g.racks_bonded,
        About{.doc = "Those joined to a ground bar.", .example = "1"});
  visit("boxes", g.boxes, About{.doc = "Boxes.", .example = "1"});
  visit("boxes_grounded", g.boxes_grounded,
        About{.doc = "Those whose ground leaves with the output.", .example = "1"});
  visit("raceway_bonds", g.raceway_bonds,
        About{.doc = "Metal raceways bonded at their ends.", .example = "true"});
  visit("guarded", g.guarded, About{.doc = "Protected from damage.", .example = "true"});
}

}  // namespace stringwright::codebook
