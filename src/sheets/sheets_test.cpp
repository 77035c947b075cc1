#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>

#include "sheets/draw/frame.hpp"
#include "sheets/draw/tokens.hpp"
#include "sheets/fixture.hpp"
#include "sheets/sheet.hpp"
#include "sheets/write/write.hpp"

namespace stringwright::sheets {
namespace {

using draw::Box;
using draw::Group;
using draw::Page;
using draw::Point;
using draw::Text;
using fixture::Made;
using fixture::Options;

/// Jobs that between them use every form of the box sheet.
std::vector<std::pair<std::string, Options>> forms() {
  std::vector<std::pair<std::string, Options>> all;
  for (int n = 1; n <= 16; ++n) all.push_back({"strings " + std::to_string(n), {.strings = n}});
  for (int n : {1, 4, 8, 12, 16}) {
    all.push_back({"both poles " + std::to_string(n),
                   {.strings = n, .devices_in = "both", .scheme = "ungrounded"}});
    all.push_back({"plus grounded " + std::to_string(n),
                   {.strings = n, .devices_in = "minus", .scheme = "solid", .pole = "plus"}});
    all.push_back({"fuses " + std::to_string(n), {.strings = n, .device = "fuse"}});
    all.push_back(
        {"no arrester " + std::to_string(n), {.strings = n, .scheme = "solid", .arrester = false}});
    all.push_back({"no outline " + std::to_string(n), {.strings = n, .outline = false}});
    all.push_back({"unlike devices " + std::to_string(n), {.strings = n, .mixed = true}});
    all.push_back({"part not known " + std::to_string(n), {.strings = n, .part = false}});
  }
  all.push_back({"unlike devices, both poles",
                 {.strings = 4, .devices_in = "both", .scheme = "ungrounded", .mixed = true}});
  all.push_back({"long ids", {.strings = 4, .ids = "NorthWing"}});
  all.push_back({"long ids, many", {.strings = 12, .ids = "North"}});
  return all;
}

std::string where(const Page& page, const Text& t) {
  return page.title + ": '" + t.text + "' at " + std::to_string(t.at.x) + ", " +
         std::to_string(t.at.y);
}

/// Centre lines of the wires of a page, by wire.
std::vector<std::pair<std::string, std::vector<Point>>> wires(const Page& page) {
  std::vector<std::pair<std::string, std::vector<Point>>> all;
  for (const Group* g : draw::groups(page)) {
    if (g->kind.rfind("conductor", 0) != 0) continue;
    for (const auto& s : g->shapes)
      if (const auto* p = std::get_if<draw::Polyline>(&s); p && p->stroke.ink != draw::Ink::paper)
        all.emplace_back(g->data.at(0).second, p->points);
  }
  return all;
}

/// Wires are level or upright.
bool touches(const std::vector<Point>& path, const Box& b) {
  for (std::size_t i = 1; i < path.size(); ++i) {
    const Point &p = path[i - 1], &q = path[i];
    if (std::max(p.x, q.x) > b.x && std::min(p.x, q.x) < b.right() && std::max(p.y, q.y) > b.y &&
        std::min(p.y, q.y) < b.bottom())
      return true;
  }
  return false;
}

/// No two texts of a page overlap, none leaves the frame, none is small, no wire runs through one.
void check_page(const Page& page) {
  const auto texts = draw::texts(page);
  std::vector<Box> boxes;
  const double frame = page.width > page.height ? 10 : 12;
  const Box inside{frame, frame, page.width - 2 * frame, page.height - 2 * frame};
  for (const Text* t : texts) {
    boxes.push_back(draw::bounds(*t));
    const Box& b = boxes.back();
    EXPECT_GE(t->points, draw::size::caption) << where(page, *t);
    EXPECT_TRUE(b.x >= inside.x && b.right() <= inside.right() && b.y >= inside.y &&
                b.bottom() <= inside.bottom())
        << where(page, *t) << " leaves the frame";
  }
  for (std::size_t i = 0; i < texts.size(); ++i)
    for (std::size_t k = i + 1; k < texts.size(); ++k)
      EXPECT_FALSE(boxes[i].overlaps(boxes[k]))
          << where(page, *texts[i]) << "\n  and " << where(page, *texts[k]);
  for (const auto& [wire, path] : wires(page))
    for (std::size_t i = 0; i < texts.size(); ++i)
      EXPECT_FALSE(texts[i]->name != wire && touches(path, boxes[i]))
          << wire << " runs through " << where(page, *texts[i]);
}

/// Frames of tags by wire.
std::map<std::string, std::vector<Box>> tags(const Page& page) {
  std::map<std::string, std::vector<Box>> all;
  for (const Group* g : draw::groups(page))
    if (g->kind.rfind("tagbox", 0) == 0)
      all[g->data.at(0).second].push_back(std::get<draw::Rect>(g->shapes.at(0)).box);
  return all;
}

/// All pages of a set, copied: the set may be a temporary.
std::vector<Page> pages(const std::vector<draw::Paper>& set) {
  std::vector<Page> all;
  for (const auto& paper : set) all.insert(all.end(), paper.pages.begin(), paper.pages.end());
  return all;
}

std::string text_of(const Page& page) {
  std::string s;
  for (const Text* t : draw::texts(page)) s += t->text + "\n";
  return s;
}

TEST(Sheets, NothingOverlapsInAnyForm) {
  for (const auto& [name, options] : forms()) {
    SCOPED_TRACE(name);
    const Made made(options);
    for (const Page& page : pages(papers(made.material()))) check_page(page);
  }
}

TEST(Sheets, EveryConductorOfABoxHasItsTagAtBothEnds) {
  for (const auto& [name, options] : forms()) {
    SCOPED_TRACE(name);
    const Made made(options);
    const auto set = papers(made.material());
    const auto found = tags(set.at(0).pages.at(0));
    std::vector<Box> all;
    for (const auto& c : made.wiring.conductors) {
      if (c.kind == wiring::ConductorKind::lead || c.kind == wiring::ConductorKind::finger)
        continue;
      ASSERT_TRUE(found.count(c.tag)) << c.tag;
      EXPECT_EQ(found.at(c.tag).size(), 2u) << c.tag;
      for (const Box& b : found.at(c.tag)) all.push_back(b);
    }
    for (std::size_t i = 0; i < all.size(); ++i)
      for (std::size_t k = i + 1; k < all.size(); ++k)
        EXPECT_FALSE(all[i].overlaps(all[k])) << "tags at " << all[i].x << ", " << all[i].y;
  }
}

TEST(Sheets, EachHoleStandsInTheTableOnce) {
  const Made made(Options{.strings = 2});
  const auto set = papers(made.material());
  std::multiset<std::string> words;
  for (const Group* g : draw::groups(set.at(0).pages.at(0)))
    if (g->kind.empty() && g->id == "hole-table")
      for (const auto& s : g->shapes)
        if (const auto* t = std::get_if<Text>(&s)) words.insert(t->text);
  for (const char* hole :
       {"T1", "T2", "L1", "L2", "P1", "P2", "N1", "N2", "N3–4", "N5", "N6", "G1", "G2", "G3", "G4"})
    EXPECT_EQ(words.count(hole), 1u) << hole;
  EXPECT_EQ(words.count("by marking"), 5u);  // P1, G1 and the arrester's three say nothing
}

TEST(Sheets, ScheduleNamesEveryConductorOnce) {
  const Made made(fixture::file("examples/two-box-field.toml"));
  std::map<std::string, int> rows;
  for (const auto& paper : papers(made.material()))
    if (paper.name == "schedule")
      for (const auto& page : paper.pages)
        for (const Text* t : draw::texts(page))
          if (!t->name.empty()) ++rows[t->name];
  for (const auto& c : made.wiring.conductors)
    if (c.kind != wiring::ConductorKind::lead && c.kind != wiring::ConductorKind::finger) {
      EXPECT_EQ(rows[c.id], 1) << c.id;
    }
}

TEST(Sheets, EverySheetSaysWhatTheOthersSay) {
  const Made made(Options{.strings = 3});
  const auto set = papers(made.material());
  const auto all = pages(set);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::string text = text_of(all[i]);
    SCOPED_TRACE(all[i].title);
    EXPECT_THAT(text, testing::HasSubstr(wiring::counts_line(made.wiring)));
    EXPECT_THAT(text, testing::HasSubstr("2 rules NOT LOOKED AT"));
    EXPECT_THAT(text, testing::HasSubstr("1 fail"));
    EXPECT_THAT(text, testing::HasSubstr("1 cannot tell"));
    EXPECT_THAT(text, testing::HasSubstr("NEC 2023"));
    EXPECT_THAT(text, testing::HasSubstr("Checked by"));
    EXPECT_THAT(text, testing::HasSubstr("Live whenever there is light."));
    EXPECT_THAT(text, testing::HasSubstr("\n" + std::to_string(i + 1) + "\nof " +
                                         std::to_string(all.size()) + "\n"));
  }
}

TEST(Sheets, IdsOfAPageAreUnique) {
  for (const char* example : {"north-cabin", "two-box-field", "school-roof"}) {
    const Made made(fixture::file("examples/" + std::string(example) + ".toml"));
    for (const Page& page : pages(papers(made.material()))) {
      std::set<std::string> seen;
      for (const Group* g : draw::groups(page))
        EXPECT_TRUE(g->id.empty() || seen.insert(g->id).second)
            << g->id << " twice on " << page.title;
    }
  }
}

TEST(Sheets, ExamplesDrawWithoutOverlap) {
  const std::filesystem::path folder(STRINGWRIGHT_SOURCE_DIR "/examples");
  for (const auto& example : std::filesystem::directory_iterator(folder)) {
    SCOPED_TRACE(example.path().filename());
    const Made made(fixture::file("examples/" + example.path().filename().string()));
    for (const Page& page : pages(papers(made.material()))) check_page(page);
  }
}

TEST(Sheets, TagsOfSeveralBoxesAreLonger) {
  // A second box, on which nothing lands, makes the tags of the first say whose they are.
  std::string text = fixture::job_text(Options{.strings = 3});
  text +=
      "[box.A2]\npart = \"BX\"\nout = \"OUT2\"\narrester = \"arr\"\n[run.OUT2]\nfrom = \"A2\"\n"
      "to = \"CC1.PV1\"\nwire = { poles = \"2 AWG Cu XHHW-2\", egc = \"choose\" }\n";
  const Made made(text);
  const auto set = papers(made.material());
  EXPECT_EQ(tags(set.at(0).pages.at(0)).count("A1.SA+"), 1u);
  for (const Page& page : pages(set)) check_page(page);
}

TEST(Sheets, StrangeTextsStayInTheirCells) {
  const std::string longest(300, 'W');
  for (const std::string& name :
       {longest, std::string("بيت الشمال مع اسم طويل جدا لا ينتهي أبدا في سطر واحد"),
        std::string("北の小屋"),
        std::string("line\\nbreak \\u202E turned \\u200F & <tag> \\\"quoted\\\""), std::string("á̈́́́́́"),
        std::string("🏠🌞")}) {
    const Made made(Options{.name = name,
                            .more_header = "customer = \"" + name + "\"\nauthority = \"" + name +
                                           "\"\ndesigner = \"" + name + "\"\nlicence = \"" + name +
                                           "\"\n"});
    const auto set = papers(made.material());
    for (const Page& page : pages(set)) {
      check_page(page);
      EXPECT_THAT(write::svg(page), testing::Not(testing::HasSubstr("\u202E")));
    }
    EXPECT_FALSE(write::pdf(set, {name, name, "not a date"}).empty());
  }
}

TEST(Sheets, NoStringsNoBoxNoCrash) {
  job::Job empty;
  Diagnostics diagnostics;
  const wiring::Wiring w = wiring::build(empty, diagnostics);
  const check::Report nothing;
  const auto set = papers({w, nothing, {}, {}, ""});
  for (const Page& page : pages(set)) check_page(page);
  EXPECT_FALSE(write::pdf(set, {}).empty());

  // A box on which nothing lands.
  const Made made(Options{.strings = 1});
  job::Job bare = made.wiring.job;
  bare.string.clear();
  const wiring::Wiring lonely = wiring::build(bare, diagnostics);
  for (const Page& page : pages(papers({lonely, nothing, {}, {}, ""}))) check_page(page);
}

TEST(Sheets, TooManyStringsForASheetSaySo) {
  const Made made(Options{.strings = 40});
  const auto set = papers(made.material());
  EXPECT_THAT(set.at(0).pages.at(0).title, testing::HasSubstr("too many to draw"));
  for (const Page& page : pages(set)) check_page(page);
}

TEST(Sheets, DangerIsNamedInWords) {
  const Made made(Options{.strings = 2});
  const std::string text = text_of(papers(made.material()).at(0).pages.at(0));
  for (const char* words :
       {"LIVE WHENEVER THERE IS LIGHT", "FLOAT", "P to N and G, every L to",
        "Tester on the known source again", "strings have none while open", "no neutral"})
    EXPECT_THAT(text, testing::HasSubstr(words));
}

TEST(Sheets, FuseHoldersAreDrawnEmpty) {
  const Made made(Options{.strings = 2, .device = "fuse"});
  const std::string text = text_of(papers(made.material()).at(0).pages.at(0));
  EXPECT_THAT(text, testing::HasSubstr("empty"));
  EXPECT_THAT(text, testing::HasSubstr("no load"));
  EXPECT_THAT(text, testing::Not(testing::HasSubstr("OFF")));
}

TEST(Sheets, UnlikeDevicesOfABoxAreToldApart) {
  const Made made(Options{.strings = 4, .mixed = true});
  std::string text;
  const auto set = papers(made.material());
  for (const Page& page : set.at(0).pages) text += text_of(page);
  for (const char* words : {"Fuse holder 8 A, string side", "Breaker 20 A, string side",
                            "Holders Q1 empty; Q2 to Q4 OFF", "Never pull one under load"})
    EXPECT_THAT(text, testing::HasSubstr(words));
  const Made narrow(fixture::file("examples/shed-repair.toml"));
  const std::string small = text_of(papers(narrow.material()).at(0).pages.at(0));
  EXPECT_THAT(small, testing::HasSubstr("\n10 A\n"));
  EXPECT_THAT(small, testing::HasSubstr("\n15 A\n"));
}

TEST(Sheets, ReportShowsEveryFindingAndEveryGap) {
  const Made made(Options{});
  std::string text;
  for (const auto& paper : papers(made.material()))
    if (paper.name == "report")
      for (const auto& page : paper.pages) text += text_of(page);
  for (const char* words :
       {"voltage.one@S1 to S3", "voltage.two@OUT", "voltage.three@OUT", "voltage.four@CC1.PV1",
        "voltage.five@A1.Q1", "voltage.six@A1.Q1", "FAIL", "WAIVED", "CANNOT TELL", "CAUTION",
        "NOT APPLICABLE", "PASS", "V3", "X1", "the site office", "from memory", "Table 690.7(A)",
        "not known", "PV input"})
    EXPECT_THAT(text, testing::HasSubstr(words));
  EXPECT_THAT(text, testing::Not(testing::HasSubstr("V_")));
}

TEST(Sheets, SameJobSameBytes) {
  const auto bytes = [] {
    const Made made(Options{.strings = 5});
    const auto set = papers(made.material());
    return write::pdf(set, {"a", "b", "2031-05-02"}) + write::svg(set.at(0).pages.at(0)) +
           write::png(set.at(0).pages.at(0), 60);
  };
  EXPECT_EQ(bytes(), bytes());
}

/// Drawings as text against files that somebody has looked at. STRINGWRIGHT_REGENERATE=1 writes them
/// anew; look at them before they are kept.
TEST(Sheets, DrawingsAreThoseThatWereLookedAt) {
  const Made made(fixture::file("examples/north-cabin.toml"));
  for (const auto& paper : papers(made.material()))
    for (std::size_t i = 0; i < paper.pages.size(); ++i) {
      const std::string name =
          paper.name + (paper.pages.size() > 1 ? "-" + std::to_string(i + 1) : "") + ".svg";
      const std::string path =
          std::string(STRINGWRIGHT_SOURCE_DIR) + "/cases/sheets/north-cabin/" + name;
      const std::string drawn = write::svg(paper.pages[i]);
      if (std::getenv("STRINGWRIGHT_REGENERATE")) {
        std::filesystem::create_directories(std::filesystem::path(path).parent_path());
        std::ofstream(path) << drawn;
        continue;
      }
      ASSERT_TRUE(std::filesystem::exists(path)) << path;
      const std::string kept = fixture::file("cases/sheets/north-cabin/" + name);
      if (kept != drawn) std::ofstream(path + ".new") << drawn;
      EXPECT_TRUE(kept == drawn) << name << " differs; see " << path << ".new";
    }
}

}  // namespace
}  // namespace stringwright::sheets
