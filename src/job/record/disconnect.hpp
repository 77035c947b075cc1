#pragma once

#include <string>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

/// Who can reach a thing, and how. "Readily" in the codes' words is the first two.
enum class Access { anyone, qualified, ladder, none };
constexpr Name<Access> names(Access*, int i) {
  constexpr Name<Access> all[] = {{"anyone", Access::anyone},
                                  {"qualified", Access::qualified},
                                  {"ladder", Access::ladder},
                                  {"none", Access::none}};
  return i < 4 ? all[i] : Name<Access>{};
}

/// Where a thing stands.
enum class Room { outdoors, roof, indoors, bathroom };
constexpr Name<Room> names(Room*, int i) {
  constexpr Name<Room> all[] = {{"outdoors", Room::outdoors},
                                {"roof", Room::roof},
                                {"indoors", Room::indoors},
                                {"bathroom", Room::bathroom}};
  return i < 4 ? all[i] : Name<Room>{};
}

/// What lies opposite the live parts of a thing that is worked on.
enum class Opposite { nothing, grounded, live };
constexpr Name<Opposite> names(Opposite*, int i) {
  constexpr Name<Opposite> all[] = {
      {"nothing", Opposite::nothing}, {"grounded", Opposite::grounded}, {"live", Opposite::live}};
  return i < 3 ? all[i] : Name<Opposite>{};
}

/// Clear space in front of a thing that may be worked on while it is live.
struct WorkingSpace {
  Span span;
  Given<units::Length> depth, width, height;
  Given<Opposite> opposite;
};
template <class V>
void describe(V& visit, WorkingSpace& s) {
  visit("depth", s.depth,
        About{.doc = "Clear depth in front of it.", .example = "1.2 m", .min = 0, .max = 100});
  visit("width", s.width,
        About{.doc = "Clear width in front of it.", .example = "0.9 m", .min = 0, .max = 100});
  visit("height", s.height,
        About{.doc = "Clear height in front of it.", .example = "2.1 m", .min = 0, .max = 100});
  visit("opposite", s.opposite,
        About{.doc = "What stands opposite: nothing, grounded (concrete, brick, tile and metal "
                     "count), or other live parts.",
              .example = "nothing"});
}

/// How a thing is separated from its sources.
enum class Means { device, plugs, holders };
constexpr Name<Means> names(Means*, int i) {
  constexpr Name<Means> all[] = {
      {"device", Means::device}, {"plugs", Means::plugs}, {"holders", Means::holders}};
  return i < 3 ? all[i] : Name<Means>{};
}

/// Conductors that a disconnect opens, all at one stroke.
enum class Opens { both, plus, minus };
constexpr Name<Opens> names(Opens*, int i) {
  constexpr Name<Opens> all[] = {
      {"both", Opens::both}, {"plus", Opens::plus}, {"minus", Opens::minus}};
  return i < 3 ? all[i] : Name<Opens>{};
}

/// Where the disconnect of the whole PV system stands, seen from the equipment.
enum class Side { array, battery, ac, load };
constexpr Name<Side> names(Side*, int i) {
  constexpr Name<Side> all[] = {
      {"array", Side::array}, {"battery", Side::battery}, {"ac", Side::ac}, {"load", Side::load}};
  return i < 4 ? all[i] : Name<Side>{};
}

/// A disconnect: of a box, of an input, or of the whole PV system.
struct Disconnect {
  Span span;
  Given<Means> means;
  Given<std::string> part;
  Given<int> poles, handles;
  Given<Opens> opens;
  Given<units::Length> distance, handle;
  Given<bool> in_sight, by_hand, not_under_load;
  Given<Access> access;
  Given<Room> stands;
  Given<Side> side;
  WorkingSpace space;
};
template <class V>
void describe(V& visit, Disconnect& d) {
  visit("means", d.means,
        About{.doc = "What opens: a device (breaker or switch), the strings' plugs, or touch-safe "
                     "fuse holders.",
              .example = "device"});
  visit("part", d.part,
        About{.doc = "The device, a breaker or disconnect; at an input left out, the input's own "
                     "device.",
              .example = "switch-60A"});
  visit("poles", d.poles,
        About{.doc = "Poles in series in each conductor.", .example = "1", .min = 1, .max = 4});
  visit("opens", d.opens,
        About{.doc = "Conductors that it opens, all at one stroke: both, plus or minus.",
              .example = "both"});
  visit("distance", d.distance,
        About{.doc = "From the thing it isolates; 0 m where it is inside.",
              .example = "0.5 m",
              .min = 0,
              .max = 10000});
  visit("in_sight", d.in_sight, About{.doc = "Seen from the thing.", .example = "true"});
  visit(
      "by_hand", d.by_hand,
      About{.doc = "Worked by hand from outside, nobody touching live parts.", .example = "true"});
  visit("not_under_load", d.not_under_load,
        About{.doc = "Plugs, holders or a switch without load-break are marked not to be opened "
                     "under load.",
              .example = "true"});
  visit("access", d.access,
        About{.doc = "Who reaches it: anyone who walks up, qualified people only (locked room, "
                     "fence), with a ladder, or none.",
              .example = "anyone"});
  visit("handle", d.handle,
        About{.doc = "Height of the grip's centre in its highest position.",
              .example = "1.5 m",
              .min = 0,
              .max = 100});
  visit("stands", d.stands,
        About{.doc = "Where it is: outdoors, roof, indoors or bathroom.", .example = "indoors"});
  visit("side", d.side,
        About{.doc = "Of the PV system's own disconnect: on the array side of the equipment, or "
                     "between it and the battery, the a.c. network or the load.",
              .example = "battery"});
  visit("handles", d.handles,
        About{.doc = "Of the PV system's own disconnect: handles it takes.",
              .example = "1",
              .min = 1,
              .max = 100});
  visit("space", d.space, About{.doc = "Clear working space in front of it."});
}

}  // namespace stringwright::job
