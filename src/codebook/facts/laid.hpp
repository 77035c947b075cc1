#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

namespace stringwright::codebook {

using trail::Fact;

/// Like wires that lie in one stretch.
struct LaidWires {
  Fact<units::Wire> wire;
  Fact<units::Ratio> count;
  Fact<units::Length> od;  ///< outside diameter; left out: by the table where it lists the type
  Fact<bool> ground;       ///< equipment grounding conductors
  Fact<bool> sunlight, burial;  ///< marked sunlight resistant; marked for direct burial
};

template <class V>
void describe(V& visit, LaidWires& w) {
  visit("wire", w.wire, About{.doc = "Size, metal, insulation.", .example = "6 AWG Cu XHHW-2"});
  visit("count", w.count, About{.doc = "How many.", .example = "2"});
  visit("od", w.od, About{.doc = "Outside diameter.", .example = "6.1 mm"});
  visit("ground", w.ground, About{.doc = "Equipment grounding.", .example = "false"});
  visit("sunlight", w.sunlight, About{.doc = "Marked sunlight resistant.", .example = "true"});
  visit("burial", w.burial, About{.doc = "Marked for direct burial.", .example = "false"});
}

/// One stretch of raceway, tray, earth or open air with everything that lies in it.
struct LaidFacts {
  Fact<std::string> method;     ///< "PVC40", "free-air", "tray", "buried", ...
  Fact<std::string> circuit;    ///< whose wires: "string" or "output"
  Fact<units::TradeSize> size;  ///< of the raceway
  Fact<units::Length> length;
  Fact<units::Temperature> ambient;
  Fact<units::Length> buried;      ///< cover
  Fact<units::Length> above_roof;  ///< set only over a sunlit roof
  std::vector<LaidWires> wires;
  Fact<units::Angle> bends;     ///< all bends between two pull points, this stretch's among them
  Fact<bool> guarded;           ///< nobody can touch it: height, fence, mesh, cover
  Fact<bool> inside;            ///< in a building
  Fact<units::Length> support;  ///< largest distance between supports
  Fact<std::string> under;      ///< buried: what lies on top: "soil", "drive", "road", "slab"
  Fact<bool> other_wires;       ///< wires that are no PV circuits lie in it too
  Fact<bool> partition;         ///< kept apart by a partition
  Fact<bool> expansion;         ///< an expansion fitting is fitted
};

template <class V>
void describe(V& visit, LaidFacts& w) {
  visit("method", w.method, About{.doc = "Wiring method.", .example = "PVC40"});
  visit("circuit", w.circuit, About{.doc = "string or output.", .example = "output"});
  visit("size", w.size, About{.doc = "Trade size.", .example = "1 in"});
  visit("length", w.length, About{.doc = "Length.", .example = "36.5 m"});
  visit("ambient", w.ambient, About{.doc = "Hottest ambient.", .example = "32 °C"});
  visit("buried", w.buried, About{.doc = "Depth of cover.", .example = "0.6 m"});
  visit("above_roof", w.above_roof, About{.doc = "Above a sunlit roof.", .example = "25 mm"});
  visit("wires", w.wires, About{.doc = "What lies in it."});
  visit("bends", w.bends, About{.doc = "Bends between pull points.", .example = "180 °"});
  visit("guarded", w.guarded, About{.doc = "Nobody can touch it.", .example = "true"});
  visit("inside", w.inside, About{.doc = "In a building.", .example = "false"});
  visit("support", w.support, About{.doc = "Between supports.", .example = "0.5 m"});
  visit("under", w.under, About{.doc = "What lies on top.", .example = "soil"});
  visit("other_wires", w.other_wires, About{.doc = "Other wires too.", .example = "false"});
  visit("partition", w.partition, About{.doc = "Kept apart.", .example = "false"});
  visit("expansion", w.expansion, About{.doc = "Expansion fitting.", .example = "true"});
}

}  // namespace stringwright::codebook
