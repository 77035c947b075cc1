#include "check/check.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "job/read.hpp"

/// The whole way from a job text to findings. Expected figures of the cabin: a hand calculation made
/// apart from this code (job.md formulas), beside the published cases that each rule has of its own.
namespace stringwright::check {
namespace {

std::string cabin_text() {
  std::ifstream in(STRINGWRIGHT_SOURCE_DIR "/examples/north-cabin.toml");
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

std::string with(std::string text, const std::string& from, const std::string& to) {
  EXPECT_NE(text.find(from), std::string::npos) << from;
  text.replace(text.find(from), from.size(), to);
  return text;
}

wiring::Wiring wire(const std::string& text) {
  auto reading = job::read(text, "test.toml");
  for (const auto& d : reading.diagnostics)
    if (d.severity == Severity::error) ADD_FAILURE() << render(d, text);
  Diagnostics problems;
  return wiring::build(reading.job.value(), problems);
}

Report judge(const std::string& text) {
  const auto w = wire(text);
  return check(w, codebook::Edition::open(*w.job.job.edition).value());
}

const Finding& finding(const Report& r, const std::string& id) {
  for (const auto& f : r.findings)
    if (f.id == id) return f;
  ADD_FAILURE() << "no finding " << id;
  static const Finding none;
  return none;
}

trail::Verdict verdict(const std::string& text, const std::string& id) {
  return finding(judge(text), id).outcome.verdict;
}

/// Value of a symbol in a finding's trail, in SI.
double value(const Finding& f, const std::string& symbol) {
  for (const auto& s : f.trail.steps())
    if (s.symbol == symbol && s.value) return s.value->si;
  ADD_FAILURE() << f.id << " has no " << symbol << "\n" << trail::render(f.trail);
  return 0;
}

using trail::Verdict;

TEST(Check, CabinByHand) {
  const Report r = judge(cabin_text());
  EXPECT_EQ(r.edition, "NEC 2023");
  const auto& cold = finding(r, "voltage.equipment-input@CC1.PV1");
  ASSERT_TRUE(cold.outcome.margin);
  ASSERT_EQ(cold.outcome.margin->points.size(), 3u);
  EXPECT_NEAR(cold.outcome.margin->points[0].at.si, 141.9, 0.05);  // coefficient
  EXPECT_NEAR(cold.outcome.margin->points[1].at.si, 150.9, 0.05);  // table
  EXPECT_NEAR(cold.outcome.margin->points[2].at.si, 145.7, 0.05);  // record low
  EXPECT_EQ(cold.outcome.verdict, Verdict::pass);
  EXPECT_NEAR(value(finding(r, "conductor.terminal-ampacity@OUT"), "I_req"), 35.47, 0.005);
  EXPECT_NEAR(value(finding(r, "ocpd.rating-window@A1.Q1"), "I_req"), 17.73, 0.005);
  EXPECT_NEAR(value(finding(r, "voltage.operating-window@CC1.PV1"), "V_hot"), 88.7, 0.05);
}

TEST(Check, OutputSizesOfTheCabinByHand) {
  const std::string six = "poles = \"6 AWG Cu XHHW-2\"";
  const auto sized = [&](const std::string& size) {
    return with(cabin_text(), six, "poles = \"" + size + " Cu XHHW-2\"");
  };
  // 10 AWG misses the 75 °C column by half an amp (35 < 35.5); 8 AWG carries it.
  EXPECT_EQ(verdict(sized("10 AWG"), "conductor.terminal-ampacity@OUT"), Verdict::fail);
  EXPECT_EQ(verdict(sized("8 AWG"), "conductor.terminal-ampacity@OUT"), Verdict::pass);
  // Drop of the output alone in percent of the STC voltage, 102.3 V.
  const std::pair<const char*, double> drops[] = {
      {"8 AWG", 4.06}, {"6 AWG", 2.56}, {"4 AWG", 1.61}};
  for (const auto& [size, percent] : drops) {
    const Report r = judge(sized(size));
    EXPECT_NEAR(value(finding(r, "conductor.voltage-drop@OUT"), "ΔU") / 102.3 * 100, percent, 0.01)
        << size;
  }
}

TEST(Check, EveryEditionOfferedJudgesTheCabin) {
  for (const auto& id : codebook::Edition::offered(codebook::Family::nec)) {
    const Report r = judge(with(cabin_text(), "nec_2023", id));
    // In 2014 a negative that a fuse grounds is a grounded conductor: the three two-pole switches may not
    // open it; and the system's disconnect belongs at the building's entry, not behind the controller.
    EXPECT_EQ(tally(r).fail, id == "nec_2014" ? 4 : 0) << id;
    EXPECT_EQ(tally(r).cannot_tell, 4) << id
                                       << ": the ground left open is not filled here, and what it "
                                          "takes of its raceways is not known";
    EXPECT_EQ(finding(r, "box.terminals@A1").outcome.verdict, Verdict::cannot_tell) << id;
    EXPECT_EQ(finding(r, "egc.size@OUT.EGC").outcome.verdict, Verdict::cannot_tell) << id;
  }
}

// The families never meet in one report: an edition asks its own rules and those that both ask alike.
TEST(Check, AReportHoldsRulesOfOneFamily) {
  for (const auto& id : codebook::Edition::offered()) {
    const auto edition = codebook::Edition::open(id).value();
    const Report r = judge(with(cabin_text(), "nec_2023", id));
    const auto other =
        edition.family() == codebook::Family::nec ? codebook::Asked::iec : codebook::Asked::nec;
    for (const auto& f : r.findings) {
      const auto* rule = codebook::find_rule(f.rule);
      ASSERT_TRUE(rule) << f.rule;
      EXPECT_NE(rule->family, other) << id << " " << f.rule;
      for (const auto& s : f.trail.steps()) {
        if (edition.family() == codebook::Family::iec) {
          EXPECT_EQ(s.source.cite.find("NFPA"), std::string::npos) << id << " " << f.id;
        } else if (f.rule.rfind("event.", 0) != 0) {
          EXPECT_EQ(s.source.cite.find("IEC 6"), std::string::npos) << id << " " << f.id;
        }
      }
    }
  }
}

// American sizes have no place in the tables of the IEC family: what depends on them can't be told.
TEST(Check, AmericanSizesCannotBeToldByIec) {
  const Report r = judge(with(cabin_text(), "nec_2023", "iec_2023"));
  EXPECT_EQ(finding(r, "iec.array-cable@OUT").outcome.verdict, Verdict::cannot_tell);
  EXPECT_EQ(finding(r, "iec.string-cable@S1").outcome.verdict, Verdict::cannot_tell);
  EXPECT_EQ(finding(r, "conductor.voltage-drop@OUT").outcome.verdict, Verdict::cannot_tell);
  // What needs no wire is judged: 141.9 V against 150 V.
  EXPECT_EQ(finding(r, "voltage.equipment-input@CC1.PV1").outcome.verdict, Verdict::pass);
}

TEST(Check, AMissingFactIsNeverAPass) {
  for (const char* fact :
       {"v_max = \"150 V\"", "isc_max = \"50 A\"", "blocks_reverse = true", "fuse_max = \"20 A\"",
        "v_sys = \"1000 V\"", "b_voc = \"-0.28 %/K\"", "t_min       = \"-31 °C\"",
        "v_dc_pole = \"150 V\"", "rating = \"20 A\"", ", fault_current = \"5 kA\""}) {
    const Report r = judge(with(cabin_text(), fact, ""));
    EXPECT_GT(tally(r).cannot_tell, 4) << fact;  // the ground left open makes four
    EXPECT_FALSE(fine(r)) << fact;
  }
}

TEST(Check, BackfeedFromTheBatteryIsUnknownUnlessDocumented) {
  const std::string text = with(cabin_text(), "blocks_reverse = true ", "");
  EXPECT_EQ(verdict(text, "ocpd.string-needed@S1"), Verdict::cannot_tell);
}

TEST(Check, AControllerWithoutABatteryRecordStillHasOne) {
  const std::string text = with(with(cabin_text(), "battery = { v_max", "# battery = { v_max"),
                                "blocks_reverse = true ", "");
  EXPECT_EQ(verdict(text, "ocpd.string-needed@S1"), Verdict::cannot_tell);
}

TEST(Check, WaiversAreFlagsOnFails) {
  const std::string low = with(cabin_text(), "v_max = \"150 V\"", "v_max = \"140 V\"");
  const std::string waiver =
      "waive = [{ finding = \"voltage.equipment-input@CC1.PV1\", reason = \"bench\", by = \"D\", "
      "date = \"2031-05-02\" }]\n[job]";
  const Report r = judge(with(low, "[job]", waiver));
  EXPECT_EQ(finding(r, "voltage.equipment-input@CC1.PV1").outcome.verdict, Verdict::fail);
  EXPECT_TRUE(finding(r, "voltage.equipment-input@CC1.PV1").waived);
  EXPECT_EQ(tally(r).waived, 1);
  EXPECT_EQ(tally(r).fail, 0);
  const Report idle = judge(with(cabin_text(), "[job]", waiver));
  EXPECT_EQ(finding(idle, "job.waiver@voltage.equipment-input@CC1.PV1").outcome.verdict,
            Verdict::caution);
}

TEST(Check, WhatNobodyLookedAtIsListed) {
  // Every rule of the NEC editions is built; of the IEC family some are not.
  EXPECT_TRUE(judge(cabin_text()).not_looked_at.empty());
  const Report r = judge(with(cabin_text(), "nec_2023", "iec_2023"));
  EXPECT_FALSE(r.not_looked_at.empty());
  const auto listed = [&](const std::string& id) {
    for (const auto& rule : r.not_looked_at)
      if (rule.id == id) return true;
    return false;
  };
  EXPECT_TRUE(listed("X5"));  // separation from other circuits
  EXPECT_FALSE(listed("V1"));
  // 128 rows of the rule list and 19 additions; a rule that is lost here is a gap nobody sees.
  EXPECT_EQ(codebook::listed_rules().size(), 147u);
}

TEST(Check, UnlikeStringsOnOneInputAreJudgedEach) {
  std::string text = with(cabin_text(), "walk = \"R2.1-R2.3\"", "walk = \"R2.1-R2.2\"");
  const Report r = judge(text);
  EXPECT_EQ(finding(r, "voltage.equipment-input@CC1.PV1").outcome.verdict, Verdict::pass);
  // Two modules in the heat: 59.1 V against 54 V and 5 V of start.
  EXPECT_NEAR(value(finding(r, "voltage.operating-window@CC1.PV1/S2"), "V_hot"), 59.1, 0.1);
}

TEST(Check, HomeRunsWithJunctionsAreJudgedPartByPart) {
  const std::string text = R"(format = 1
job = { name = "Old and new", edition = "nec_2020" }
site = { t_hot = "33 °C", rise = "30 K" }
module.M = { v_oc = "46.1 V", v_mp = "37.6 V", i_sc = "9.05 A", i_mp = "8.52 A", g_pmp = "-0.40 %/K", fuse_max = "15 A", cells = 72 }
row.X = { module = "M", count = 9 }
string.X1 = { walk = "X.1-X.8", lands = "INV.PV2", home_run = "HX" }
run.HX = { wire = { poles = "10 AWG Cu PV" }, segment = [ { in = "tray", length = "30 m" }, { junction = "JB1", wire = "14 AWG Cu THHN" }, { in = "EMT", size = "3/4 in", length = "12 m" } ] }
equipment.INV = { kind = "inverter", input = { PV2 = { v_max = "1000 V", isc_max = "25 A" } } }
)";
  const Report r = judge(text);
  EXPECT_EQ(finding(r, "conductor.wet-place@X1/1").outcome.verdict, Verdict::pass);
  EXPECT_NE(finding(r, "conductor.wet-place@X1").outcome.verdict, Verdict::pass);  // THHN
  EXPECT_GT(value(finding(r, "conductor.voltage-drop@X1"), "ΔU_0"), 0);
}

TEST(Check, ResistancesOfTheSolverAreThoseOfTheDropRule) {
  const auto w = wire(cabin_text());
  const auto edition = codebook::Edition::open("nec_2023").value();
  const auto r = conductor_resistances(w, edition);
  const auto both = *r[static_cast<std::size_t>(w.find_conductor("OUT+"))] +
                    *r[static_cast<std::size_t>(w.find_conductor("OUT-"))];
  const Report report = check(w, edition);
  EXPECT_NEAR(value(finding(report, "conductor.voltage-drop@OUT"), "ΔU"),
              both.in(units::ohms) * 2 * 10.71, 1e-9);
}

}  // namespace
}  // namespace stringwright::check
