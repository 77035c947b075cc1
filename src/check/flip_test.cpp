// What flips a finding: the flipped value is asked again here, on both sides of the edge.
#include "check/flip.hpp"

#include <gtest/gtest.h>

#include "units/read.hpp"

namespace stringwright::check {
namespace {

using codebook::Edition;
using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using trail::Verdict;

Edition edition(std::string_view id) { return Edition::open(id).value(); }
const codebook::Rule& rule(std::string_view id) { return *codebook::find_rule(id); }

/// The roof worked by hand beside the comparison of editions: 34 °C, four wires, 12 AWG.
Facts roof(double mm) {
  Facts f;
  f.subject = Subject::string_circuit;
  f.thing = "S1";
  f.i_sc = Fact<units::Current>(units::amps(12));
  f.wire = Fact<units::Wire>(units::Wire::read("12 AWG Cu THWN-2").value());
  codebook::StretchFacts s;
  s.method = Fact<std::string>("EMT");
  s.ambient = Fact<units::Temperature>(units::celsius(34));
  s.above_roof = units::millimetres(mm);
  s.wires = Fact<units::Ratio>(4.0);
  s.length = Fact<units::Length>(units::metres(5));
  f.stretches.push_back(s);
  return f;
}

std::string sentence(const std::vector<Flip>& all, const std::string& lever) {
  for (const auto& f : all)
    if (f.lever == lever) return f.sentence;
  return "";
}

// 15 A against 13.92 A below the line, 23.04 A above it: 7/8 in (22.2 mm) in 2017, 3/4 in (19.05 mm) in 2023.
TEST(Flips, RaiseOfAConduitOverARoofByEdition) {
  const auto& use = rule("conductor.conditions-of-use");
  const Facts f = roof(18);
  EXPECT_EQ(sentence(flips(use, f, edition("nec_2017")), "stretches.1.above_roof"),
            "Passes with stretch 1 (EMT) raised by 5 mm, to 23 mm above the roof.");
  EXPECT_EQ(sentence(flips(use, f, edition("nec_2023")), "stretches.1.above_roof"),
            "Passes with stretch 1 (EMT) raised by 2 mm, to 20 mm above the roof.");
  // In 2014 the table by height already lets 17.04 A pass; on the roof itself it would not.
  EXPECT_EQ(sentence(flips(use, f, edition("nec_2014")), "stretches.1.above_roof"),
            "Holds with stretch 1 (EMT) down to 13 mm above the roof.");
}

TEST(Flips, TheNextConductorAndTheInsulationThatTakesNoAdder) {
  const auto all = flips(rule("conductor.conditions-of-use"), roof(18), edition("nec_2017"));
  EXPECT_EQ(sentence(all, "wire"), "Passes with 10 AWG.");
  EXPECT_EQ(sentence(all, "stretches.1.wires"),
            "Passes with 3 current-carrying wires in stretch 1 (EMT).");
  EXPECT_EQ(all.front().lever, "stretches.1.above_roof");  // the cheapest stands first
}

// Voltage drop of the output in percent of 88.7 V: 3 % is met at one length, which is found by hand.
TEST(Flips, LengthLeftToTheAdviceOnVoltageDrop) {
  Facts f;
  f.subject = Subject::output_circuit;
  codebook::SeriesGroup g;
  g.count = Fact<units::Ratio>(3.0);
  g.v_mp = Fact<units::Voltage>(units::volts(34.1));
  g.b_vmp = Fact<units::PerKelvin>(units::per_kelvin(-0.0036));
  f.series.push_back(g);
  f.t_hot = Fact<units::Temperature>(units::celsius(32));
  f.rise = Fact<units::TemperatureDifference>(units::kelvins(30));
  f.i_mp_total = Fact<units::Current>(units::amps(21.42));
  f.wire = Fact<units::Wire>(units::Wire::read("4 AWG Cu THWN-2").value());
  f.length = Fact<units::Length>(units::metres(38));
  const double v_hot = 102.3 * (1 - 0.0036 * 37);
  const double longest = 0.03 * v_hot / (2 * 21.42 * 0.308 / 304.8);  // 0.308 Ω/kft
  const auto all = flips(rule("conductor.voltage-drop"), f, edition("nec_2023"));
  const double round = std::floor(longest * 10) / 10;
  EXPECT_NEAR(round, 61.4, 1.0);
  EXPECT_NE(sentence(all, "length").find(", " + units::print(units::metres(round), 1) + " in all."),
            std::string::npos)
      << sentence(all, "length") << " " << longest;
}

TEST(Flips, RatingsOfTheWindow) {
  Facts f;
  f.subject = Subject::string_device;
  f.fitted = Fact<bool>(true);
  f.i_sc = Fact<units::Current>(units::amps(11.35));
  f.fuse_max = Fact<units::Current>(units::amps(20));
  f.rating = Fact<units::Current>(units::amps(15));
  EXPECT_EQ(sentence(flips(rule("ocpd.rating-window"), f, edition("nec_2023")), "rating"),
            "Passes with a device of 20 A.");
  f.rating = Fact<units::Current>(units::amps(20));
  const auto all = flips(rule("ocpd.rating-window"), f, edition("nec_2023"));
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[0].sentence, "Holds with a device down to 20 A; 15 A fails.");
  EXPECT_EQ(all[1].sentence, "Holds with a device up to 20 A; 25 A fails.");
}

TEST(Flips, NothingIsSaidWhereNoNumberDecides) {
  Facts f = roof(18);
  f.stretches[0].ambient = {};
  EXPECT_TRUE(flips(rule("conductor.conditions-of-use"), f, edition("nec_2023")).empty());
  Facts e;
  e.subject = Subject::string_circuit;
  e.fuse_max = Fact<units::Current>(units::amps(15));
  codebook::EventFacts event;
  event.id = "reversed@S1";
  event.work_error = Fact<bool>(true);
  event.cleared = Fact<bool>(false);
  event.i = Fact<units::Current>(units::amps(40));
  e.events.push_back(event);
  EXPECT_TRUE(flips(rule("event.module-reverse-current"), e, edition("nec_2023")).empty());
}

// Whatever a flip of the conductors says, asking the rule there gives another verdict than here.
TEST(Flips, EverySentenceIsProvedByTheRuleItself) {
  const auto& use = rule("conductor.conditions-of-use");
  for (const auto& id : Edition::offered(codebook::Family::nec))
    for (const double mm : {0.0, 5.0, 13.0, 19.0, 22.0, 30.0, 89.0, 400.0}) {
      const Facts f = roof(mm);
      trail::Trail aside;
      const auto here = use.check(f, edition(id), aside).verdict;
      for (const auto& flip : flips(use, f, edition(id))) {
        EXPECT_NE(flip.to, here) << id << " " << mm << " " << flip.sentence;
        EXPECT_NE(flip.to, Verdict::cannot_tell) << flip.sentence;
      }
    }
}

// 15 A: 10 AWG on the roof (18.56 A), 14 AWG off it (25 A · 0.96 · 0.80 = 19.2 A): two sizes.
TEST(Savings, RaisingTheConduitSavesSizes) {
  Judged j;
  j.facts = roof(18);
  j.facts.terminals = Fact<units::Temperature>(units::celsius(75));
  j.facts.fitted = Fact<bool>(false);
  j.facts.battery = Fact<bool>(false);
  j.facts.i_sc_others = Fact<units::Current>(units::amps(0));
  j.facts.shared_device = Fact<units::Ratio>(1.0);
  j.facts.wire.value = units::Wire::read("10 AWG Cu THWN-2").value();
  const auto found = savings(j, edition("nec_2017"));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].sentence,
            "Raise stretch 1 (EMT) by 5 mm, to 23 mm above the roof: two sizes smaller, 14 AWG, is "
            "enough.");
}

}  // namespace
}  // namespace stringwright::check
