// Ground-fault devices, printed curves, hot boxes, what stays live: by Ohm's law and figures worked by hand.
#include <gtest/gtest.h>

#include <cmath>

#include "events/lab_test.hpp"

namespace stringwright::events {
namespace {

void replace(std::string& text, const std::string& from, const std::string& to) {
  const auto at = text.find(from);
  ASSERT_NE(at, std::string::npos) << from;
  text.replace(at, from.size(), to);
}

/// Equal strings whose controller has a ground-fault device.
std::string with_detector(int n, const std::string& detector) {
  std::string text = equal_strings(n, 3, "20 A");
  replace(text, "kind = \"mppt-controller\"\n",
          "kind = \"mppt-controller\"\nground_fault = " + detector + "\n");
  return text;
}

double ohms_of(const Lab& lab, const std::string& conductor) {
  return lab.circuit.resistances[lab.e.wiring.find_conductor(conductor)].in(units::ohms);
}

// The minus bus touches metal at its box: the return current parts between the minus wire and the ground
// wire with the fuse in it, by their resistances.
TEST(GroundFaultDevice, SeesItsShareOfTheReturnCurrent) {
  for (const double fuse : {0.05, 0.2, 2.0}) {
    std::string r = std::to_string(fuse);
    Lab lab(with_detector(4, "{ by = \"fuse\", rating = \"1 A\", resistance = \"" + r + " Ω\" }"));
    const Sky sky{units::watts_per_square_metre(1000), units::celsius(25)};
    const auto solved = lab.trials->solve(lab.event("ground-fault@OUT-"), sky);
    ASSERT_TRUE(solved);
    const auto reading = lab.trials->read(*solved);
    const double all = reading.conductors[lab.e.wiring.find_conductor("OUT+")].in(units::amps);
    const double minus = ohms_of(lab, "OUT-"), ground = ohms_of(lab, "OUT.EGC") + fuse;
    ASSERT_GT(minus, 0);
    EXPECT_NEAR(reading.bond.in(units::amps), all * minus / (minus + ground), 1e-6 * all) << fuse;
    EXPECT_NEAR(reading.residual[0].in(units::amps), reading.bond.in(units::amps), 1e-6);
  }
}

// Five strings, one with a fault to ground at its plus end: four drive back into it and it drives itself,
// five times Isc through a fuse of 1 A, which opens. (Zhao, M.S. thesis, Northeastern University, 2010.)
TEST(GroundFaultDevice, OpensOnAFaultThatTheArrayDrives) {
  Lab lab(with_detector(5, "{ by = \"fuse\", rating = \"1 A\", resistance = \"0.2 Ω\" }"));
  const Row r = lab.row("ground-fault@S1.3");
  ASSERT_TRUE(r.detector);
  EXPECT_EQ(r.detector->seen, Seen::seen);
  EXPECT_NEAR(r.detector->least.in(units::amps), 5 * 11.35, 0.01 * 5 * 11.35);
  ASSERT_TRUE(r.detector->above);
  // 1.35 A of 56.75 A in full sun.
  EXPECT_NEAR(r.detector->above->si(), 1000 * 1.35 / 56.75, 1.5);
  EXPECT_NE(r.verdict.find("the ground-fault fuse of 1 A opens above"), std::string::npos)
      << r.verdict;
  // The plus end stays at ground, so the minus pole stands at a whole string's volts against it.
  ASSERT_TRUE(r.grounded_pole_after);
  EXPECT_NEAR(r.grounded_pole_after->in(units::volts), 3 * 40.9, 0.01 * 3 * 40.9);
}

TEST(GroundFaultDevice, IsBlindNearTheGroundedEnd) {
  Lab lab(with_detector(4, "{ by = \"fuse\", rating = \"5 A\", resistance = \"0.5 Ω\" }"));
  const Row blind = lab.row("ground-fault@OUT-"), seen = lab.row("ground-fault@S1.2");
  EXPECT_EQ(blind.detector->seen, Seen::blind);
  EXPECT_EQ(blind.verdict.find("BLIND SPOT"), blind.verdict.find("; ") + 2) << blind.verdict;
  EXPECT_EQ(blind.danger, Danger::silent);
  EXPECT_EQ(seen.detector->seen, Seen::seen);
  // A second fault is then a short that no bond carries.
  EXPECT_GT(lab.row("second-ground-fault@S2.0+S1.2").fault.in(units::amps), 30);
  // A sensor of a tenth of an ampere sees what the fuse does not.
  Lab sensor(with_detector(4, "{ by = \"residual-current\", rating = \"0.1 A\" }"));
  EXPECT_EQ(sensor.row("ground-fault@OUT-").detector->seen, Seen::seen);
}

// What is not known ends as unsure, never as seen.
TEST(GroundFaultDevice, UnknownResistanceIsNoBlessing) {
  Lab lab(with_detector(4, "{ by = \"fuse\", rating = \"1 A\" }"));
  const auto grounded = lab.row("ground-fault@OUT-").detector;
  ASSERT_TRUE(grounded);
  EXPECT_EQ(grounded->seen, Seen::unsure);
  EXPECT_LT(grounded->least, grounded->most);
  EXPECT_EQ(lab.row("ground-fault@S1.2").detector->seen, Seen::seen);
  Lab none(equal_strings(4, 3, "20 A"));
  EXPECT_FALSE(none.row("ground-fault@OUT-").detector);
  EXPECT_NE(none.row("ground-fault@OUT-").verdict.find("can't be told"), std::string::npos);
}

// A fault after module 4 of 12 of a floating array: the poles stand at two thirds and one third of the volts
// (by hand, for a meter: +367.0 V and −183.5 V of 550.5 V).
TEST(Live, PolesOfAFloatingArrayWithAGroundFault) {
  Lab lab(example("school-roof"));
  const Row r = lab.row("ground-fault@S5.4");
  const LiveAt* plus = live_at(r.live, "A1.Q5.line");
  const LiveAt* minus = live_at(r.live, "INV1.PV1.minus");
  for (const auto& x : r.live)
    if (!plus && x.to_ground && x.to_ground->si() > 0) plus = &x;
  ASSERT_TRUE(plus && minus);
  ASSERT_TRUE(plus->to_ground && minus->to_ground);
  EXPECT_EQ(plus->touch, Touch::live);
  EXPECT_EQ(minus->touch, Touch::live);
  EXPECT_NEAR(plus->to_ground->si() / minus->to_ground->si(), -2.0, 0.03);
  // Without the fault nothing holds it against ground.
  for (const LiveAt& x : lab.row("short-string@S1").live) EXPECT_EQ(x.touch, Touch::floating);
}

TEST(Live, AFunctionalBondHoldsNothingASolidOneDoes) {
  std::string text = equal_strings(3, 3, "20 A");
  Lab functional(text);
  replace(text, "\"functional\"", "\"solid\"");
  Lab solid(text);
  const auto touch = [](Lab& lab, const std::string& terminal) {
    const Row r = lab.row("open-plug@S1");
    const LiveAt* here = live_at(r.live, terminal);
    EXPECT_TRUE(here) << terminal;
    return here ? here->touch : Touch::dead;
  };
  EXPECT_EQ(touch(functional, "A1.N.1"), Touch::floating);
  EXPECT_EQ(touch(solid, "A1.N.1"), Touch::ground);
  EXPECT_EQ(touch(solid, "A1.P.1"), Touch::live);
}

// Two fuses to a string: one opens, the other leaves the string tied to its bus at the other's volts.
TEST(After, OneFuseOfTwoPolesLeavesTheStringTied) {
  Lab lab(example("school-roof"));
  const Row reversed = lab.row("reversed@S1");
  const Sees& x = Lab::sees(reversed, "A1.Q1+");
  ASSERT_TRUE(x.after);
  EXPECT_EQ(x.after->still, std::vector<std::string>{"A1.Q1-"});
  EXPECT_LT(x.after->most.si(), 0.05);  // nothing flows
  EXPECT_NE(x.after->line.touch, Touch::dead);
  EXPECT_NE(x.after->load.touch, Touch::dead);
  // A short at the landing is not ended by one opening: the string feeds its own fault on.
  const Row shorted = lab.row("short-string@S1");
  EXPECT_NEAR(Lab::sees(shorted, "A1.Q1+").after->left.in(units::amps), 11.6, 0.05 * 11.6);
}

// (N − 1)·Isc is 1.92 of the rating for four strings: by convention it opens above 703 W/m². A curve whose
// first printed point is 2.0 promises nothing below: 703 · 2.0/1.35 = 1042 W/m².
TEST(Response, APrintedCurveTakesThePlaceOfTheConvention) {
  std::string text = equal_strings(4, 3, exact_rating);
  replace(
      text, "poles = 1, polarised",
      "curve = [{ times = 2, within = \"600 s\" }, { times = 4, within = \"2 s\" }], poles = 1, "
      "polarised");
  Lab lab(text);
  const Row r = lab.row("short-string@S1");
  const Sees& x = Lab::sees(r, "A1.Q1");
  ASSERT_TRUE(x.above);
  EXPECT_NEAR(x.above_by_bound->si(), 1041.7, 0.6);
  EXPECT_NEAR(x.above->si(), 1042, 0.02 * 1042);
  // At 1400 W/m², 2.69 of the rating: log-log between (2, 600 s) and (4, 2 s).
  ASSERT_TRUE(x.opens_in);
  const double ratio = x.ratio->si();
  EXPECT_NEAR(x.opens_in->si(), 600 * std::pow(ratio / 2, std::log(2.0 / 600) / std::log(2.0)),
              1e-6 * 600);
}

// 0.86 of the rating in a hot box: it opens 0.86 times as late in hot weather, and in the cold as before.
TEST(Response, AHotBoxDerates) {
  std::string text = equal_strings(4, 3, exact_rating);
  replace(
      text, "poles = 1, polarised",
      "derating = [{ ambient = \"25 °C\", factor = 1 }, { ambient = \"60 °C\", factor = 0.86 }], "
      "poles = 1, polarised");
  replace(text, "home_run = {", "t_inside = \"60 °C\", home_run = {");
  Lab lab(text);
  const Row r = lab.row("short-string@S1");
  const Sees& x = Lab::sees(r, "A1.Q1");
  ASSERT_TRUE(x.above && x.above_cold && x.above_hot);
  EXPECT_NEAR(x.above_cold->si(), 703, 0.02 * 703);
  EXPECT_NEAR(x.above_hot->si(), 0.86 * 703, 0.02 * 703);
  EXPECT_EQ(x.above->si(), x.above_cold->si());
  // Outside of the printed temperatures nobody knows.
  replace(text, "t_inside = \"60 °C\"", "t_inside = \"75 °C\"");
  Lab hotter(text);
  EXPECT_FALSE(hotter.site->poles.front().heat_factor);
  EXPECT_NE(heat_words(hotter.site->poles.front()).find("not printed"), std::string::npos);
}

// An open place can rise to the string's open-circuit voltage on a cold day (141.9 V by hand), whatever it is
// while the equipment works.
TEST(Gap, IsHeadedByTheMostItCanBe) {
  Lab lab(example("north-cabin"));
  for (const char* id : {"open-plug@S1", "broken-negative@OUT"}) {
    const Row r = lab.row(id);
    ASSERT_TRUE(r.gap_most) << id;
    // Less the volts that the other string's current drops in the run down.
    EXPECT_NEAR(std::fabs(r.gap_most->in(units::volts)), 141.9, 0.015 * 141.9) << id;
    EXPECT_EQ(r.verdict.find("up to 14"), 0u) << r.verdict;
  }
}

// A string one module short takes current only while nothing is taken: its breaker trips when the battery is
// full, and nobody sees why at noon.
TEST(ShortString, TripsOnlyWhileNothingIsTaken) {
  Lab lab(example("barn-roof"));
  const Row r = lab.row("module-missing@S1");
  ASSERT_TRUE(r.while_working);
  EXPECT_LT(std::fabs(r.while_working->si()), 1.35 * 20);
  EXPECT_NE(
      std::find_if(r.notes.begin(), r.notes.end(),
                   [](const std::string& n) { return n.find("Only while nothing is taken") == 0; }),
      r.notes.end());
  EXPECT_FALSE(r.event.gate.empty());
}

// Old and new strings on one bus, aged to 0.92: 3 · 0.92 · 5.20 + 2 · 9.05 A into an old one,
// 4 · 0.92 · 5.20 + 9.05 A into a new one.
TEST(Shed, FiguresByHand) {
  Lab lab(example("shed-repair"));
  EXPECT_NEAR(-lab.amps_of("short-string@S1", "A1.Q1", 1000, 25), 32.45, 0.01 * 32.45);
  EXPECT_NEAR(-lab.amps_of("short-string@S5", "A1.Q5", 1000, 25), 28.19, 0.01 * 28.19);
}

TEST(Bears, DiodesAndConnectorsAreJudgedByTheirRatings) {
  std::string text = equal_strings(6, 3, exact_rating);
  Lab silent(text);
  replace(text, "bypass = 3 }",
          "bypass = 3, bypass_rating = \"15 A\", connector_rating = \"30 A\" }");
  Lab rated(text);
  const auto find = [](const Row& r, Bears::What what) {
    for (const Bears& b : r.bears)
      if (b.what == what) return b;
    return Bears{};
  };
  EXPECT_FALSE(find(silent.row("reversed@S1"), Bears::What::bypass_diode).holds());
  EXPECT_EQ(find(rated.row("reversed@S1"), Bears::What::bypass_diode).holds(), false);
  EXPECT_EQ(find(rated.row("reversed@S1"), Bears::What::connector).holds(), false);
  EXPECT_EQ(find(rated.row("short-bus@A1"), Bears::What::connector).thing, "");  // its own current
  EXPECT_EQ(rated.row("reversed@S1").danger, Danger::breaks);
}

}  // namespace
}  // namespace stringwright::events
