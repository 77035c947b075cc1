#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "parts/device_curve.hpp"
#include "parts/goods.hpp"
#include "parts/module.hpp"
#include "units/sizes.hpp"

namespace stringwright::parts {

/// One kind of terminal or hole: what it takes and how tight it is made. What the maker's marking does
/// not say stays unknown and prints as "by marking".
struct TerminalSpec {
  Span span;
  Given<units::Torque> torque;
  Given<units::WireSize> wire_min, wire_max;
  Given<int> wires;  ///< wires one hole may hold
  Given<units::Temperature> rated;
  Given<bool> fine_strands;
};

template <class V>
void describe(V& visit, TerminalSpec& t) {
  visit("torque", t.torque,
        About{.doc = "Tightening torque by the maker's marking; left out prints \"by marking\".",
              .example = "2.3 N·m",
              .min = 0.05,
              .max = 200});
  visit("wire_min", t.wire_min,
        About{.doc = "Smallest conductor the hole takes.", .example = "14 AWG"});
  visit("wire_max", t.wire_max,
        About{.doc = "Largest conductor the hole takes.", .example = "6 AWG"});
  visit("wires", t.wires,
        About{.doc = "How many conductors one hole may hold.", .example = "1", .min = 1, .max = 8});
  visit("rated", t.rated,
        About{.doc = "Temperature rating of the terminal.",
              .example = "75 °C",
              .min = 313.15,
              .max = 423.15});
  visit("fine_strands", t.fine_strands,
        About{.doc = "Marked for cable of finer strands than class C.", .example = "true"});
}

/// What a part is listed for, by its marking.
enum class Listing { pv, dc, supplementary, none };
inline constexpr std::pair<std::string_view, Listing> names(Listing*, int i) {
  constexpr std::pair<std::string_view, Listing> all[] = {{"pv", Listing::pv},
                                                          {"dc", Listing::dc},
                                                          {"supplementary", Listing::supplementary},
                                                          {"none", Listing::none}};
  return i < 4 ? all[i] : std::pair<std::string_view, Listing>{};
}

/// What opens the cover over live parts.
enum class Cover { tool, lock, hand };
inline constexpr std::pair<std::string_view, Cover> names(Cover*, int i) {
  constexpr std::pair<std::string_view, Cover> all[] = {
      {"tool", Cover::tool}, {"lock", Cover::lock}, {"hand", Cover::hand}};
  return i < 3 ? all[i] : std::pair<std::string_view, Cover>{};
}

enum class PartKind {
  box,
  breaker,
  fuse,
  disconnect,
  arrester,
  holder,  ///< for one fuse per pole
  cable,   ///< connectorised: one plug of each kind, factory made
  wire,
  connector,
  conduit,
  fitting,
  relief,
  ground_bar,
  lug,
  controller,
  inverter,
  diode,
  electronics,
  branch
};
inline constexpr std::pair<std::string_view, PartKind> names(PartKind*, int i) {
  constexpr std::pair<std::string_view, PartKind> all[] = {{"box", PartKind::box},
                                                           {"breaker", PartKind::breaker},
                                                           {"fuse", PartKind::fuse},
                                                           {"disconnect", PartKind::disconnect},
                                                           {"arrester", PartKind::arrester},
                                                           {"holder", PartKind::holder},
                                                           {"cable", PartKind::cable},
                                                           {"wire", PartKind::wire},
                                                           {"connector", PartKind::connector},
                                                           {"conduit", PartKind::conduit},
                                                           {"fitting", PartKind::fitting},
                                                           {"relief", PartKind::relief},
                                                           {"ground-bar", PartKind::ground_bar},
                                                           {"lug", PartKind::lug},
                                                           {"controller", PartKind::controller},
                                                           {"inverter", PartKind::inverter},
                                                           {"diode", PartKind::diode},
                                                           {"electronics", PartKind::electronics},
                                                           {"branch", PartKind::branch}};
  return i < 19 ? all[i] : std::pair<std::string_view, PartKind>{};
}

enum class Material { metal, plastic };
inline constexpr std::pair<std::string_view, Material> names(Material*, int i) {
  constexpr std::pair<std::string_view, Material> all[] = {{"metal", Material::metal},
                                                           {"plastic", Material::plastic}};
  return i < 2 ? all[i] : std::pair<std::string_view, Material>{};
}

/// What a unit at a module does to its curve.
enum class ElectronicsKind {
  rapid_shutdown,  ///< passes the module through, or opens it on command
  converter        ///< takes the module at its own best point and gives other volts: an optimiser
};
inline constexpr std::pair<std::string_view, ElectronicsKind> names(ElectronicsKind*, int i) {
  constexpr std::pair<std::string_view, ElectronicsKind> all[] = {
      {"rapid-shutdown", ElectronicsKind::rapid_shutdown},
      {"converter", ElectronicsKind::converter}};
  return i < 2 ? all[i] : std::pair<std::string_view, ElectronicsKind>{};
}

/// A thing one can buy: a combiner box, a device that sits in one, or what goes to and from it. One flat
/// record; a field that does not belong to the kind is refused by the reader.
struct Part : Goods {
  std::string id;
  Span span;
  Given<PartKind> kind;
  Given<std::string> title;
  Given<Listing> listed;
  // box
  Given<std::vector<units::Length>> outline;  ///< width, height (inside face, door open)
  Given<int> slots, minus_holes, earth_holes;
  Given<units::Current> bus_rating, short_circuit;
  Given<std::string> enclosure;
  Given<Material> material;
  Given<Cover> cover;  ///< box, disconnect, breaker, fuse
  TerminalSpec bus, bus_out, minus, minus_out, earth, earth_out;
  // breaker, fuse, disconnect, arrester
  Given<units::Current> rating;
  Given<units::Voltage> v_dc_pole;  ///< d.c. volts one pole may interrupt
  Given<int> poles;
  Given<bool> polarised, load_break, continuous_100, lockable, not_under_load;
  Given<units::Current> interrupt;
  std::vector<TimeCurrentPoint> curve;  ///< breaker, fuse: rising current
  std::vector<DeratingPoint> derating;  ///< breaker, fuse, disconnect: rising temperature
  Given<units::Voltage> v_dc;  ///< box, disconnect, arrester (maximum continuous operating voltage)
  Given<units::Voltage> v_protect;   ///< arrester: protection level
  Given<units::Current> isc_rating;  ///< arrester: array current under which it fails safely
  Given<units::Voltage> v_reverse, v_forward;  ///< diode
  Given<ElectronicsKind> does;                 ///< electronics, with its limits
  Given<units::Voltage> v_in_max, v_out_max, v_standby;
  Given<units::Current> i_in_max, i_out_max;
  TerminalSpec line, load, terminal;
  Given<std::vector<units::Length>> size;  ///< width, height of the face
};

template <class V>
void describe(V& visit, Part& p) {
  visit("kind", p.kind, About{.doc = "What it is.", .required = true, .example = "box"});
  visit("title", p.title,
        About{.doc = "Plain name for lists.", .example = "four-slot combiner box"});
  visit("listed", p.listed,
        About{.doc = "What its marking lists it for: pv (photovoltaic d.c.), dc (other d.c. use), "
                     "supplementary (a supplementary protector), none.",
              .example = "pv"});
  visit("outline", p.outline,
        About{.doc = "Width and height of the inside; left out, the box is drawn NOT TO SCALE.",
              .example = "[\"250 mm\", \"186 mm\"]",
              .min = 0.05,
              .max = 3,
              .only = "box",
              .items = 2});
  visit("slots", p.slots,
        About{.doc = "Places for string devices on the rail.",
              .example = "4",
              .min = 1,
              .max = 48,
              .only = "box branch"});
  visit("minus_holes", p.minus_holes,
        About{.doc = "Holes of the bar the strings' other pole lands on.",
              .example = "6",
              .min = 1,
              .max = 100,
              .only = "box"});
  visit(
      "earth_holes", p.earth_holes,
      About{
          .doc = "Holes of the ground bar.", .example = "4", .min = 1, .max = 100, .only = "box"});
  visit("bus_rating", p.bus_rating,
        About{.doc = "Continuous rating of the bus bar.",
              .example = "100 A",
              .min = 1,
              .max = 5000,
              .only = "box"});
  visit("short_circuit", p.short_circuit,
        About{.doc = "Short-circuit current rating.",
              .example = "10 kA",
              .min = 1,
              .max = 500000,
              .only = "box"});
  visit("cover", p.cover,
        About{.doc = "What opens the door or cover over live parts: a tool, a key (lock), or the "
                     "bare hand.",
              .example = "tool",
              .only = "box disconnect"});
  visit("enclosure", p.enclosure,
        About{.doc = "Enclosure type by its marking.", .example = "3R", .only = "box"});
  visit(
      "material", p.material,
      About{
          .doc = "What the box is made of: metal or plastic.", .example = "metal", .only = "box"});
  visit("bus", p.bus,
        About{.doc = "Small screw on the device-side bus bar (arrester).", .only = "box"});
  visit("bus_out", p.bus_out,
        About{.doc = "Lug of the device-side bus bar for the output.", .only = "box"});
  visit("minus", p.minus, About{.doc = "Small holes of the minus bar.", .only = "box"});
  visit("minus_out", p.minus_out,
        About{.doc = "The output's hole of the minus bar (the last).", .only = "box"});
  visit("earth", p.earth, About{.doc = "Small holes of the ground bar.", .only = "box"});
  visit("earth_out", p.earth_out, About{.doc = "Big holes of the ground bar.", .only = "box"});
  visit("rating", p.rating,
        About{.doc = "Rated current.",
              .example = "20 A",
              .min = 0.1,
              .max = 6000,
              .only = "breaker fuse disconnect holder connector cable diode branch"});
  visit("v_dc_pole", p.v_dc_pole,
        About{.doc = "D.c. volts that one pole may interrupt.",
              .example = "150 V",
              .min = 1,
              .max = 2000,
              .only = "breaker fuse disconnect holder"});
  visit("poles", p.poles,
        About{.doc = "Poles of one unit.",
              .example = "1",
              .min = 1,
              .max = 4,
              .only = "breaker fuse disconnect arrester holder"});
  visit("polarised", p.polarised,
        About{.doc = "Has + and - or line and load marks, so that it interrupts in one "
                     "direction only.",
              .example = "false",
              .only = "breaker fuse disconnect"});
  visit("load_break", p.load_break,
        About{.doc = "May be opened under load. A bare fuse holder may not.",
              .example = "true",
              .only = "breaker fuse disconnect holder"});
  visit("continuous_100", p.continuous_100,
        About{.doc = "The assembly is listed for 100 % of its rating in continuous duty.",
              .example = "false",
              .only = "breaker fuse disconnect"});
  visit("lockable", p.lockable,
        About{.doc = "Can be locked open, the lock staying in place or fitted without parts that "
                     "get lost.",
              .example = "true",
              .only = "breaker disconnect"});
  visit("not_under_load", p.not_under_load,
        About{.doc = "Marked not to be opened under load.",
              .example = "true",
              .only = "fuse disconnect"});
  visit("interrupt", p.interrupt,
        About{.doc = "D.c. interrupting rating.",
              .example = "5 kA",
              .min = 1,
              .max = 500000,
              .only = "breaker fuse disconnect"});
  visit("curve", p.curve,
        About{.doc = "Points of the maker's time-current curve, the slow side of its band, rising.",
              .only = "breaker fuse"});
  visit("derating", p.derating,
        About{.doc = "The maker's factors on the rating by the temperature around the device, "
                     "rising; 1 at the temperature of the rating.",
              .only = "breaker fuse disconnect"});
  visit("v_dc", p.v_dc,
        About{.doc = "Maximum d.c. voltage. Arrester: maximum continuous operating voltage; "
                     "equipment: absolute maximum at its input.",
              .example = "600 V",
              .min = 1,
              .max = 2000,
              .only = "box disconnect arrester cable wire connector controller inverter branch"});
  visit("v_protect", p.v_protect,
        About{.doc = "Voltage protection level: what it lets through.",
              .example = "800 V",
              .min = 50,
              .max = 20000,
              .only = "arrester"});
  visit("isc_rating", p.isc_rating,
        About{.doc = "Short-circuit current of the array that it is rated for.",
              .example = "10 kA",
              .min = 1,
              .max = 500000,
              .only = "arrester"});
  visit("v_reverse", p.v_reverse,
        About{.doc = "Reverse voltage it blocks, repetitive peak.",
              .example = "1000 V",
              .min = 1,
              .max = 5000,
              .only = "diode"});
  visit("v_forward", p.v_forward,
        About{.doc = "Forward voltage at its rated current.",
              .example = "0.9 V",
              .min = 0.1,
              .max = 5,
              .only = "diode"});
  visit(
      "does", p.does,
      About{.doc = "rapid-shutdown: passes the module through or opens it; converter: gives other "
                   "volts than the module.",
            .example = "rapid-shutdown",
            .only = "electronics"});
  visit("v_in_max", p.v_in_max,
        About{.doc = "Highest module voltage at its input.",
              .example = "80 V",
              .min = 1,
              .max = 2000,
              .only = "electronics"});
  visit("i_in_max", p.i_in_max,
        About{.doc = "Highest module short-circuit current at its input.",
              .example = "15 A",
              .min = 0.1,
              .max = 200,
              .only = "electronics"});
  visit("v_out_max", p.v_out_max,
        About{.doc = "Highest voltage it gives.",
              .example = "80 V",
              .min = 1,
              .max = 2000,
              .only = "electronics"});
  visit("i_out_max", p.i_out_max,
        About{.doc = "Highest current it gives or passes.",
              .example = "15 A",
              .min = 0.1,
              .max = 200,
              .only = "electronics"});
  visit("v_standby", p.v_standby,
        About{.doc = "Voltage that it leaves at its output when shut down.",
              .example = "0.6 V",
              .min = 0,
              .max = 2000,
              .only = "electronics"});
  visit("line", p.line,
        About{.doc = "Terminal on the string's side.",
              .only = "breaker fuse disconnect arrester holder"});
  visit("load", p.load,
        About{.doc = "Terminal on the bus's side.",
              .only = "breaker fuse disconnect arrester holder"});
  visit("terminal", p.terminal,
        About{.doc = "Its holes or screws.", .only = "ground-bar lug controller inverter"});
  visit("size", p.size,
        About{.doc = "Width and height of the face.",
              .example = "[\"18 mm\", \"85 mm\"]",
              .min = 0.005,
              .max = 1,
              .only = "breaker fuse disconnect arrester holder",
              .items = 2});
  describe_goods(visit, p);
}

/// Records that a job may refer to besides its own. A job's own record of the same id wins.
struct Library {
  std::vector<Module> modules;
  std::vector<Part> parts;
};

}  // namespace stringwright::parts
