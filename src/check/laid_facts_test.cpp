// What lies in a stretch, from job to facts.
#include "check/laid_facts.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <string>

#include "check/check.hpp"
#include "job/read.hpp"
#include "units/sizes.hpp"

namespace stringwright::check {
namespace {

std::string example(const std::string& name) {
  std::ifstream in(std::string(STRINGWRIGHT_SOURCE_DIR) + "/examples/" + name + ".toml");
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  EXPECT_NE(text.find(from), std::string::npos) << from;
  return text.replace(text.find(from), from.size(), to);
}

wiring::Wiring wire(const std::string& text) {
  auto reading = job::read(text, "test.toml");
  for (const auto& d : reading.diagnostics)
    if (d.severity == Severity::error) ADD_FAILURE() << render(d, text);
  Diagnostics problems;
  return wiring::build(*reading.job, problems);
}

codebook::Facts facts(const std::vector<Judged>& all, const std::string& thing) {
  std::string things;
  for (const auto& j : all) {
    if (j.facts.thing == thing) return j.facts;
    things += j.facts.thing + " ";
  }
  ADD_FAILURE() << thing << " is not among " << things;
  return {};
}

double count(const codebook::Facts& f, bool ground) {
  double n = 0;
  for (const auto& w : f.laid.wires)
    if (w.ground.value.value_or(false) == ground) n += w.count->in(units::plain);
  return n;
}

TEST(Laid, ARunAndTheHomeRunsOfABox) {
  const auto all = laid_facts(wire(example("north-cabin")));
  const auto home = facts(all, "A1.home_run");
  EXPECT_EQ(*home.laid.method, "free-air");
  EXPECT_EQ(count(home, false), 4);
  EXPECT_EQ(count(home, true), 0);
  const auto down = facts(all, "OUT.1");
  EXPECT_EQ(*down.laid.method, "PVC40");
  EXPECT_EQ(count(down, false), 2);
  EXPECT_EQ(count(down, true), 1);
  // Raceway that follows raceway without a pull point counts on.
  EXPECT_NEAR(down.laid.bends->in(units::degrees), 180, 1e-9);
  EXPECT_NEAR(facts(all, "OUT.2").laid.bends->in(units::degrees), 180, 1e-9);
}

TEST(Laid, APullBoxBeginsTheBendsAnew) {
  const std::string two = "bends = [\"90 °\", \"90 °\"] },\n";
  const auto w =
      wire(with(example("north-cabin"), two,
                two + "  { pull_box = \"PB1\", box_size = [\"200 mm\", \"150 mm\"] },\n"));
  const auto all = laid_facts(w);
  EXPECT_NEAR(facts(all, "OUT.1").laid.bends->in(units::degrees), 180, 1e-9);
  EXPECT_NEAR(facts(all, "OUT.2").laid.bends->in(units::degrees), 0, 1e-9);
  const auto box = facts(all, "PB1");
  EXPECT_EQ(box.subject, codebook::Subject::pull_box);
  EXPECT_EQ(box.pull.largest->print(), "1 in");
  EXPECT_NEAR(box.pull.smallest->in(units::millimetres), 150, 1e-9);
}

TEST(Laid, BendsThatOneStretchDoesNotSayAreNotKnown) {
  const auto w = wire(with(example("north-cabin"), ", bends = [] }", " }"));
  EXPECT_FALSE(facts(laid_facts(w), "OUT.1").laid.bends.known());
}

TEST(Laid, TwoRunsInOneRacewayAreCountedTogether) {
  std::string text = example("two-box-field");
  for (const auto* length : {"length = \"45 m\"", "length = \"120 m\""})
    text = with(text, length, std::string("raceway = \"C1\", ") + length);
  const auto w = wire(text);
  EXPECT_EQ(wiring::circuits_in(w.job, "C1"), 2);
  EXPECT_EQ(wiring::circuits_in(w.job, ""), 0);
  const auto both = facts(laid_facts(w), "C1");
  EXPECT_EQ(count(both, false), 4);
  EXPECT_EQ(count(both, true), 2);
  EXPECT_EQ(both.strings->in(units::plain), 24);
  for (const auto* run : {"FA+", "FB+"})
    EXPECT_EQ(*w.conductors[static_cast<std::size_t>(w.find_conductor(run))].stretches[0].wires, 4);
}

TEST(Laid, WiresThatNothingElseSpeaksOfAreNotKnown) {
  const auto w =
      wire(with(example("barn-roof"), "length = \"18 m\"", "length = \"18 m\", wires = 6"));
  const auto f = facts(laid_facts(w), "OUT.1");
  EXPECT_EQ(count(f, false), 6);
  EXPECT_FALSE(f.laid.wires.back().wire.known());
}

TEST(Laid, EnclosuresAndSurfaces) {
  const auto all = enclosure_facts(wire(example("school-roof")));
  const auto box = facts(all, "A1");
  EXPECT_EQ(*box.hull.type, "4X");
  EXPECT_TRUE(*box.hull.metal_raceway);
  EXPECT_FALSE(*box.hull.aluminium);
  const auto roof = facts(all, "roof");
  EXPECT_EQ(*roof.marks.place, "roof");
  EXPECT_EQ(roof.marks.plugs->in(units::plain), 16);
}

// I_sc with the light of the rear side: 11.35 A · (1 + 0.7 · 0.3) = 13.7335 A.
TEST(Laid, BifacialityIsInEveryCurrent) {
  const auto edition = codebook::Edition::open("nec_2023").value();
  const auto w = wire(with(with(example("north-cabin"), "bifaciality = 0 ", "bifaciality = 0.7 "),
                           "tilt = ", "rear_sun = \"300 W/m²\"\ntilt = "));
  int known = 0;
  for (const auto& j : facts_of(w, edition))
    if (j.facts.i_sc.known()) {
      ++known;
      EXPECT_NEAR(j.facts.i_sc->in(units::amps), 13.7335, 1e-9);
    }
  EXPECT_GT(known, 5);
}

}  // namespace
}  // namespace stringwright::check
