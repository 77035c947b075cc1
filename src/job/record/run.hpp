#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

namespace stringwright::job {

/// Wiring methods of a segment: open air, a tray, direct burial, or a raceway by its short name.
inline constexpr std::array<std::string_view, 12> wiring_methods{
    "free-air", "tray",  "buried", "EMT",  "RMC", "IMC",
    "PVC40",    "PVC80", "LFMC",   "LFNC", "FMC", "HDPE"};

/// The wire of a home run or a run.
struct RunWire {
  Span span;
  Given<units::Wire> poles, egc;
  Given<bool> egc_guarded;
};
template <class V>
void describe(V& visit, RunWire& w) {
  visit(
      "poles", w.poles,
      About{
          .doc = "The two circuit conductors.", .example = "6 AWG Cu XHHW-2", .may_choose = true});
  visit("egc", w.egc,
        About{.doc = "Equipment grounding conductor of the run.",
              .example = "10 AWG Cu THWN-2",
              .may_choose = true});
  visit("egc_guarded", w.egc_guarded,
        About{.doc = "Where the ground wire lies in no raceway it is protected from damage, or "
                     "nothing can hit it.",
              .example = "true"});
}

/// A stretch of a run under one set of conditions, in order from source to load.
struct Segment {
  Span span;
  Given<std::string> in;
  Given<units::TradeSize> size;
  Given<units::Length> length, buried, above_roof;
  Given<units::Temperature> ambient;
  Given<std::vector<units::Angle>> bends;
  Given<int> wires;  ///< current-carrying conductors that share it, this circuit included
  Given<std::string> junction;
  Given<units::Wire> wire;  ///< from this junction on
};
template <class V>
void describe(V& visit, Segment& s) {
  visit("in", s.in,
        About{.doc = "Wiring method: free-air, tray, buried, or a raceway: EMT, RMC, IMC, PVC40, "
                     "PVC80, LFMC, LFNC, FMC, HDPE.",
              .example = "PVC40"});
  visit("size", s.size,
        About{.doc = "Trade size of the raceway.", .example = "1 in", .may_choose = true});
  visit(
      "length", s.length,
      About{
          .doc = "Length along the path, one way.", .example = "36.5 m", .min = 0, .max = 100000});
  visit("buried", s.buried,
        About{.doc = "Depth of cover; left out means not buried.",
              .example = "0.6 m",
              .min = 0,
              .max = 10});
  visit("above_roof", s.above_roof,
        About{.doc = "Height of the underside above a sunlit roof; left out means not over a roof.",
              .example = "25 mm",
              .min = 0,
              .max = 10});
  visit("ambient", s.ambient,
        About{.doc = "Hottest ambient along it; left out, the site's t_hot stands in.",
              .example = "32 °C",
              .min = 223.15,
              .max = 373.15});
  visit("bends", s.bends,
        About{.doc = "Bends between pull points.",
              .example = "[\"90 °\", \"90 °\"]",
              .min = 0,
              .max = 6.2831853072});
  visit("wires", s.wires,
        About{.doc = "Current-carrying conductors in it, this circuit's included; left out, "
                     "counted from the runs the job puts there.",
              .example = "2",
              .min = 1,
              .max = 400});
  visit("junction", s.junction,
        About{.doc = "A junction box of this name stands here, instead of a stretch.",
              .example = "JB1"});
  visit("wire", s.wire,
        About{.doc = "With junction: the wire from here on.", .example = "10 AWG Cu XHHW-2"});
}

struct Run {
  std::string id;
  Span span;
  Given<std::string> from, to;
  RunWire wire;
  std::vector<Segment> segment;
};
template <class V>
void describe(V& visit, Run& r) {
  visit("from", r.from,
        About{.doc = "Box it leaves; a box's `out` says the same.", .example = "A1"});
  visit("to", r.to,
        About{.doc = "Input or slot it lands on; a box's `lands` says the same.",
              .example = "CC1.PV1"});
  visit("wire", r.wire, About{.doc = "Its conductors."});
  visit("segment", r.segment, About{.doc = "Stretches in order, source to load."});
}

}  // namespace stringwright::job
