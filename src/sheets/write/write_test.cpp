#include "sheets/write/write.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <unistd.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <vector>

#include "sheets/draw/canvas.hpp"
#include "sheets/fixture.hpp"

namespace stringwright::sheets::write {
namespace {

using namespace draw;

Page sample_page() {
  Page p;
  p.title = "A <page> & \"more\"";
  Canvas c;
  c.line({10, 10}, {50, 10}, {Ink::copper, 0.5, {2, 1}});
  c.polyline({{10, 20}, {30, 20}, {30, 40}}, {Ink::positive, 1.1}, 2.2);
  c.rect({60, 10, 20, 10}, {}, Ink::metal, 1);
  c.circle({100, 20}, 3, no_stroke(), Ink::ink);
  c.add(Hatch{{{10, 50}, {40, 50}, {40, 80}, {10, 80}}, 2.6, 45, {Ink::copper, 0.28}});
  c.text({10, 100}, "S1− < 10 Ω & \"fine\" \u0001", {.weight = Weight::semibold, .turn = -90},
         "S1-");
  p.shapes.push_back(c.group("S1n", "conductor negf", "S1− 10 AWG", {{"wire", "S1−"}}));
  return p;
}

/// Elements are closed in order, attributes quoted, no bare ampersand: enough for our own output.
testing::AssertionResult well_formed(const std::string& xml) {
  std::vector<std::string> open;
  for (std::size_t i = 0; i < xml.size(); ++i) {
    if (xml[i] == '&') {
      const std::size_t end = xml.find(';', i);
      if (end == std::string::npos || end - i > 6)
        return testing::AssertionFailure() << "bare & at " << i;
    }
    const auto byte = static_cast<unsigned char>(xml[i]);
    if (byte < 0x20 && xml[i] != '\n')
      return testing::AssertionFailure() << "control character at " << i;
    if (xml[i] != '<') continue;
    const std::size_t end = xml.find('>', i);
    if (end == std::string::npos) return testing::AssertionFailure() << "no end of an element";
    const std::string tag = xml.substr(i + 1, end - i - 1);
    if (tag.find('<') != std::string::npos)
      return testing::AssertionFailure() << "'<' inside " << tag;
    if (std::count(tag.begin(), tag.end(), '"') % 2)
      return testing::AssertionFailure() << "quotes in " << tag;
    if (tag[0] == '/') {
      if (open.empty() || open.back() != tag.substr(1))
        return testing::AssertionFailure() << "closes " << tag;
      open.pop_back();
    } else if (tag.back() != '/') {
      open.push_back(tag.substr(0, tag.find_first_of(" \n")));
    }
    i = end;
  }
  if (!open.empty()) return testing::AssertionFailure() << "left open: " << open.back();
  return testing::AssertionSuccess();
}

struct Ran {
  int code = -1;
  std::string out;
};
Ran run(const std::string& command) {
  Ran r;
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (!pipe) return r;
  std::array<char, 4096> buffer;
  while (const std::size_t n = fread(buffer.data(), 1, buffer.size(), pipe))
    r.out.append(buffer.data(), n);
  r.code = pclose(pipe);
  return r;
}
bool have(const std::string& tool) { return run("command -v " + tool).code == 0; }

class PdfOfAJob : public testing::Test {
 protected:
  PdfOfAJob() : made(fixture::Options{.strings = 3}), set(papers(made.material())) {
    path = std::filesystem::temp_directory_path() / ("sheets-" + std::to_string(getpid()) + ".pdf");
    std::ofstream(path, std::ios::binary) << pdf(set, {"Test field", "NEC 2023", "2031-05-02"});
  }
  ~PdfOfAJob() override { std::filesystem::remove(path); }

  fixture::Made made;
  std::vector<Paper> set;
  std::filesystem::path path;
};

TEST(Fonts, AreOnThisMachine) { EXPECT_EQ(font_trouble(), ""); }

TEST(Svg, HasTextIdsClassesAndData) {
  const std::string s = svg(sample_page());
  EXPECT_TRUE(well_formed(s));
  EXPECT_THAT(s, testing::HasSubstr("viewBox=\"0 0 420 297\""));
  EXPECT_THAT(s, testing::HasSubstr("<g id=\"S1n\" class=\"conductor negf\" data-wire=\"S1−\">"));
  EXPECT_THAT(s, testing::HasSubstr("<title>A &lt;page&gt; &amp; &quot;more&quot;</title>"));
  EXPECT_THAT(s, testing::HasSubstr(">S1− &lt; 10 Ω &amp; &quot;fine&quot; \uFFFD</text>"));
  EXPECT_THAT(s, testing::HasSubstr("rotate(-90 10 100)"));
}

TEST(Svg, EverySheetIsWellFormed) {
  const fixture::Made made(fixture::Options{.strings = 6, .name = "a & b < c > d \\\""});
  for (const auto& paper : papers(made.material()))
    for (const auto& page : paper.pages) EXPECT_TRUE(well_formed(svg(page))) << page.title;
}

TEST(Png, HasTheSizeThatWasAsked) {
  const std::string p = png(sample_page(), 25.4);
  ASSERT_GT(p.size(), 24u);
  EXPECT_EQ(p.substr(1, 3), "PNG");
  const auto big_endian = [&](std::size_t at) {
    int v = 0;
    for (std::size_t i = at; i < at + 4; ++i) v = v * 256 + static_cast<unsigned char>(p[i]);
    return v;
  };
  EXPECT_EQ(big_endian(16), 420);
  EXPECT_EQ(big_endian(20), 297);
}

TEST_F(PdfOfAJob, RepeatsItsBytes) {
  EXPECT_EQ(pdf(set, {"a", "b", "2031-05-02"}), pdf(set, {"a", "b", "2031-05-02"}));
  EXPECT_EQ(pdf(set, {"a", "b", "someday"}), pdf(set, {"a", "b", "someday"}));
  EXPECT_NE(pdf(set, {"a", "b", "2031-05-02"}), pdf(set, {"a", "b", "2031-05-03"}));
}

TEST_F(PdfOfAJob, IsSound) {
  ASSERT_TRUE(have("qpdf")) << "qpdf is not installed";
  const Ran r = run("qpdf --check " + path.string());
  EXPECT_EQ(r.code, 0) << r.out;
}

TEST_F(PdfOfAJob, EmbedsItsFonts) {
  ASSERT_TRUE(have("pdffonts")) << "poppler-utils is not installed";
  const Ran r = run("pdffonts " + path.string());
  std::istringstream lines(r.out);
  std::string line;
  int fonts = 0;
  while (std::getline(lines, line)) {
    if (line.find("Inter") == std::string::npos && line.find("DejaVu") == std::string::npos)
      continue;
    ++fonts;
    EXPECT_THAT(line, testing::HasSubstr("yes yes yes")) << "embedded, subset, readable";
  }
  EXPECT_GE(fonts, 3) << r.out;
}

TEST_F(PdfOfAJob, CanBeSearched) {
  ASSERT_TRUE(have("pdftotext")) << "poppler-utils is not installed";
  const Ran r = run("pdftotext " + path.string() + " -");
  for (const auto& c : made.wiring.conductors)
    if (c.kind == wiring::ConductorKind::home_run || c.kind == wiring::ConductorKind::output) {
      EXPECT_THAT(r.out, testing::HasSubstr(c.tag));
    }
  for (const auto& f : made.judged.findings) {
    EXPECT_THAT(r.out, testing::HasSubstr(f.rule + "@"));
    EXPECT_THAT(r.out, testing::HasSubstr(f.thing));
  }
  for (const auto& rule : made.judged.not_looked_at)
    EXPECT_THAT(r.out, testing::HasSubstr(rule.id));
}

TEST_F(PdfOfAJob, HasABookmarkForEachPage) {
  ASSERT_TRUE(have("qpdf")) << "qpdf is not installed";
  const Ran r = run("qpdf --qdf --object-streams=disable " + path.string() + " -");
  std::size_t pages = 0, titles = 0;
  for (const auto& paper : set) pages += paper.pages.size();
  for (std::size_t at = r.out.find("/Dest "); at != std::string::npos;
       at = r.out.find("/Dest ", at + 1))
    ++titles;
  EXPECT_EQ(titles, pages);
  EXPECT_THAT(r.out, testing::HasSubstr("D:20310502"));
}

}  // namespace
}  // namespace stringwright::sheets::write
