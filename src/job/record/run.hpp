#pragma once

#include <array>
#include <string>
#include <string_view>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

namespace stringwright::job {

/// Wiring methods of a segment: open air, a tray, direct burial, or a raceway by its short name.
inline constexpr std::array<std::string_view, 13> wiring_methods{
    "free-air", "tray", "buried", "EMT", "RMC",  "IMC", "PVC40",
    "PVC80",    "LFMC", "LFNC",   "FMC", "HDPE", "MC"};

/// What lies over a buried stretch.
enum class Cover { soil, slab, drive, road };
constexpr Name<Cover> names(Cover*, int i) {
  constexpr Name<Cover> all[] = {
      {"soil", Cover::soil}, {"slab", Cover::slab}, {"drive", Cover::drive}, {"road", Cover::road}};
  return i < 4 ? all[i] : Name<Cover>{};
}

enum class Pull { straight, angle };
constexpr Name<Pull> names(Pull*, int i) {
  constexpr Name<Pull> all[] = {{"straight", Pull::straight}, {"angle", Pull::angle}};
  return i < 2 ? all[i] : Name<Pull>{};
}

/// Colours of insulation. white_striped: three white stripes on another colour.
enum class Colour {
  black,
  red,
  blue,
  brown,
  yellow,
  orange,
  white,
  grey,
  white_striped,
  green,
  green_yellow,
  bare
};
constexpr Name<Colour> names(Colour*, int i) {
  constexpr Name<Colour> all[] = {{"black", Colour::black},
                                  {"red", Colour::red},
                                  {"blue", Colour::blue},
                                  {"brown", Colour::brown},
                                  {"yellow", Colour::yellow},
                                  {"orange", Colour::orange},
                                  {"white", Colour::white},
                                  {"grey", Colour::grey},
                                  {"white-striped", Colour::white_striped},
                                  {"green", Colour::green},
                                  {"green-yellow", Colour::green_yellow},
                                  {"bare", Colour::bare}};
  return i < 12 ? all[i] : Name<Colour>{};
}

/// What stands printed on the wires of a pair, and their colours.
struct WireMarks {
  Given<units::Length> od;
  Given<units::Temperature> rated;
  Given<bool> sunlight_resistant, direct_burial;
  Given<Colour> plus_colour, minus_colour;
};
template <class V>
void describe(V& visit, WireMarks& m) {
  visit("od", m.od,
        About{.doc = "Outside diameter, measured or from the data sheet; for PV wire, which no "
                     "table lists, the fill of a raceway needs it.",
              .example = "6.1 mm",
              .min = 0.001,
              .max = 0.1});
  visit("rated", m.rated,
        About{.doc = "Temperature printed on the insulation, where above 90 °C.",
              .example = "105 °C",
              .min = 333.15,
              .max = 523.15});
  visit("sunlight_resistant", m.sunlight_resistant, About{.doc = "So marked.", .example = "true"});
  visit("direct_burial", m.direct_burial, About{.doc = "So marked.", .example = "true"});
  visit(
      "plus_colour", m.plus_colour,
      About{.doc = "Colour of the plus wire: black, red, blue, brown, yellow, orange, white, grey, "
                   "white-striped, green, green-yellow, bare.",
            .example = "red"});
  visit("minus_colour", m.minus_colour,
        About{.doc = "Colour of the minus wire.", .example = "black"});
}

/// The wire of a home run or a run.
struct RunWire {
  Span span;
  Given<units::Wire> poles, egc;
  Given<bool> egc_guarded;
  Given<bool> fine_strands, converter_limit;
  Given<units::Voltage> v_dc;
  Given<int> parallel;  ///< conductors side by side in each pole
  WireMarks marks;
  Given<Colour> egc_colour;
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
  visit(
      "parallel", w.parallel,
      About{.doc = "Conductors side by side in each pole, alike and of one length, joined at both "
                   "ends; left out: one.",
            .example = "2",
            .min = 1,
            .max = 12});
  describe(visit, w.marks);
  visit("egc_colour", w.egc_colour, About{.doc = "Colour of the ground wire.", .example = "green"});
  visit("fine_strands", w.fine_strands,
        About{.doc = "Strands finer than class C, as in very flexible cable.", .example = "false"});
  visit("v_dc", w.v_dc,
        About{.doc = "Voltage printed on them; left out, what the insulation type is made for.",
              .example = "1000 V",
              .min = 1,
              .max = 5000});
  visit("converter_limit", w.converter_limit,
        About{.doc = "Size them by the rated current of the equipment's input (i_max), which their "
                     "device then has to guard.",
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
  Given<int> wires;     ///< current-carrying conductors that share it, this circuit included
  Given<int> raceways;  ///< alike raceways that the conductors of the run are divided among
  Given<std::string> junction;
  Given<units::Wire> wire;  ///< from this junction on
  Given<std::string> raceway;
  Given<bool> inside, guarded, other_wires, partition, expansion_fitting;
  Given<units::Length> support;
  Given<Cover> under;
  Given<std::string> pull_box;
  Given<std::vector<units::Length>> box_size;
  Given<Pull> pull;
};
template <class V>
void describe(V& visit, Segment& s) {
  visit("in", s.in,
        About{.doc = "Wiring method: free-air, tray, buried, or a raceway: EMT, RMC, IMC, PVC40, "
                     "PVC80, LFMC, LFNC, FMC, HDPE; or MC (metal-clad cable).",
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
  visit(
      "raceways", s.raceways,
      About{.doc = "Alike raceways among which parallel conductors are divided, both poles and an "
                   "equipment ground in each; left out: one for all.",
            .example = "2",
            .min = 1,
            .max = 12});
  visit("junction", s.junction,
        About{.doc = "A junction box of this name stands here, instead of a stretch.",
              .example = "JB1"});
  visit("wire", s.wire,
        About{.doc = "With junction: the wire from here on.", .example = "10 AWG Cu XHHW-2"});
  visit("raceway", s.raceway,
        About{.doc = "Name of the raceway or tray, where several circuits lie in one: stretches of "
                     "the same name are one, and their wires are counted together.",
              .example = "C1"});
  visit("inside", s.inside, About{.doc = "It lies inside a building.", .example = "false"});
  visit("guarded", s.guarded,
        About{.doc = "Of wires in the open: a fence, mesh, cover or height keeps people off.",
              .example = "true"});
  visit("support", s.support,
        About{.doc = "Largest distance between its supports.",
              .example = "0.6 m",
              .min = 0,
              .max = 100});
  visit(
      "under", s.under,
      About{.doc = "What lies over a buried stretch: soil, slab (100 mm of concrete, no traffic), "
                   "drive (of a one- or two-family dwelling), road (street, alley, parking lot).",
            .example = "soil"});
  visit("other_wires", s.other_wires,
        About{.doc = "Wires that belong to no PV circuit lie in it too.", .example = "false"});
  visit("partition", s.partition,
        About{.doc = "A partition keeps those apart.", .example = "false"});
  visit("expansion_fitting", s.expansion_fitting,
        About{.doc = "Of PVC: it has an expansion fitting.", .example = "true"});
  visit("pull_box", s.pull_box,
        About{.doc = "A box of this name stands here to pull through, instead of a stretch: bends "
                     "count from here anew.",
              .example = "PB1"});
  visit("box_size", s.box_size,
        About{.doc = "With pull_box or junction: the two sides of the box that wires run along.",
              .example = "[\"300 mm\", \"300 mm\"]",
              .min = 0.02,
              .max = 5,
              .items = 2});
  visit("pull", s.pull,
        About{.doc = "With pull_box or junction: straight through, or at an angle.",
              .example = "straight"});
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
