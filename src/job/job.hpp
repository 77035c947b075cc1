#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "parts/module.hpp"
#include "parts/part.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

/// The job file as records, one per table. Each record has one field list, `describe`, below it.
/// Meaning: docs/jobfile.md (generated from these lists) and docs/methods/job.md.
namespace stringwright::job {

/// Names of an enumeration in the file, in order; ends with an empty name.
template <class E>
using Name = std::pair<std::string_view, E>;

enum class UnitSystem { metric, us };
enum class VoltageMethod { coefficient, table };
enum class Scheme { functional, solid, ungrounded };
enum class Pole { plus, minus };
enum class DevicesIn { plus, minus, both };
enum class Place { ground, roof, pole };
enum class Setting { portrait, landscape };
enum class EquipmentKind { mppt_controller, pwm_controller, inverter, pump_drive };

constexpr Name<UnitSystem> names(UnitSystem*, int i) {
  constexpr Name<UnitSystem> all[] = {{"metric", UnitSystem::metric}, {"us", UnitSystem::us}};
  return i < 2 ? all[i] : Name<UnitSystem>{};
}
constexpr Name<VoltageMethod> names(VoltageMethod*, int i) {
  constexpr Name<VoltageMethod> all[] = {{"coefficient", VoltageMethod::coefficient},
                                         {"table", VoltageMethod::table}};
  return i < 2 ? all[i] : Name<VoltageMethod>{};
}
constexpr Name<Scheme> names(Scheme*, int i) {
  constexpr Name<Scheme> all[] = {{"functional", Scheme::functional},
                                  {"solid", Scheme::solid},
                                  {"ungrounded", Scheme::ungrounded}};
  return i < 3 ? all[i] : Name<Scheme>{};
}
constexpr Name<Pole> names(Pole*, int i) {
  constexpr Name<Pole> all[] = {{"plus", Pole::plus}, {"minus", Pole::minus}};
  return i < 2 ? all[i] : Name<Pole>{};
}
constexpr Name<DevicesIn> names(DevicesIn*, int i) {
  constexpr Name<DevicesIn> all[] = {
      {"plus", DevicesIn::plus}, {"minus", DevicesIn::minus}, {"both", DevicesIn::both}};
  return i < 3 ? all[i] : Name<DevicesIn>{};
}
constexpr Name<Place> names(Place*, int i) {
  constexpr Name<Place> all[] = {
      {"ground", Place::ground}, {"roof", Place::roof}, {"pole", Place::pole}};
  return i < 3 ? all[i] : Name<Place>{};
}
constexpr Name<Setting> names(Setting*, int i) {
  constexpr Name<Setting> all[] = {{"portrait", Setting::portrait},
                                   {"landscape", Setting::landscape}};
  return i < 2 ? all[i] : Name<Setting>{};
}
constexpr Name<EquipmentKind> names(EquipmentKind*, int i) {
  constexpr Name<EquipmentKind> all[] = {{"mppt-controller", EquipmentKind::mppt_controller},
                                         {"pwm-controller", EquipmentKind::pwm_controller},
                                         {"inverter", EquipmentKind::inverter},
                                         {"pump-drive", EquipmentKind::pump_drive}};
  return i < 4 ? all[i] : Name<EquipmentKind>{};
}

/// Code editions that a job may name.
inline constexpr std::array<std::string_view, 3> editions{"nec_2017", "nec_2020", "nec_2023"};

/// Wiring methods of a segment: open air, a tray, direct burial, or a raceway by its short name.
inline constexpr std::array<std::string_view, 12> wiring_methods{
    "free-air", "tray",  "buried", "EMT",  "RMC", "IMC",
    "PVC40",    "PVC80", "LFMC",   "LFNC", "FMC", "HDPE"};

/// `[job]`: what the title block and the rules need to know of the whole.
struct Header {
  Span span;
  Given<std::string> name, edition;
  Given<UnitSystem> units;
  Given<std::string> date;
  Given<VoltageMethod> voltage_by;
  Given<std::string> id, customer, place, authority, designer, licence, revision, note;
};
template <class V>
void describe(V& visit, Header& h) {
  visit(
      "name", h.name,
      About{.doc = "Name of the job, on every sheet.", .required = true, .example = "North cabin"});
  visit("edition", h.edition,
        About{.doc = "Code edition adopted where the array stands: nec_2017, nec_2020, nec_2023.",
              .required = true,
              .example = "nec_2023"});
  visit("units", h.units, About{.doc = "Units shown first on papers.", .example = "metric"});
  visit("date", h.date,
        About{.doc = "Date of the papers, year-month-day. Nothing reads a clock.",
              .example = "2031-05-02"});
  visit("voltage_by", h.voltage_by,
        About{.doc = "Method for the cold voltage that judges; the other is shown beside it.",
              .example = "coefficient"});
  visit("id", h.id, About{.doc = "Your own number of the job.", .example = "N-01"});
  visit("customer", h.customer, About{.doc = "Title block: customer."});
  visit("place", h.place,
        About{.doc = "Title block: place.", .example = "ground rack beside the woodpile"});
  visit("authority", h.authority, About{.doc = "Title block: authority having jurisdiction."});
  visit("designer", h.designer, About{.doc = "Title block: designer."});
  visit("licence", h.licence, About{.doc = "Title block: licence."});
  visit("revision", h.revision, About{.doc = "Title block: revision.", .example = "A"});
  visit("note", h.note, About{.doc = "Free text, kept, never read."});
}

/// `[site]`: the weather that sizes things, and what the array stands on.
struct Site {
  Span span;
  Given<units::Temperature> t_min, t_record, t_hot;
  Given<units::TemperatureDifference> rise;
  Given<Place> place;
  Given<bool> dwelling, on_building;
};
template <class V>
void describe(V& visit, Site& s) {
  visit("t_min", s.t_min,
        About{.doc = "Lowest expected ambient temperature (mean of the yearly lows).",
              .example = "-31 °C",
              .min = 193.15,
              .max = 313.15});
  visit("t_record", s.t_record,
        About{.doc = "Record low; shown beside the design value.",
              .example = "-42 °C",
              .min = 183.15,
              .max = 313.15});
  visit("t_hot", s.t_hot,
        About{.doc = "Hot design ambient temperature.",
              .example = "32 °C",
              .min = 263.15,
              .max = 343.15});
  visit("rise", s.rise,
        About{.doc = "Cell temperature above ambient in full sun, a difference.",
              .example = "30 K",
              .min = 0,
              .max = 60});
  visit("place", s.place, About{.doc = "What the array stands on.", .example = "ground"});
  visit(
      "dwelling", s.dwelling,
      About{.doc = "The circuits are on or in a one- or two-family dwelling.", .example = "true"});
  visit("on_building", s.on_building,
        About{.doc = "Array or its circuits are on or in a building.", .example = "false"});
}

struct Grounding {
  Span span;
  Given<Scheme> scheme;
  Given<Pole> pole;
  Given<DevicesIn> devices_in;
  Given<std::string> bond;
};
template <class V>
void describe(V& visit, Grounding& g) {
  visit("scheme", g.scheme, About{.doc = "System grounding.", .example = "functional"});
  visit("pole", g.pole,
        About{.doc = "The grounded pole; none for ungrounded.", .example = "minus"});
  visit("devices_in", g.devices_in,
        About{.doc = "Poles that carry string devices.", .example = "plus"});
  visit(
      "bond", g.bond,
      About{.doc = "The one device that owns the bond of the system to ground.", .example = "CC1"});
}

/// A plane that rows stand on.
struct Surface {
  std::string id;
  Span span;
  Given<units::Angle> tilt, azimuth;
};
template <class V>
void describe(V& visit, Surface& s) {
  visit("tilt", s.tilt,
        About{.doc = "Slope against the horizontal.",
              .example = "45 °",
              .min = 0,
              .max = 3.1415926536});
  visit("azimuth", s.azimuth,
        About{.doc = "Direction it faces, clockwise from north.",
              .example = "180 °",
              .min = -6.2831853072,
              .max = 6.2831853072});
}

/// A row of like modules; `rows` repeats it regularly and is read into rows of its own.
struct Row {
  std::string id;
  Span span;
  Given<std::string> on, module;
  Given<int> count;
  Given<std::vector<units::Length>> at;  ///< x, y of the first module's lower left corner
  Given<Setting> set;
  Given<units::Length> pitch;
};
template <class V>
void describe(V& visit, Row& r) {
  visit("on", r.on, About{.doc = "Surface it stands on.", .example = "rack"});
  visit("module", r.module,
        About{.doc = "Module of every place.", .required = true, .example = "M365"});
  visit("count", r.count,
        About{.doc = "Places in the row, numbered from 1 in the direction of x.",
              .required = true,
              .example = "3",
              .min = 1,
              .max = 100000});
  visit("at", r.at,
        About{.doc = "Lower left corner of the first module: x to the right, y up the slope.",
              .example = "[\"0 m\", \"0 m\"]",
              .items = 2});
  visit("set", r.set,
        About{.doc = "Long side up (portrait) or across (landscape).", .example = "portrait"});
  visit("pitch", r.pitch,
        About{.doc = "From one module's left edge to the next one's.",
              .example = "1.06 m",
              .min = 0.05,
              .max = 20});
}

/// One module of a string: place `number` (from 1) of row `row`.
struct ModulePlace {
  std::string row;
  int number = 0;
  friend bool operator==(const ModulePlace&, const ModulePlace&) = default;
};

/// Where an end lands, as written ("A1.1", "CC1.PV1", "BA.minus.7") and taken apart.
struct Landing {
  std::string text;
  std::string owner;  ///< box or equipment id
  std::string bar;    ///< "" = slot, "minus", "earth", or the input's name on equipment
  int number = 0;     ///< slot or hole, from 1; 0 for an input
};

/// The wire of a home run or a run.
struct RunWire {
  Span span;
  Given<units::Wire> poles, egc;
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

/// A source circuit: modules walked in order from the minus end to the plus end.
struct String {
  std::string id;
  Span span;
  Given<std::vector<ModulePlace>> walk;
  Given<Landing> lands;
  Given<units::Length> plus_end, minus_end;
  Given<std::string> home_run;
  Given<units::Ratio> age;
};
template <class V>
void describe(V& visit, String& s) {
  visit(
      "walk", s.walk,
      About{
          .doc =
              "Modules from the minus end to the plus end: ranges of places, separated by commas.",
          .required = true,
          .example = "R1.3-R1.1"});
  visit(
      "lands", s.lands,
      About{
          .doc = "Slot of a box, or input of the equipment.", .required = true, .example = "A1.1"});
  visit("plus_end", s.plus_end,
        About{.doc = "Mated plug at the plus end to the box entry, one way, without tail; wins "
                     "over geometry.",
              .example = "1.2 m",
              .min = 0,
              .max = 2000});
  visit("minus_end", s.minus_end,
        About{.doc = "The same for the minus end.", .example = "4.4 m", .min = 0, .max = 2000});
  visit("home_run", s.home_run,
        About{.doc = "A run that the ends take instead of the box's home_run.", .example = "HX"});
  visit("age", s.age,
        About{.doc = "Share of its current that an old string still gives.",
              .example = "0.92",
              .min = 0.05,
              .max = 1.2});
}

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

struct Slot {
  Span span;
  Given<std::string> device;
  Given<int> poles;
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
}

/// The two wires of each string from its plugs to the box.
struct HomeRun {
  Span span;
  Given<units::Wire> wire;
  Given<units::Length> tail;
  std::vector<Segment> segment;
};
template <class V>
void describe(V& visit, HomeRun& h) {
  visit("wire", h.wire,
        About{.doc = "Conductor of both ends.", .example = "10 AWG Cu PV", .may_choose = true});
  visit("tail", h.tail,
        About{.doc = "Length inside the box from the entry to the terminal.",
              .example = "0.75 m",
              .min = 0,
              .max = 10});
  visit("segment", h.segment,
        About{.doc = "Conditions along it; left out, the ampacity under conditions of use can't be "
                     "told."});
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
        About{.doc = "Surge arrester in the box, a part.", .example = "arrester-200V"});
  visit("arrester_wire", b.arrester_wire,
        About{.doc = "Wire of the arrester's three leads.", .example = "10 AWG Cu XHHW-2"});
  visit("rack_bond", b.rack_bond,
        About{.doc = "Bond from the racking to the ground bar.", .example = "6 AWG bare Cu"});
}

struct Battery {
  Span span;
  Given<units::Voltage> v_max;
  Given<units::Current> fault_current;
};
template <class V>
void describe(V& visit, Battery& b) {
  visit("v_max", b.v_max,
        About{.doc = "Highest charge voltage.", .example = "54 V", .min = 1, .max = 1500});
  visit("fault_current", b.fault_current,
        About{.doc = "Fault current the battery can give at the equipment.",
              .example = "5 kA",
              .min = 1,
              .max = 1e6});
}

struct Input {
  std::string id;
  Span span;
  Given<units::Voltage> v_max, v_operating_max, v_operating_min, v_start;
  Given<units::Current> isc_max, i_max;
  Given<units::Temperature> terminals;
  Given<std::string> device;
  Given<int> poles;
};
template <class V>
void describe(V& visit, Input& i) {
  visit("v_max", i.v_max,
        About{.doc = "Absolute maximum input voltage.", .example = "150 V", .min = 1, .max = 2000});
  visit("v_operating_max", i.v_operating_max,
        About{.doc = "Highest voltage it works at, where lower than v_max.",
              .example = "145 V",
              .min = 1,
              .max = 2000});
  visit("v_operating_min", i.v_operating_min,
        About{.doc = "Lowest voltage of its tracking window.",
              .example = "60 V",
              .min = 1,
              .max = 2000});
  visit("v_start", i.v_start,
        About{.doc = "What it needs above the battery to start, or its start voltage where there "
                     "is no battery.",
              .example = "5 V",
              .min = 0,
              .max = 2000});
  visit("isc_max", i.isc_max,
        About{.doc = "Highest array short-circuit current allowed at the input.",
              .example = "50 A",
              .min = 0.1,
              .max = 10000});
  visit("i_max", i.i_max,
        About{.doc = "Rated input current; more is clipped, not dangerous.",
              .example = "40 A",
              .min = 0.1,
              .max = 10000});
  visit("terminals", i.terminals,
        About{.doc = "Temperature rating of its terminals.",
              .example = "75 °C",
              .min = 313.15,
              .max = 423.15});
  visit(
      "device", i.device,
      About{.doc = "Breaker, fuse or disconnect at the input, a part.", .example = "breaker-40A"});
  visit("poles", i.poles,
        About{.doc = "Poles of that device in the circuit.", .example = "1", .min = 1, .max = 4});
}

struct Equipment {
  std::string id;
  Span span;
  Given<EquipmentKind> kind;
  Given<bool> blocks_reverse, isolated;
  std::optional<Battery> battery;
  std::vector<Input> input;
};
template <class V>
void describe(V& visit, Equipment& e) {
  visit("kind", e.kind,
        About{.doc = "What it is.", .required = true, .example = "mppt-controller"});
  visit("blocks_reverse", e.blocks_reverse,
        About{.doc = "Its documents say that it blocks current from battery to array; left out, "
                     "back-feed can't be told.",
              .example = "true"});
  visit("isolated", e.isolated,
        About{.doc = "Input and output are isolated from each other.", .example = "false"});
  visit("battery", e.battery, About{.doc = "The battery behind it: a source."});
  visit("input", e.input, About{.doc = "Its PV inputs by name.", .required = true});
}

/// Where the built thing differs from the drawn one.
struct AsBuilt {
  Span span;
  Given<std::string> end;
  Given<Landing> lands;
  Given<std::string> note;
};
template <class V>
void describe(V& visit, AsBuilt& a) {
  visit("end", a.end,
        About{.doc = "Conductor end, string and pole.", .required = true, .example = "A7-"});
  visit("lands", a.lands,
        About{.doc = "Where it was found.", .required = true, .example = "BB.minus.7"});
  visit("note", a.note, About{.doc = "Remark."});
}

struct Waiver {
  Span span;
  Given<std::string> finding, reason, by, date;
};
template <class V>
void describe(V& visit, Waiver& w) {
  visit("finding", w.finding,
        About{.doc = "Id of the finding, rule@thing.",
              .required = true,
              .example = "conductor.voltage-drop@OUT"});
  visit("reason", w.reason, About{.doc = "Why it is accepted.", .required = true});
  visit("by", w.by, About{.doc = "Who accepts it.", .required = true});
  visit("date", w.date,
        About{.doc = "When, year-month-day.", .required = true, .example = "2031-05-02"});
}

struct Job {
  Given<int> format;
  Header job;
  Site site;
  Grounding grounding;
  std::vector<parts::Module> module;
  std::vector<parts::Part> part;
  std::vector<Surface> surface;
  std::vector<Row> row;  ///< `row` and the rows that `rows` stands for, in file order
  std::vector<String>
      string;  ///< `string` and the strings that `strings` stands for, in file order
  std::vector<Box> box;
  std::vector<Run> run;
  std::vector<Equipment> equipment;
  std::vector<AsBuilt> as_built;
  std::vector<Waiver> waive;
};
template <class V>
void describe(V& visit, Job& j) {
  visit("format", j.format,
        About{.doc = "Version of this format: 1.",
              .required = true,
              .example = "1",
              .min = 1,
              .max = 1});
  visit("job", j.job, About{.doc = "The whole job.", .required = true});
  visit("site", j.site, About{.doc = "Weather and place."});
  visit("grounding", j.grounding, About{.doc = "System grounding."});
  visit("module", j.module, About{.doc = "Modules by id, from their data sheets."});
  visit("part", j.part, About{.doc = "Parts by id; a job's own record wins over the library's."});
  visit("surface", j.surface, About{.doc = "Planes that rows stand on."});
  visit("row", j.row, About{.doc = "Rows of modules."});
  visit("string", j.string, About{.doc = "Strings (source circuits)."});
  visit("box", j.box, About{.doc = "Combiner and re-combiner boxes."});
  visit("run", j.run, About{.doc = "Runs of cable or conduit."});
  visit("equipment", j.equipment, About{.doc = "Charge controllers, inverters, pump drives."});
  visit("as_built", j.as_built, About{.doc = "Where the built thing differs from the drawn one."});
  visit("waive", j.waive, About{.doc = "Findings accepted with a reason."});
}

}  // namespace stringwright::job
