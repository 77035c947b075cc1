#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>

#include "sheets/draw/tokens.hpp"
#include "sheets/fixture.hpp"
#include "sheets/sheet.hpp"
#include "sheets/write/write.hpp"

namespace stringwright::sheets {
namespace {

using draw::Page;
using draw::Text;
using fixture::Made;
using fixture::Options;

/// Cables of 15, 30, 50 and 100 ft, as the catalogue has them.
parts::Library cables(const char* family = "K2") {
  parts::Library library;
  for (const int feet : {15, 30, 50, 100}) {
    parts::Part p;
    p.id = "cable-" + std::to_string(feet) + "ft";
    p.kind = parts::PartKind::cable;
    p.title = "cable " + std::to_string(feet) + " ft";
    p.family = std::string(family);
    p.wire = *units::Wire::read("10 AWG Cu PV");
    p.length = units::feet(feet);
    library.parts.push_back(p);
  }
  return library;
}

std::vector<Page> pages(const Made& made, const design::CutPlan& plan) {
  Material m = made.material();
  m.cuts = &plan;
  std::vector<Page> all;
  for (const auto& paper : papers(m))
    if (paper.name == "cut-list") all.insert(all.end(), paper.pages.begin(), paper.pages.end());
  return all;
}

std::string text_of(const Page& page) {
  std::string s;
  for (const Text* t : draw::texts(page)) s += t->text + "\n";
  return s;
}

void check_page(const Page& page) {
  const auto texts = draw::texts(page);
  std::vector<draw::Box> boxes;
  const draw::Box inside{10, 10, page.width - 20, page.height - 20};
  const auto where = [&](std::size_t i) { return page.title + ": '" + texts[i]->text + "'"; };
  for (std::size_t i = 0; i < texts.size(); ++i) {
    boxes.push_back(draw::bounds(*texts[i]));
    EXPECT_GE(texts[i]->points, draw::size::caption) << where(i);
    EXPECT_TRUE(boxes[i].x >= inside.x && boxes[i].right() <= inside.right() &&
                boxes[i].y >= inside.y && boxes[i].bottom() <= inside.bottom())
        << where(i) << " leaves the frame";
  }
  for (std::size_t i = 0; i < texts.size(); ++i)
    for (std::size_t k = i + 1; k < texts.size(); ++k)
      EXPECT_FALSE(boxes[i].overlaps(boxes[k])) << where(i) << "\n  and " << where(k);
}

TEST(CutList, NothingOverlapsForAnyNumberOfStrings) {
  for (int n : {1, 2, 3, 4, 5, 8, 9, 16})
    for (const bool share : {true, false}) {
      SCOPED_TRACE(n);
      const Made made(Options{.strings = n});
      const auto plan = design::cut_plan(made.wiring, cables(), {.share = share});
      const auto all = pages(made, plan);
      ASSERT_FALSE(all.empty());
      std::string words;
      for (const auto& page : all) {
        check_page(page);
        words += text_of(page);
      }
      for (const auto& c : plan.cables)
        for (const auto* p : {&c.plus, &c.minus})
          if (*p) {
            EXPECT_THAT(words, testing::HasSubstr((*p)->at_box));
          }
      EXPECT_THAT(words, testing::HasSubstr("both plugs unmated and in your"));
    }
}

TEST(CutList, SolidlyGroundedAndReelAndUnknown) {
  const Made solid(Options{.strings = 2, .devices_in = "minus", .scheme = "solid", .pole = "plus"});
  for (const auto& page : pages(solid, design::cut_plan(solid.wiring, cables()))) check_page(page);

  const Made made(Options{.strings = 3});
  const auto reel = design::cut_plan(made.wiring, cables("K9"));
  ASSERT_EQ(reel.reel.size(), 6u);
  std::string words;
  for (const auto& page : pages(made, reel)) {
    check_page(page);
    words += text_of(page);
  }
  EXPECT_THAT(words, testing::HasSubstr("off a reel"));

  const auto none = design::cut_plan(fixture::wiring_of([] {
                                       std::string s = fixture::job_text(Options{});
                                       s.erase(s.find("family = \"K2\"\n"), 14);
                                       return s;
                                     }()),
                                     cables());
  ASSERT_FALSE(none.cannot_tell.empty());
  words.clear();
  for (const auto& page : pages(made, none)) {
    check_page(page);
    words += text_of(page);
  }
  EXPECT_THAT(words, testing::HasSubstr("CANNOT TELL"));
  EXPECT_THAT(words, testing::HasSubstr("never guess"));
}

TEST(CutList, ThereIsNoneWithoutAPlan) {
  const Made made(Options{});
  for (const auto& paper : papers(made.material())) EXPECT_NE(paper.name, "cut-list");
}

TEST(CutList, IsTheOneThatWasLookedAt) {
  const Made made(fixture::file("examples/north-cabin.toml"));
  const auto plan = design::cut_plan(made.wiring, cables());
  const auto all = pages(made, plan);
  ASSERT_EQ(all.size(), 1u);
  const std::string drawn = write::svg(all[0]);
  const std::string path =
      std::string(STRINGWRIGHT_SOURCE_DIR) + "/cases/sheets/north-cabin/cut-list.svg";
  if (std::getenv("STRINGWRIGHT_REGENERATE")) {
    std::ofstream(path) << drawn;
    return;
  }
  ASSERT_TRUE(std::filesystem::exists(path)) << path;
  const std::string kept = fixture::file("cases/sheets/north-cabin/cut-list.svg");
  if (kept != drawn) std::ofstream(path + ".new") << drawn;
  EXPECT_TRUE(kept == drawn) << "cut-list.svg differs; see " << path << ".new";
}

}  // namespace
}  // namespace stringwright::sheets
