#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include <fstream>
#include <functional>
#include <numeric>
#include <set>
#include <sstream>

#include "job/read.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::wiring {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

std::string cabin_text() {
  std::ifstream in(STRINGWRIGHT_SOURCE_DIR "/examples/north-cabin.toml");
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

Wiring build_text(const std::string& text) {
  auto reading = job::read(text, "test.toml");
  for (const auto& d : reading.diagnostics)
    if (d.severity == Severity::error) ADD_FAILURE() << render(d, text);
  if (!reading.job) return {};
  Diagnostics problems;
  Wiring w = build(*reading.job, problems);
  for (const auto& d : problems) ADD_FAILURE() << render(d, text);
  return w;
}

const Conductor& conductor(const Wiring& w, const std::string& id) {
  const int i = w.find_conductor(id);
  EXPECT_GE(i, 0) << id;
  return w.conductors[at(std::max(i, 0))];
}

std::string ends(const Wiring& w, const std::string& id) {
  const auto& c = conductor(w, id);
  if (c.from < 0 || c.to < 0) return "?";
  return w.terminals[at(c.from)].id + " > " + w.terminals[at(c.to)].id;
}

/// Terminals that are one node when every device is closed: conductors, bars and protectors join, and
/// modules do not.
class Nodes {
 public:
  explicit Nodes(const Wiring& w) : parent_(w.terminals.size()) {
    std::iota(parent_.begin(), parent_.end(), 0);
    for (const auto& c : w.conductors) join(c.from, c.to);
    for (const auto& d : w.devices) {
      if (d.kind == DeviceKind::bar)
        for (int t : d.terminals) join(d.terminals.front(), t);
      if (d.kind == DeviceKind::protector)
        for (std::size_t i = 1; i < d.terminals.size(); i += 2)
          join(d.terminals[i - 1], d.terminals[i]);
    }
  }
  int of(int t) {
    while (parent_[at(t)] != t) t = parent_[at(t)];
    return t;
  }

 private:
  void join(int x, int y) { parent_[at(of(x))] = of(y); }
  std::vector<int> parent_;
};

/// What holds of every graph, whatever the job.
void expect_sound(const Wiring& w) {
  std::set<std::string> ids;
  for (const auto& t : w.terminals) EXPECT_TRUE(ids.insert(t.id).second) << "twice: " << t.id;
  ids.clear();
  for (const auto& c : w.conductors) EXPECT_TRUE(ids.insert(c.id).second) << "twice: " << c.id;
  ids.clear();
  for (const auto& d : w.devices) EXPECT_TRUE(ids.insert(d.id).second) << "twice: " << d.id;
  for (const auto& c : w.conductors) {
    ASSERT_GE(c.from, 0) << c.id;
    ASSERT_GE(c.to, 0) << c.id;
    if (c.kind == ConductorKind::lead) continue;
    EXPECT_EQ(w.terminals[at(c.from)].pole, w.terminals[at(c.to)].pole) << c.id;
    EXPECT_EQ(w.terminals[at(c.from)].pole, c.pole) << c.id;
  }
  // With every device closed each string's two ends meet the two sides of an input.
  Nodes nodes(w);
  for (const auto& s : w.strings) {
    ASSERT_FALSE(s.modules.empty());
    const int plus = nodes.of(w.find_terminal(w.devices[at(s.modules.back())].id + ".plus"));
    const int minus = nodes.of(w.find_terminal(w.devices[at(s.modules.front())].id + ".minus"));
    bool met = false;
    for (const auto& in : w.inputs)
      met = met || (plus == nodes.of(w.find_terminal(in.id + ".plus")) &&
                    minus == nodes.of(w.find_terminal(in.id + ".minus")));
    EXPECT_TRUE(met) << s.id << " does not reach an input";
    EXPECT_NE(plus, minus) << s.id;
  }
}

TEST(Wiring, CabinEndToEnd) {
  const Wiring w = build_text(cabin_text());
  expect_sound(w);
  EXPECT_EQ(counts_line(w), "6 modules · 2 strings · 2 string devices · 4 string wires · 3 down");
  EXPECT_EQ(ends(w, "S1+"), "S1.3.plus > A1.Q1.line");
  EXPECT_EQ(ends(w, "S1-"), "S1.1.minus > A1.N.1");
  EXPECT_EQ(ends(w, "S2+"), "S2.3.plus > A1.Q2.line");
  EXPECT_EQ(ends(w, "S2-"), "S2.1.minus > A1.N.2");
  EXPECT_EQ(ends(w, "OUT+"), "A1.P.2 > CC1.PV1.Q.line");
  EXPECT_EQ(ends(w, "OUT-"), "A1.N.6 > CC1.PV1.minus");
  EXPECT_EQ(ends(w, "OUT.EGC"), "A1.G.4 > CC1.PV1.ground");
  EXPECT_EQ(ends(w, "A1.SA+"), "A1.P.1 > A1.SA.plus");
  EXPECT_EQ(ends(w, "A1.SA-"), "A1.N.5 > A1.SA.minus");
  EXPECT_EQ(ends(w, "A1.SAE"), "A1.SA.ground > A1.G.2");
  EXPECT_EQ(ends(w, "A1.EGC1"), "rack.ground > A1.G.1");
  // Module 1 stands at the minus end: the walk of S1 begins at R1.3.
  EXPECT_EQ(w.devices[at(w.strings[0].modules[0])].owner, "R1");
  EXPECT_EQ(ends(w, "S1.1-2"), "S1.1.plus > S1.2.minus");
}

TEST(Wiring, LengthsOfTheCabin) {
  const Wiring w = build_text(cabin_text());
  // End lengths of the job plus 0.75 m of tail; the run is 36.5 m + 1.5 m.
  EXPECT_NEAR(conductor(w, "S1+").length->in(units::metres), 1.95, 1e-12);
  EXPECT_NEAR(conductor(w, "S1-").length->in(units::metres), 5.15, 1e-12);
  EXPECT_NEAR(conductor(w, "S2+").length->in(units::metres), 6.35, 1e-12);
  EXPECT_NEAR(conductor(w, "OUT+").length->in(units::metres), 38.0, 1e-12);
  EXPECT_EQ(conductor(w, "OUT+").stretches.size(), 2u);
  EXPECT_EQ(*conductor(w, "OUT+").stretches[0].wires, 2);
  EXPECT_EQ(*conductor(w, "S1+").stretches[0].wires, 4);
  EXPECT_NEAR(conductor(w, "OUT+").stretches[0].ambient->celsius(), 32, 1e-9);
}

TEST(Wiring, LengthsFromGeometryWhereNoEndIsGiven) {
  std::string text = cabin_text();
  const std::string given = R"(, plus_end = "1.2 m", minus_end = "4.4 m")";
  text.replace(text.find(given), given.size(), "");
  const Wiring w = build_text(text);
  // Hand calculation: module 1 of row R1 has its centre at 0.52 m, module 3 at 2 · 1.06 + 0.52 m; the box
  // hangs at (−0.4 m, 0.9 m), the row's lower edge lies at y = 0.
  EXPECT_NEAR(conductor(w, "S1+").length->in(units::metres), 0.92 + 0.9 + 0.75, 1e-12);
  EXPECT_NEAR(conductor(w, "S1-").length->in(units::metres), 3.04 + 0.9 + 0.75, 1e-12);
  EXPECT_EQ(conductor(w, "S1+").length_from, "geometry + tail");
}

TEST(Wiring, UnknownLengthStaysUnknown) {
  std::string text = cabin_text();
  const std::string given = R"(, plus_end = "1.2 m", minus_end = "4.4 m")";
  text.replace(text.find(given), given.size(), "");
  const std::string place = R"(at = { on = "rack", x = "-0.4 m", y = "0.9 m" })";
  text.replace(text.find(place), place.size(), "");
  const Wiring w = build_text(text);
  EXPECT_FALSE(conductor(w, "S1+").length.has_value());
  EXPECT_TRUE(conductor(w, "S2+").length.has_value());
}

TEST(Wiring, PositiveGroundedPutsDevicesInTheMinus) {
  std::string text = cabin_text();
  const auto swap = [&](const std::string& from, const std::string& to) {
    text.replace(text.find(from), from.size(), to);
  };
  swap("pole       = \"minus\"", "pole       = \"plus\"");
  swap("devices_in = \"plus\"", "devices_in = \"minus\"");
  const Wiring w = build_text(text);
  expect_sound(w);
  EXPECT_EQ(ends(w, "S1-"), "S1.1.minus > A1.Q1.line");
  EXPECT_EQ(ends(w, "S1+"), "S1.3.plus > A1.P.1");
  EXPECT_EQ(ends(w, "OUT+"), "A1.P.6 > CC1.PV1.plus");
  EXPECT_EQ(colour(w, conductor(w, "S1-")), "black");
}

TEST(Wiring, ASlotWithADeviceOfItsOwn) {
  std::string text = cabin_text();
  const std::string common = "slot = { device = \"breaker-20A\", poles = 1";
  text.replace(text.find(common), common.size(),
               common + ", except.2 = { device = \"breaker-40A\" }, except.1 = { poles = 2 }");
  const Wiring w = build_text(text);
  expect_sound(w);
  const auto device = [&](const char* id) {
    return w.devices[static_cast<std::size_t>(w.find_device(id))];
  };
  EXPECT_EQ(device("A1.Q1").part, "breaker-20A");
  EXPECT_EQ(device("A1.Q1").poles, 2);
  EXPECT_EQ(device("A1.Q2").part, "breaker-40A");
  EXPECT_EQ(device("A1.Q2").poles, 1);
  EXPECT_NE(device("A1.Q1").span, device("A1.Q2").span);
  // Each terminal takes what its own device takes.
  EXPECT_EQ(
      w.terminals[static_cast<std::size_t>(w.find_terminal("A1.Q2.line"))].spec->wire_max->print(),
      "2 AWG");
}

TEST(Wiring, BothPoles) {
  std::string text = cabin_text();
  const auto swap = [&](const std::string& from, const std::string& to) {
    text.replace(text.find(from), from.size(), to);
  };
  swap("scheme     = \"functional\"", "scheme     = \"ungrounded\"");
  swap("pole       = \"minus\"\n", "");
  swap("bond       = \"CC1\"\n", "");
  swap("devices_in = \"plus\"", "devices_in = \"both\"");
  swap("slot = { device = \"breaker-20A\", poles = 1 }",
       "slot = { device = \"breaker-20A\", poles = 2 }");
  const Wiring w = build_text(text);
  expect_sound(w);
  EXPECT_EQ(ends(w, "S1+"), "S1.3.plus > A1.Q1.line_plus");
  EXPECT_EQ(ends(w, "S1-"), "S1.1.minus > A1.Q1.line_minus");
}

TEST(Wiring, ColoursFollowTheScheme) {
  std::string text = cabin_text();
  // What the job states wins over what the scheme asks for: the finding then says what is wrong with it.
  std::string stated = text;
  stated.replace(stated.find("od = "), 0, "minus_colour = \"blue\", ");
  EXPECT_EQ(colour(build_text(stated), conductor(build_text(stated), "S1-")), "blue");
  const std::string from = "scheme     = \"functional\"";
  const Wiring functional = build_text(text);
  EXPECT_EQ(colour(functional, conductor(functional, "S1+")), "red");
  EXPECT_EQ(colour(functional, conductor(functional, "S1-")), "black");
  EXPECT_EQ(colour(functional, conductor(functional, "OUT.EGC")), "green");
  EXPECT_EQ(colour(functional, conductor(functional, "A1.EGC1")), "bare");
  text.replace(text.find(from), from.size(), "scheme     = \"solid\"");
  const Wiring solid = build_text(text);
  EXPECT_EQ(colour(solid, conductor(solid, "S1-")), "white");
  EXPECT_EQ(colour(solid, conductor(solid, "S1+")), "red");
}

// White went with the fuse-grounded negative in 2017 (seen on public pages); green-yellow is IEC's.
TEST(Wiring, ColoursFollowTheEdition) {
  const auto by = [](const std::string& id) {
    std::string text = cabin_text();
    text.replace(text.find("nec_2023"), 8, id);
    return build_text(text);
  };
  const Wiring old = by("nec_2014");
  EXPECT_EQ(colour(old, conductor(old, "S1-")), "white");
  EXPECT_EQ(colour(old, conductor(old, "S1+")), "red");
  EXPECT_EQ(colour(by("nec_2017"), conductor(by("nec_2017"), "S1-")), "black");
  const Wiring iec = by("iec_2023");
  EXPECT_EQ(colour(iec, conductor(iec, "S1-")), "black");
  EXPECT_EQ(colour(iec, conductor(iec, "OUT.EGC")), "green-yellow");
}

/// A field of two boxes of `n` strings each, re-combined.
std::string field_text(int n) {
  std::ostringstream t;
  t << R"(format = 1
job = { name = "Field", edition = "nec_2020" }
site = { t_min = "-22 °C", t_hot = "36 °C", rise = "28 K" }
grounding = { scheme = "ungrounded", devices_in = "both" }
module.M = { v_oc = "49.8 V", v_mp = "41.9 V", i_sc = "13.92 A", i_mp = "13.01 A", b_voc = "-0.26 %/K", fuse_max = "30 A", cells = 72, bypass = 3, size = ["2.2 m", "1.1 m"] }
part.BX = { kind = "box", slots = )"
    << n << R"( }
part.RX = { kind = "box", slots = 2 }
part.F25 = { kind = "fuse", rating = "25 A", v_dc_pole = "1000 V", poles = 1 }
part.F300 = { kind = "fuse", rating = "300 A", v_dc_pole = "1000 V", poles = 1 }
surface.F = { tilt = "25 °", azimuth = "180 °" }
rows.RN = { on = "F", module = "M", rows = )"
    << n << R"(, count = 4, at = ["0 m", "0 m"], step = ["0 m", "6.2 m"] }
rows.RS = { on = "F", module = "M", rows = )"
    << n << R"(, count = 4, at = ["0 m", "-80 m"], step = ["0 m", "6.2 m"] }
strings.A = { count = )"
    << n
    << R"(, walk = "RN{i}.1-RN{i}.4", lands = "BA.{i}", plus_end = { first = "4.0 m", step = "3.1 m" }, minus_end = { first = "5.4 m", step = "3.1 m" } }
strings.B = { count = )"
    << n << R"(, walk = "RS{i}.4-RS{i}.1", lands = "BB.{i}" }
[box]
BA = { part = "BX", slot = { device = "F25", poles = 2 }, home_run = { wire = "10 AWG Cu PV" }, out = "FA", lands = "RC.1" }
BB = { part = "BX", slot = { device = "F25", poles = 2 }, home_run = { wire = "10 AWG Cu PV" }, out = "FB", lands = "RC.2" }
RC = { part = "RX", slot = { device = "F300", poles = 2 }, out = "FR", lands = "INV.PV1" }
[run]
FA = { wire = { poles = "500 kcmil Al XHHW-2" }, segment = [ { in = "buried", length = "45 m" } ] }
FB = { wire = { poles = "500 kcmil Al XHHW-2" }, segment = [ { in = "buried", length = "120 m" } ] }
FR = { wire = { poles = "500 kcmil Al XHHW-2" }, segment = [ { in = "EMT", length = "3 m" } ] }
[equipment.INV]
kind = "inverter"
input.PV1 = { v_max = "1000 V", isc_max = "600 A" }
)";
  return t.str();
}

TEST(Wiring, TwoBoxesRecombined) {
  const Wiring w = build_text(field_text(12));
  expect_sound(w);
  EXPECT_EQ(count(w).modules, 96);
  EXPECT_EQ(count(w).strings, 24);
  EXPECT_EQ(ends(w, "FA+"), "BA.P.1 > RC.Q1.line_plus");
  EXPECT_EQ(ends(w, "FB-"), "BB.N.1 > RC.Q2.line_minus");
  EXPECT_EQ(ends(w, "FR+"), "RC.P.1 > INV.PV1.plus");
  EXPECT_NEAR(conductor(w, "A7+").length->in(units::metres), 4.0 + 6 * 3.1, 1e-12);
  EXPECT_FALSE(conductor(w, "B1+").length.has_value());
}

TEST(Wiring, JunctionSplitsAHomeRun) {
  const std::string text = R"(format = 1
job = { name = "Old and new", edition = "nec_2020" }
module.M = { v_oc = "46.1 V", v_mp = "37.6 V", i_sc = "9.05 A", i_mp = "8.52 A", cells = 72 }
row.X = { module = "M", count = 9 }
string.X1 = { walk = "X.1-X.4, X.6-X.9", lands = "INV.PV2", home_run = "HX" }
run.HX = { wire = { poles = "10 AWG Cu PV" }, segment = [ { in = "tray", length = "30 m" }, { junction = "JB1", wire = "10 AWG Cu XHHW-2" }, { in = "EMT", size = "3/4 in", length = "12 m", above_roof = "25 mm" } ] }
equipment.INV = { kind = "inverter", input = { PV2 = { v_max = "1000 V", isc_max = "25 A" } } }
)";
  const Wiring w = build_text(text);
  expect_sound(w);
  EXPECT_EQ(w.strings[0].modules.size(), 8u);
  EXPECT_EQ(w.strings[0].plus_path.size(), 2u);
  EXPECT_EQ(conductor(w, "X1+").wire->insulation, "PV");
  EXPECT_EQ(conductor(w, "X1+/2").wire->insulation, "XHHW-2");
  EXPECT_NEAR(conductor(w, "X1+").length->in(units::metres), 30, 1e-12);
  EXPECT_NEAR(conductor(w, "X1-/2").length->in(units::metres), 12, 1e-12);
  EXPECT_NEAR(conductor(w, "X1-/2").stretches[0].above_roof->in(units::millimetres), 25, 1e-9);
}

RC_GTEST_PROP(Wiring, EveryFieldIsSound, ()) {
  const int n = *rc::gen::inRange(1, 17);
  const Wiring w = build_text(field_text(n));
  expect_sound(w);
  RC_ASSERT(!::testing::Test::HasFailure());
  RC_ASSERT(count(w).string_wires == 4 * n);
}

TEST(Wiring, TooManyWiresForTheBarIsAnError) {
  std::string text = cabin_text();
  const std::string from = "minus_holes = 6";
  text.replace(text.find(from), from.size(), "minus_holes = 3");
  auto reading = job::read(text, "test.toml");
  ASSERT_TRUE(reading.job);
  Diagnostics problems;
  build(*reading.job, problems);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].id, "wiring.no-hole");
  EXPECT_EQ(problems[0].message, "box A1: 4 wires land on its terminal bar, which has 3 holes");
  EXPECT_TRUE(problems[0].span.known());
}

}  // namespace
}  // namespace stringwright::wiring
