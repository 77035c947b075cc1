#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "job/read.hpp"
#include "wiring/wiring.hpp"

/// What the graph holds beside strings, boxes and runs of one wire: wires side by side, bonds wherever they
/// stand, and parts in the leads of a string.
namespace stringwright::wiring {
namespace {

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// The cabin with stretches of its text put otherwise.
Wiring cabin(const std::vector<std::pair<std::string, std::string>>& changes) {
  std::ifstream in(STRINGWRIGHT_SOURCE_DIR "/examples/north-cabin.toml");
  std::ostringstream all;
  all << in.rdbuf();
  std::string text = all.str();
  for (const auto& [from, to] : changes) {
    EXPECT_NE(text.find(from), std::string::npos) << from;
    text.replace(text.find(from), from.size(), to);
  }
  auto reading = job::read(text, "test.toml");
  for (const auto& d : reading.diagnostics) ADD_FAILURE() << render(d, text);
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
  return w.terminals[at(c.from)].id + " > " + w.terminals[at(c.to)].id;
}

std::vector<std::string> bonds(const Wiring& w) {
  std::vector<std::string> all;
  for (const auto& d : w.devices)
    if (d.kind == DeviceKind::bond) all.push_back(d.id);
  return all;
}

using Strings = std::vector<std::string>;

TEST(SideBySide, CountedInEachRacewayWithAGroundInEach) {
  const Wiring one =
      cabin({{"poles = \"6 AWG Cu XHHW-2\"", "poles = \"1/0 AWG Cu XHHW-2\", parallel = 4"}});
  EXPECT_EQ(conductor(one, "OUT+").parallel, 4);
  EXPECT_EQ(conductor(one, "OUT+").stretches[0].wires, 8);
  EXPECT_EQ(conductor(one, "OUT.EGC").parallel, 1);
  EXPECT_EQ(counts_line(one), "6 modules · 2 strings · 2 string devices · 4 string wires · 9 down");
  const Wiring two =
      cabin({{"poles = \"6 AWG Cu XHHW-2\"", "poles = \"1/0 AWG Cu XHHW-2\", parallel = 4"},
             {"in = \"PVC40\", size = \"1 in\", length = \"36.5 m\"",
              "in = \"PVC40\", raceways = 2, length = \"36.5 m\""}});
  EXPECT_EQ(conductor(two, "OUT-").stretches[0].wires, 4);
  EXPECT_EQ(conductor(two, "OUT-").stretches[0].raceways, 2);
  EXPECT_EQ(conductor(two, "OUT-").stretches[1].wires, 8);
  EXPECT_EQ(conductor(two, "OUT.EGC").parallel, 2);
}

/// φ = 0.7 under 135 W/m²: 1000 W/m² in front and 1094.5 W/m² on the front alone are the same (IEC 60904-1-2).
TEST(RearSide, StatedOrByBifaciality) {
  const auto gain = [](const Wiring& w) {
    return w.devices[at(w.strings[0].modules[0])].rear_gain;
  };
  const std::pair<std::string, std::string> phi{"bifaciality = 0 ", "bifaciality = \"70 %\" "};
  const std::pair<std::string, std::string> light{"tilt = ", "rear_sun = \"135 W/m²\"\ntilt = "};
  EXPECT_DOUBLE_EQ(gain(cabin({}))->si(), 1);
  EXPECT_DOUBLE_EQ(gain(cabin({phi, light}))->si(), 1.0945);
  EXPECT_FALSE(gain(cabin({phi})));
  EXPECT_DOUBLE_EQ(gain(cabin({light}))->si(), 1);
  EXPECT_DOUBLE_EQ(
      gain(cabin({phi, light, {"fuse_max = ", "rear_gain = 0.12\nfuse_max = "}}))->si(), 1.12);
}

TEST(Bonds, StandWhereTheJobSays) {
  EXPECT_EQ(bonds(cabin({})), Strings{"CC1.bond"});
  EXPECT_EQ(bonds(cabin({{"bond       = \"CC1\"", "bond = \"A1\""}})), Strings{"A1.bond"});
  EXPECT_EQ(bonds(cabin({{"bond       = \"CC1\"", "bond = \"battery\""}})),
            Strings{"CC1.battery.bond"});
  const Wiring w =
      cabin({{"bond       = \"CC1\"", "bond = \"LC1\""},
             {"kind = \"mppt-controller\"", "kind = \"mppt-controller\"\nload_centre = \"LC1\""}});
  ASSERT_EQ(bonds(w), Strings{"CC1.LC1.bond"});
  EXPECT_EQ(ends(w, "CC1.LC1.bond.pole"), "CC1.PV1.minus > CC1.LC1.bond.pole");
  EXPECT_EQ(ends(w, "CC1.LC1.bond.ground"), "CC1.PV1.ground > CC1.LC1.bond.ground");
}

TEST(Bonds, OneTooManyIsInTheGraph) {
  const std::pair<std::string, std::string> bonded{"bonded = false", "bonded = true"};
  const Wiring w = cabin({{"out = \"OUT\"", "out = \"OUT\"\nbonded = true"}, bonded});
  EXPECT_EQ(bonds(w), (Strings{"CC1.bond", "CC1.battery.bond", "A1.bond"}));
  EXPECT_EQ(ends(w, "A1.bond.pole"), "A1.N.1 > A1.bond.pole");
  // Behind isolation the battery's bond does not reach the array.
  EXPECT_EQ(bonds(cabin({{"battery = {", "isolated = true\nbattery = {"}, bonded})),
            Strings{"CC1.bond"});
  // Said to be none: none is drawn.
  EXPECT_EQ(bonds(cabin({})), Strings{"CC1.bond"});
}

constexpr const char* parts =
    "[part]\nD30 = { kind = \"diode\", rating = \"30 A\", v_forward = \"0.9 V\" }\n"
    "F20 = { kind = \"fuse\", rating = \"20 A\" }\n"
    "RSD = { kind = \"electronics\", does = \"rapid-shutdown\" }\n"
    "Y2 = { kind = \"branch\", slots = 2 }\n[part.BX4]";

TEST(Leads, StandInTheirOrder) {
  const Wiring w =
      cabin({{"[part.BX4]", parts},
             {"lands = \"A1.1\"",
              "lands = \"A1.1\", electronics = \"RSD\", blocking_diode = \"D30\", inline_fuse = "
              "\"F20\", inline_fuse_in = \"both\""}});
  EXPECT_EQ(ends(w, "S1.1-E"), "S1.1.plus > S1.1.E.in");
  EXPECT_EQ(ends(w, "S1.1-2"), "S1.1.E.out > S1.2.minus");
  EXPECT_EQ(ends(w, "S1.lead-D"), "S1.3.E.out > S1.D.anode");
  EXPECT_EQ(ends(w, "S1.lead-F+"), "S1.D.cathode > S1.F.line_plus");
  EXPECT_EQ(ends(w, "S1+"), "S1.F.load_plus > A1.Q1.line");
  EXPECT_EQ(ends(w, "S1.lead-F-"), "S1.1.minus > S1.F.line_minus");
  EXPECT_EQ(ends(w, "S1-"), "S1.F.load_minus > A1.N.1");
  EXPECT_EQ(ends(w, "S2+"), "S2.3.plus > A1.Q2.line");
  EXPECT_EQ(w.strings[0].electronics.size(), 3u);
  EXPECT_EQ(w.devices[at(w.strings[0].inline_fuse)].poles, 2);
  // Not among the devices of a box.
  EXPECT_EQ(count(w).devices, 2);
}

TEST(Leads, AnInlineFuseStandsInThePoleOfTheDevices) {
  const Wiring w = cabin(
      {{"[part.BX4]", parts}, {"lands = \"A1.1\"", "lands = \"A1.1\", inline_fuse = \"F20\""}});
  EXPECT_EQ(ends(w, "S1+"), "S1.F.load > A1.Q1.line");
  EXPECT_EQ(ends(w, "S1-"), "S1.1.minus > A1.N.1");
}

TEST(Leads, ABranchJoinsStringsWithoutDevicesOrGround) {
  const Wiring w = cabin({{"[part.BX4]", parts},
                          {"lands = \"A1.1\"", "lands = \"Y1.1\""},
                          {"lands = \"A1.2\"", "lands = \"Y1.2\""},
                          {"[box.A1]",
                           "[run.YR]\nwire = { poles = \"10 AWG Cu PV\" }\n[box.Y1]\npart = "
                           "\"Y2\"\nout = \"YR\"\nlands = \"A1.1\"\n[box.A1]"}});
  EXPECT_EQ(ends(w, "S1+"), "S1.3.plus > Y1.P.1");
  EXPECT_EQ(ends(w, "S2-"), "S2.1.minus > Y1.N.2");
  EXPECT_EQ(ends(w, "YR+"), "Y1.P.3 > A1.Q1.line");
  EXPECT_EQ(ends(w, "YR-"), "Y1.N.3 > A1.N.1");
  EXPECT_EQ(w.find_device("Y1.G"), -1);
  EXPECT_EQ(w.find_device("Y1.Q1"), -1);
  EXPECT_EQ(count(w).boxes, 1);
  EXPECT_EQ(w.strings[0].device, -1);
}

}  // namespace
}  // namespace stringwright::wiring
