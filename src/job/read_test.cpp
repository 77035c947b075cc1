#include "job/read.hpp"

#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "base/text.hpp"
#include "job/find.hpp"
#include "job/flat.hpp"

namespace stringwright::job {
namespace {

const std::string head = "format = 1\njob = { name = \"Case\", edition = \"nec_2023\" }\n";

std::string file(const std::string& path) {
  std::ifstream in(std::string(STRINGWRIGHT_SOURCE_DIR) + "/" + path, std::ios::binary);
  std::stringstream all;
  all << in.rdbuf();
  return all.str();
}

std::string messages(const Reading& reading, const std::string& text) {
  std::string all;
  for (const auto& d : reading.diagnostics) all += render(d, text);
  return all;
}

/// The job of a text that reads without a message.
Job good(const std::string& text) {
  auto reading = read(text, "job.toml");
  EXPECT_EQ(messages(reading, text), "");
  EXPECT_TRUE(reading.job);
  return reading.job ? *reading.job : Job{};
}

/// What stands in the text at a span.
std::string at(const std::string& text, Span span) {
  const auto lines = text::split(text, '\n');
  std::string found;
  int column = 0;
  auto line = lines.at(static_cast<std::size_t>(span.line - 1));
  while (!line.empty()) {
    const auto c = line.substr(0, text::code_point_bytes(line));
    line.remove_prefix(c.size());
    if (++column >= span.column && column < span.end_column) found += c;
  }
  return found;
}

TEST(Read, TheStarterIsAJob) { good(starter()); }
TEST(Read, TheExampleIsAJob) { good(file("examples/north-cabin.toml")); }

TEST(Read, TwoStrings) {
  const Job job = good(file("cases/job/good_two_strings.toml"));
  EXPECT_EQ(*job.format, 1);
  EXPECT_EQ(*job.job.edition, "nec_2023");
  EXPECT_NEAR(job.site.t_min->celsius(), -31, 1e-9);
  EXPECT_DOUBLE_EQ(job.site.rise->in(units::kelvins), 30);
  ASSERT_EQ(job.module.size(), 1U);
  EXPECT_EQ(job.module[0].id, "M365");
  EXPECT_DOUBLE_EQ(job.module[0].b_voc->relative->in(units::percent_per_kelvin), -0.28);
  EXPECT_EQ(job.string[0].walk->front(), (ModulePlace{"R1", 3}));
  EXPECT_EQ(job.string[1].lands->number, 2);
  const Box& box = job.box.at(0);
  EXPECT_DOUBLE_EQ(box.at.x->in(units::metres), -0.4);
  EXPECT_EQ(box.home_run.wire->print(), "10 AWG Cu PV");
  EXPECT_EQ(box.lands->text, "CC1.PV1") << "filled in from its run";
  const auto& run = job.run.at(0);
  EXPECT_TRUE(run.wire.egc.choose);
  EXPECT_FALSE(run.wire.egc.known());
  ASSERT_EQ(run.segment.size(), 2U);
  EXPECT_DOUBLE_EQ(run.segment[0].bends->at(1).in(units::degrees), 90);
  EXPECT_EQ(run.segment[1].size->table_name(), "1");
  EXPECT_DOUBLE_EQ(job.equipment[0].battery->fault_current->in(units::amps), 5000);
  EXPECT_EQ(job.equipment[0].input.at(0).id, "PV1");
  EXPECT_FALSE(job.equipment[0].isolated.known());
}

TEST(Read, PatternsAreWrittenOut) {
  const Job job = good(file("cases/job/good_recombined.toml"));
  ASSERT_EQ(job.row.size(), 25U);
  EXPECT_EQ(job.row[11].id, "RN12");
  EXPECT_DOUBLE_EQ(job.row[11].at->at(1).in(units::metres), 11 * 6.2);
  EXPECT_EQ(job.row[12].id, "RS1");
  EXPECT_EQ(job.row[24].id, "X");
  ASSERT_EQ(job.string.size(), 25U);
  const String& seventh = job.string[6];
  EXPECT_EQ(seventh.id, "A7");
  EXPECT_EQ(seventh.lands->text, "BA.7");
  EXPECT_EQ(seventh.walk->size(), 17U);
  EXPECT_EQ(seventh.walk->back(), (ModulePlace{"RN7", 17}));
  EXPECT_DOUBLE_EQ(seventh.plus_end->in(units::metres), 4.0 + 6 * 3.1);
  EXPECT_DOUBLE_EQ(seventh.minus_end->in(units::metres), 28);
  EXPECT_FALSE(job.string[12].plus_end.known());
  const String& mixed = job.string[24];
  EXPECT_EQ(mixed.walk->size(), 8U);
  EXPECT_DOUBLE_EQ(*mixed.age, 0.92);
  EXPECT_EQ(*mixed.home_run, "HX");
  EXPECT_EQ(*find(job.run, "FA")->from, "BA") << "filled in from its box";
  EXPECT_EQ(*find(job.run, "HX")->segment[1].junction, "JB1");
}

TEST(Read, TablesMayBeWrittenInAnyOfTheThreeWays) {
  const std::string dotted = head + "part.B.kind = \"box\"\npart.B.minus.wires = 2\n";
  const std::string inlined = head + "part.B = { kind = \"box\", minus = { wires = 2 } }\n";
  const std::string headed = head + "[part.B]\nkind = \"box\"\n[part.B.minus]\nwires = 2\n";
  EXPECT_EQ(Flat::of(good(dotted)), Flat::of(good(inlined)));
  EXPECT_EQ(Flat::of(good(dotted)), Flat::of(good(headed)));
  EXPECT_EQ(*good(headed).part.at(0).minus.wires, 2);
}

TEST(Read, RecordsStandInTheOrderOfTheText) {
  const Job job = good(head + "[surface]\nz = {}\na = {}\n[surface.m]\ntilt = \"10 °\"\n");
  ASSERT_EQ(job.surface.size(), 3U);
  EXPECT_EQ(job.surface[0].id, "z");
  EXPECT_EQ(job.surface[1].id, "a");
  EXPECT_EQ(job.surface[2].id, "m");
}

TEST(Read, EachValueKnowsItsPlace) {
  const std::string text = file("examples/north-cabin.toml");
  const Job job = good(text);
  EXPECT_EQ(at(text, job.site.t_min.span), "\"-31 °C\"");
  EXPECT_EQ(at(text, job.module[0].span), "M365");
  EXPECT_EQ(at(text, job.string[0].lands.span), "\"A1.1\"");
  EXPECT_EQ(at(text, job.box[0].home_run.span), "home_run");
  EXPECT_EQ(at(text, job.box[0].home_run.tail.span), "\"0.75 m\"");
  EXPECT_EQ(at(text, job.run[0].segment[0].bends.span), "[\"90 °\", \"90 °\"]");
  EXPECT_EQ(at(text, job.run[0].wire.egc.span), "\"choose\"");
  EXPECT_EQ(at(text, job.equipment[0].input[0].v_max.span), "\"150 V\"");
  EXPECT_EQ(job.string[0].age.span, job.string[0].span) << "left out: the place of the record";
  EXPECT_EQ(job.part[0].line.torque.span, job.part[0].span);
  EXPECT_FALSE(job.part[0].line.span.known()) << "a table left out stands nowhere";
}

TEST(Read, WhatIsNotWrittenIsNotKnown) {
  const Job job = good(head);
  EXPECT_FALSE(job.site.t_min.known());
  EXPECT_FALSE(job.site.t_min.choose);
  EXPECT_FALSE(job.site.span.known());
  EXPECT_TRUE(job.string.empty());
}

TEST(Read, DatesNeedNoQuotes) {
  const Job job =
      good("format = 1\njob = { name = \"Case\", edition = \"nec_2023\", date = 2031-05-02 }\n");
  EXPECT_EQ(*job.job.date, "2031-05-02");
}

TEST(Read, PoundsAndFeetAreConverted) {
  const Job job = good(head +
                       "site = { t_min = \"−24 °F\", rise = \"54 Δ°F\" }\nbox.A1 = { home_run = { "
                       "tail = \"30 in\" } }\n");
  EXPECT_NEAR(job.site.t_min->celsius(), -31.1111, 1e-3);
  EXPECT_NEAR(job.site.rise->in(units::kelvins), 30, 1e-9);
  EXPECT_NEAR(job.box[0].home_run.tail->in(units::metres), 0.762, 1e-12);
}

TEST(Read, InputsMayBeNumbered) {
  const Job job =
      good(head +
           "module.M = { v_oc = \"40 V\", v_mp = \"33 V\", i_sc = \"11 A\", i_mp = \"10.5 A\" }\n"
           "row.R = { module = \"M\", count = 2 }\n"
           "string.S1 = { walk = \"R.1-R.2\", lands = \"INV.1\" }\n"
           "equipment.INV = { kind = \"inverter\", input.1 = { v_max = \"600 V\" } }\n");
  EXPECT_EQ(job.string[0].lands->bar, "1");
  EXPECT_EQ(job.string[0].lands->number, 0);
}

TEST(Read, TheLibraryFillsInWhatTheJobDoesNotHave) {
  const auto parts = read_library(
      "module.M = { v_oc = \"40 V\", v_mp = \"33 V\", i_sc = \"11 A\", i_mp = \"10.5 A\" }\n"
      "module.N = { v_oc = \"50 V\", v_mp = \"41 V\", i_sc = \"11 A\", i_mp = \"10.5 A\" }\n"
      "part.BX = { kind = \"box\", slots = 4 }\npart.B20 = { kind = \"breaker\", rating = \"20 "
      "A\", line = { wires = 1 } }\n"
      "part.unused = { kind = \"fuse\" }\n",
      "parts.toml");
  EXPECT_TRUE(parts.diagnostics.empty());
  const std::string text =
      head +
      "module.N = { v_oc = \"30 V\", v_mp = \"25 V\", i_sc = \"9 A\", i_mp = \"8.5 A\" }\n"
      "row.R1 = { module = \"M\", count = 2 }\nrow.R2 = { module = \"N\", count = 2 }\n"
      "box.A1 = { part = \"BX\", slot = { device = \"B20\" } }\n";
  const auto reading = read(text, "job.toml", parts.library);
  EXPECT_EQ(messages(reading, text), "");
  ASSERT_TRUE(reading.job);
  ASSERT_EQ(reading.job->module.size(), 2U);
  EXPECT_DOUBLE_EQ(find(reading.job->module, "N")->v_oc->in(units::volts), 30)
      << "the job's own record wins";
  EXPECT_EQ(reading.job->part.size(), 2U) << "only what is used";
  const auto* breaker = find(reading.job->part, "B20");
  ASSERT_NE(breaker, nullptr);
  EXPECT_FALSE(breaker->span.known()) << "it stands nowhere in the job's text";
  EXPECT_FALSE(breaker->line.wires.span.known());
  EXPECT_EQ(*breaker->line.wires, 1);
}

TEST(Read, ALibraryIsCheckedLikeAJob) {
  const std::string text =
      "part.F = { kind = \"fuse\", slots = 4 }\nmodule.M = { v_oc = \"40 V\" }\njob = {}\n";
  const auto parts = read_library(text, "parts.toml");
  std::vector<std::string> ids;
  for (const auto& d : parts.diagnostics) ids.push_back(d.id);
  EXPECT_EQ(ids, (std::vector<std::string>{"job.part-kind", "job.missing", "job.missing",
                                           "job.missing", "job.unknown-key"}));
}

TEST(Read, ByteOrderMarkAndCarriageReturnsMoveNothing) {
  const std::string plain = head + "site = { t_min = \"85 ft\" }\n";
  const std::string marked = "\xEF\xBB\xBF" + text::replace_all(plain, "\n", "\r\n");
  const auto a = read(plain, "f");
  const auto b = read(marked, "f");
  ASSERT_EQ(a.diagnostics.size(), 1U);
  ASSERT_EQ(b.diagnostics.size(), 1U);
  EXPECT_EQ(a.diagnostics[0].message, b.diagnostics[0].message);
  EXPECT_EQ(a.diagnostics[0].span, b.diagnostics[0].span);
}

/// One message, and the text is no job.
void expect_one(const std::string& text, const std::string& id) {
  const auto reading = read(text, "f");
  EXPECT_FALSE(reading.job);
  ASSERT_EQ(reading.diagnostics.size(), 1U) << messages(reading, text);
  EXPECT_EQ(reading.diagnostics[0].id, id) << messages(reading, text);
  EXPECT_FALSE(render(reading.diagnostics[0], text).empty());
}

TEST(Read, StrangeBytesAreOneMessage) {
  expect_one(std::string("format = 1\njob = \0 x", 20), "job.syntax");
  expect_one("format = 1\nname = \"\xff\"\n", "job.syntax");
  expect_one(
      "\xff\xfe"
      "f\0o\0",
      "job.syntax");
  expect_one("[(\"[(", "job.syntax");
  expect_one(std::string(9U << 20U, '#'), "job.syntax");
}

TEST(Read, DeepTextsDoNotExhaustTheStack) {
  std::string dots = "a";
  for (int i = 0; i < 200000; ++i) dots += ".a";
  expect_one(dots + " = 1\n", "job.syntax");
  expect_one("[" + dots + "]\n", "job.syntax");
  expect_one("x = " + std::string(200000, '['), "job.syntax");
  std::string tables = "x = ";
  for (int i = 0; i < 50000; ++i) tables += "{a.\"b#\".'c' = ";
  expect_one(tables, "job.syntax");
}

TEST(Read, EmptyTextsLackTwoThings) {
  for (const auto* text : {"", "\n", "# nothing\n"}) {
    const auto reading = read(text, "f");
    EXPECT_FALSE(reading.job);
    ASSERT_EQ(reading.diagnostics.size(), 2U);
    EXPECT_EQ(reading.diagnostics[0].id, "job.missing");
  }
}

TEST(Read, LargePatternsAreRefusedNotBuilt) {
  const std::string text =
      head +
      "module.M = { v_oc = \"40 V\", v_mp = \"33 V\", i_sc = \"11 A\", i_mp = \"10.5 A\" }\n"
      "rows.A = { rows = 10000, module = \"M\", count = 9 }\n"
      "rows.B = { rows = 10000, module = \"M\", count = 9 }\n"
      "rows.C = { rows = 1, module = \"M\", count = 9 }\n";
  expect_one(text, "job.out-of-range");
}

TEST(Read, OnlyErrorsKeepTheJobBack) {
  const std::string text =
      head +
      "module.M = { v_oc = \"40 V\", v_mp = \"39 V\", i_sc = \"11 A\", i_mp = \"10.5 A\" }\n";
  const auto reading = read(text, "f");
  EXPECT_TRUE(reading.job);
  ASSERT_EQ(reading.diagnostics.size(), 1U);
  EXPECT_EQ(reading.diagnostics[0].severity, Severity::question);
  EXPECT_EQ(reading.diagnostics[0].message.back(), '?');
}

}  // namespace
}  // namespace stringwright::job
