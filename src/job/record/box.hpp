#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/disconnect.hpp"
#include "job/record/landing.hpp"
#include "job/record/names.hpp"
#include "job/record/run.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

namespace stringwright::job {

struct PlaceAt {
  Span span;
  Given<std::string> on;
  Given<units::Length> x, y;
};
template <class V>
void describe(V& visit, PlaceAt& p) {
  visit("on", p.on, About{.doc = "Surface it is fixed to.", .example = "rack"});
  visit("x", p.x, About{.doc = "To the right.", .example = "-0.4 m"});
  visit("y", p.y, About{.doc = "Up the slope.", .example = "0.9 m"});
}

/// `slot.except.5`: what is different in slot 5.
struct SlotException {
  std::string id;
  Span span;
  Given<std::string> device;
  Given<int> poles;
};
template <class V>
void describe(V& visit, SlotException& e) {
  visit("device", e.device, About{.doc = "Its own part.", .example = "breaker-10A"});
  visit("poles", e.poles, About{.doc = "Its own poles.", .example = "2", .min = 1, .max = 4});
}

struct Slot {
  Span span;
  Given<std::string> device;
  Given<int> poles;
  std::vector<SlotException> except;
};
template <class V>
void describe(V& visit, Slot& s) {
  visit("device", s.device,
        About{.doc = "Part in every used slot.", .example = "breaker-20A", .may_choose = true});
  visit("poles", s.poles,
        About{.doc = "Poles in series or, with devices in both poles, one in each.",
              .example = "1",
              .min = 1,
              .max = 4});
  visit("except", s.except,
        About{.doc = "Slots whose device differs, by number: what is left out there is the same."});
}

/// The two wires of each string from its plugs to the box.
struct HomeRun {
  Span span;
  Given<units::Wire> wire;
  WireMarks marks;
  Given<bool> fine_strands;
  Given<units::Voltage> v_dc;
  Given<std::string> family;
  Given<units::Length> tail;
  std::vector<Segment> segment;
};
template <class V>
void describe(V& visit, HomeRun& h) {
  visit("wire", h.wire,
        About{.doc = "Conductor of both ends.", .example = "10 AWG Cu PV", .may_choose = true});
  describe(visit, h.marks);
  visit("fine_strands", h.fine_strands,
        About{.doc = "Its strands are finer than class C, as in very flexible cable.",
              .example = "false"});
  visit("v_dc", h.v_dc,
        About{.doc = "D.c. voltage printed on it.", .example = "2000 V", .min = 1, .max = 5000});
  visit("family", h.family,
        About{.doc = "Connector family of its plugs; bought as a made-up lead or fitted on site.",
              .example = "K2"});
  visit("tail", h.tail,
        About{.doc = "Length inside the box from the entry to the terminal.",
              .example = "0.75 m",
              .min = 0,
              .max = 10});
  visit("segment", h.segment,
        About{.doc = "Conditions along it; left out, the ampacity under conditions of use can't be "
                     "told."});
}

/// How a box hangs.
enum class Hang { upright, sloped, flat };
constexpr Name<Hang> names(Hang*, int i) {
  constexpr Name<Hang> all[] = {
      {"upright", Hang::upright}, {"sloped", Hang::sloped}, {"flat", Hang::flat}};
  return i < 3 ? all[i] : Name<Hang>{};
}

/// After reading, `out` and `lands` are known wherever the box's run says `from` and `to`, and the
/// run's `from` wherever a box names it as its `out`.
struct Box {
  std::string id;
  Span span;
  Given<std::string> part;
  PlaceAt at;
  Slot slot;
  HomeRun home_run;
  Given<std::string> out;
  Given<Landing> lands;
  Given<std::string> arrester;
  Given<units::Wire> rack_bond, arrester_wire;
  Given<Hang> mounted;
  Given<bool> outdoors, raceway_jumper;
  Given<units::Temperature> t_inside;
  Given<units::Length> arrester_leads;
  Given<bool> rack_bond_guarded;
  Given<Access> access;
  Given<Room> stands;
  Given<bool> closed;
  WorkingSpace space;
  std::optional<Disconnect> disconnect;
  Given<bool> bonded;
};
template <class V>
void describe(V& visit, Box& b) {
  visit("part", b.part,
        About{.doc = "The box itself, a part of kind box.", .example = "BX4", .may_choose = true});
  visit("at", b.at, About{.doc = "Where it hangs."});
  visit("slot", b.slot, About{.doc = "The device of every used slot."});
  visit("home_run", b.home_run, About{.doc = "Wires from the strings' plugs to the box."});
  visit("out", b.out, About{.doc = "The run that leaves it.", .example = "OUT"});
  visit("lands", b.lands,
        About{.doc = "Where its output lands, where the run does not say so.", .example = "RC.1"});
  visit("arrester", b.arrester,
        About{.doc = "Surge arrester in the box, a part.",
              .example = "arrester-200V",
              .may_choose = true});
  visit("arrester_wire", b.arrester_wire,
        About{.doc = "Wire of the arrester's three leads.", .example = "10 AWG Cu XHHW-2"});
  visit("arrester_leads", b.arrester_leads,
        About{.doc = "Both leads of one path through the arrester together: from its conductor "
                     "and on to the ground bar.",
              .example = "0.4 m",
              .min = 0,
              .max = 10});
  visit("rack_bond_guarded", b.rack_bond_guarded,
        About{.doc = "The rack bond is protected from damage, or lies where nothing hits it.",
              .example = "true"});
  visit("mounted", b.mounted,
        About{.doc = "How it hangs: upright, sloped (on the slope of modules), flat.",
              .example = "upright"});
  visit("outdoors", b.outdoors, About{.doc = "It hangs outdoors.", .example = "true"});
  visit("raceway_jumper", b.raceway_jumper,
        About{.doc = "Of a plastic box: metal raceway that comes in is bonded to the ground bar by "
                     "a bushing and a jumper.",
              .example = "true"});
  visit("rack_bond", b.rack_bond,
        About{.doc = "Bond from the racking to the ground bar.", .example = "6 AWG bare Cu"});
  visit("t_inside", b.t_inside,
        About{.doc = "Air inside on the hottest day, by heat budget or measured: the devices' "
                     "derating counts from it.",
              .example = "65 °C",
              .min = 263.15,
              .max = 423.15});
  visit("access", b.access,
        About{.doc = "Who reaches it: anyone who walks up, qualified people only (locked room, "
                     "fence), with a ladder, or none.",
              .example = "anyone"});
  visit(
      "stands", b.stands,
      About{.doc = "Where it hangs: outdoors, roof, indoors or bathroom.", .example = "outdoors"});
  visit("closed", b.closed,
        About{.doc = "Unused openings are closed, and bare fingers of spare slots covered.",
              .example = "true"});
  visit("space", b.space, About{.doc = "Clear working space in front of it."});
  visit("disconnect", b.disconnect, About{.doc = "What isolates it from its sources for work."});
  visit("bonded", b.bonded,
        About{.doc = "A strap or a green screw joins one of its poles to the ground bar.",
              .example = "false"});
}

}  // namespace stringwright::job
