#pragma once

#include <string>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"
#include "units/sizes.hpp"

namespace stringwright::job {

enum class Scheme { functional, solid, ungrounded };
constexpr Name<Scheme> names(Scheme*, int i) {
  constexpr Name<Scheme> all[] = {{"functional", Scheme::functional},
                                  {"solid", Scheme::solid},
                                  {"ungrounded", Scheme::ungrounded}};
  return i < 3 ? all[i] : Name<Scheme>{};
}

enum class Pole { plus, minus };
constexpr Name<Pole> names(Pole*, int i) {
  constexpr Name<Pole> all[] = {{"plus", Pole::plus}, {"minus", Pole::minus}};
  return i < 2 ? all[i] : Name<Pole>{};
}

enum class DevicesIn { plus, minus, both };
constexpr Name<DevicesIn> names(DevicesIn*, int i) {
  constexpr Name<DevicesIn> all[] = {
      {"plus", DevicesIn::plus}, {"minus", DevicesIn::minus}, {"both", DevicesIn::both}};
  return i < 3 ? all[i] : Name<DevicesIn>{};
}

enum class Electrode { building, rod, pipe, plate, concrete, ring, rack, none };
constexpr Name<Electrode> names(Electrode*, int i) {
  constexpr Name<Electrode> all[] = {{"building", Electrode::building}, {"rod", Electrode::rod},
                                     {"pipe", Electrode::pipe},         {"plate", Electrode::plate},
                                     {"concrete", Electrode::concrete}, {"ring", Electrode::ring},
                                     {"rack", Electrode::rack},         {"none", Electrode::none}};
  return i < 8 ? all[i] : Name<Electrode>{};
}

enum class FrameBond { listed_clamps, lugs, wires, none };
constexpr Name<FrameBond> names(FrameBond*, int i) {
  constexpr Name<FrameBond> all[] = {{"listed-clamps", FrameBond::listed_clamps},
                                     {"lugs", FrameBond::lugs},
                                     {"wires", FrameBond::wires},
                                     {"none", FrameBond::none}};
  return i < 4 ? all[i] : Name<FrameBond>{};
}

enum class RailJoint { no_joints, listed_splices, jumpers, none };
constexpr Name<RailJoint> names(RailJoint*, int i) {
  constexpr Name<RailJoint> all[] = {{"no-joints", RailJoint::no_joints},
                                     {"listed-splices", RailJoint::listed_splices},
                                     {"jumpers", RailJoint::jumpers},
                                     {"none", RailJoint::none}};
  return i < 4 ? all[i] : Name<RailJoint>{};
}

struct Grounding {
  Span span;
  Given<Scheme> scheme;
  Given<Pole> pole;
  Given<DevicesIn> devices_in;
  Given<std::string> bond;
  Given<Electrode> electrode, array_electrode;
  Given<units::Wire> electrode_wire;
  Given<bool> array_electrode_near, raceway_bonds;
  Given<FrameBond> frames;
  Given<RailJoint> rail_joints;
  Given<bool> bipolar, apart;
};
template <class V>
void describe(V& visit, Grounding& g) {
  visit("scheme", g.scheme, About{.doc = "System grounding.", .example = "functional"});
  visit("pole", g.pole,
        About{.doc = "The grounded pole; none for ungrounded.", .example = "minus"});
  visit("devices_in", g.devices_in,
        About{.doc = "Poles that carry string devices.", .example = "plus"});
  visit("bond", g.bond,
        About{.doc = "The one thing that owns the bond of the system to ground: a box, a piece of "
                     "equipment, its load centre, or its battery (\"battery\", or \"CC1.battery\" "
                     "where there are several).",
              .example = "CC1"});
  visit("electrode", g.electrode,
        About{.doc = "What the electrode conductor of the d.c. system goes to: building (its "
                     "electrode system), rod, pipe, plate, concrete, ring, rack (steel in the "
                     "earth that qualifies), none.",
              .example = "rod"});
  visit("electrode_wire", g.electrode_wire,
        About{.doc = "Grounding electrode conductor of the d.c. system.",
              .example = "6 AWG bare Cu"});
  visit("array_electrode", g.array_electrode,
        About{.doc = "An electrode at the array itself, of its own.", .example = "rod"});
  visit("array_electrode_near", g.array_electrode_near,
        About{.doc = "It would stand within 1.8 m (6 ft) of the building's electrode.",
              .example = "false"});
  visit("frames", g.frames,
        About{.doc = "How module frames are bonded: listed-clamps (clamps or rails listed for "
                     "it), lugs, wires, none.",
              .example = "listed-clamps"});
  visit("rail_joints", g.rail_joints,
        About{.doc = "How the bond gets across joints of the rails: no-joints, listed-splices, "
                     "jumpers, none.",
              .example = "jumpers"});
  visit("raceway_bonds", g.raceway_bonds,
        About{.doc = "Metal raceways are bonded at their ends by hubs, bushings or jumpers.",
              .example = "true"});
  visit("bipolar", g.bipolar,
        About{.doc = "Two halves of opposite sign about one reference; left out means no.",
              .example = "false"});
  visit("apart", g.apart,
        About{.doc = "Of a bipolar array: the halves have boxes, devices and conductors of their "
                     "own.",
              .example = "true"});
}

}  // namespace stringwright::job
