#include "base/diagnostic.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

namespace stringwright {
namespace {

Diagnostic unknown_key() {
  Diagnostic d;
  d.id = "job.unknown-key";
  d.message = "unknown key 'lenght' in [run.R2]";
  d.help = "did you mean 'length'?";
  d.file = "barn.toml";
  d.span = {38, 1, 38, 7};
  return d;
}

TEST(Diagnostic, ReadsAsInTheStylePage) {
  const std::string text = std::string(37, '\n') + "lenght = \"85 ft\"\nnext = 1\n";
  EXPECT_EQ(render(unknown_key(), text),
            "barn.toml:38:1: error: unknown key 'lenght' in [run.R2] [job.unknown-key]\n"
            "   38 | lenght = \"85 ft\"\n"
            "      | ^^^^^^\n"
            "   help: did you mean 'length'?\n");
}

TEST(Diagnostic, FindingsHaveTheirOwnWord) {
  const std::string text = std::string(40, '\n') + "conductor = \"12 AWG Cu\"";
  EXPECT_EQ(render_at("barn.toml", {41, 13, 41, 24}, "fail",
                      "ampacity 20.00 A is less than the required 22.50 A",
                      "conductor.terminal-ampacity", text),
            "barn.toml:41:13: fail: ampacity 20.00 A is less than the required 22.50 A "
            "[conductor.terminal-ampacity]\n"
            "   41 | conductor = \"12 AWG Cu\"\n"
            "      |             ^^^^^^^^^^^\n");
}

TEST(Diagnostic, SeverityWords) {
  Diagnostic d = unknown_key();
  d.severity = Severity::question;
  EXPECT_NE(render(d, "").find(": question: "), std::string::npos);
  d.severity = Severity::note;
  EXPECT_NE(render(d, "").find(": note: "), std::string::npos);
  EXPECT_FALSE(any_error({d}));
  EXPECT_TRUE(any_error({d, unknown_key()}));
  EXPECT_FALSE(any_error({}));
}

TEST(Diagnostic, NoPlaceNoQuote) {
  EXPECT_EQ(render_at("barn.toml", {}, "error", "no [site]", "job.no-site", "text"),
            "barn.toml: error: no [site] [job.no-site]\n");
  EXPECT_EQ(render_at("", {}, "error", "no file", "", ""), "error: no file\n");
  EXPECT_EQ(render_at("", {2, 3, 2, 4}, "error", "m", "", ""), "2:3: error: m\n");
}

TEST(Diagnostic, ALineThatIsNotThereIsNotQuoted) {
  EXPECT_EQ(render_at("f", {3, 1, 3, 2}, "error", "m", "i", "one\ntwo\n"), "f:3:1: error: m [i]\n");
  EXPECT_EQ(render_at("f", {3, 1, 3, 2}, "error", "m", "i", "one"), "f:3:1: error: m [i]\n");
}

TEST(Diagnostic, AnEmptyLineIsQuoted) {
  EXPECT_EQ(render_at("f", {2, 1, 2, 1}, "error", "m", "i", "a\n\nb"),
            "f:2:1: error: m [i]\n    2 | \n      | ^\n");
}

TEST(Diagnostic, ColumnsCountCodePoints) {
  EXPECT_EQ(render_at("f", {1, 9, 1, 16}, "error", "m", "i", "t = [\"−\", \"−31 °C\"]"),
            "f:1:9: error: m [i]\n"
            "    1 | t = [\"−\", \"−31 °C\"]\n"
            "      |         ^^^^^^^\n");
}

TEST(Diagnostic, TabsStayTabsSoThatTheCaretStandsUnder) {
  EXPECT_EQ(render_at("f", {1, 4, 1, 5}, "error", "m", "i", "\ta\tb"),
            "f:1:4: error: m [i]\n    1 | \ta\tb\n      | \t \t^\n");
}

TEST(Diagnostic, CaretsEndWithTheLineAndAreNeverNone) {
  EXPECT_EQ(render_at("f", {1, 3, 2, 2}, "error", "m", "i", "abcd\r\nef"),
            "f:1:3: error: m [i]\n    1 | abcd\n      |   ^^\n");
  EXPECT_EQ(render_at("f", {1, 99, 1, 120}, "error", "m", "i", "abcd"),
            "f:1:99: error: m [i]\n    1 | abcd\n      |     ^\n");
  EXPECT_EQ(render_at("f", {1, 2, 1, 2}, "error", "m", "i", "abcd"),
            "f:1:2: error: m [i]\n    1 | abcd\n      |  ^\n");
}

TEST(Diagnostic, LongLineNumbersWidenTheMargin) {
  const std::string text = std::string(123455, '\n') + "x";
  EXPECT_EQ(render_at("f", {123456, 1, 123456, 2}, "error", "m", "i", text),
            "f:123456:1: error: m [i]\n123456 | x\n       | ^\n");
}

RC_GTEST_PROP(Diagnostic, AnyPlaceInAnyTextRenders, (const std::string& text)) {
  const auto any = [] { return *rc::gen::inRange(-2, 200); };
  const Span span{any(), any(), any(), any()};
  const std::string shown = render_at("f", span, "error", "m", "i", text);
  const auto lines = std::count(shown.begin(), shown.end(), '\n');
  RC_ASSERT(lines == 1 || lines == 3);
  RC_ASSERT(shown.back() == '\n');
}

}  // namespace
}  // namespace stringwright
