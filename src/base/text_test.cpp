#include "base/text.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>

namespace stringwright::text {
namespace {

TEST(Text, TrimsAsciiBlanksOnly) {
  EXPECT_EQ(trim(" \t a b \r\n"), "a b");
  EXPECT_EQ(trim(" \n "), "");
  EXPECT_EQ(trim("\u00A0x"), "\u00A0x");
}

TEST(Text, SplitsAndJoins) {
  EXPECT_EQ(split("a,,b", ','), (std::vector<std::string_view>{"a", "", "b"}));
  EXPECT_EQ(split("", ','), (std::vector<std::string_view>{""}));
  EXPECT_EQ(join({"a", "b", "c"}, ", "), "a, b, c");
  EXPECT_EQ(join({}, ", "), "");
}

RC_GTEST_PROP(Text, JoinUndoesSplit, (const std::string& s)) {
  std::vector<std::string> parts;
  for (const auto part : split(s, ';')) parts.emplace_back(part);
  RC_ASSERT(join(parts, ";") == s);
}

TEST(Text, BeginningsAndEnds) {
  EXPECT_TRUE(starts_with("run.R2", "run."));
  EXPECT_FALSE(starts_with("ru", "run."));
  EXPECT_TRUE(ends_with("6 mm²", "mm²"));
  EXPECT_FALSE(ends_with("²", "mm²"));
}

TEST(Text, ReplacesWithoutReadingItsOwnOutput) {
  EXPECT_EQ(replace_all("aaa", "a", "aa"), "aaaaaa");
  EXPECT_EQ(replace_all("x-y", "-", "−"), "x−y");
  EXPECT_EQ(replace_all("x", "", "y"), "x");
}

TEST(Text, CountsCodePoints) {
  EXPECT_EQ(length("Ω·m"), 3U);
  EXPECT_EQ(length("°C"), 2U);
  EXPECT_EQ(length("\U0001F50C"), 1U);
  EXPECT_EQ(length(""), 0U);
}

// Well-formed byte sequences: The Unicode Standard, table 3-7, from memory.
TEST(Text, BrokenBytesCountOneEach) {
  EXPECT_EQ(length("\xE2\x88"), 2U);          // cut off
  EXPECT_EQ(length("\xC0\xAF"), 2U);          // overlong
  EXPECT_EQ(length("\xE0\x80\xAF"), 3U);      // overlong
  EXPECT_EQ(length("\xED\xA0\x80"), 3U);      // a surrogate
  EXPECT_EQ(length("\xF4\x90\x80\x80"), 4U);  // beyond U+10FFFF
  EXPECT_EQ(length("\x80"), 1U);
  EXPECT_EQ(length("\xFFx"), 2U);
}

RC_GTEST_PROP(Text, PrintableIsWellFormedAndKeepsColumns, (const std::string& s)) {
  const std::string clean = printable(s);
  RC_ASSERT(length(clean) == length(s));
  RC_ASSERT(printable(clean) == clean);
}

TEST(Text, PrintableReplacesWhatATerminalWouldObey) {
  EXPECT_EQ(printable("a\x1B[2Jb\tc"), "a\uFFFD[2Jb\tc");
  EXPECT_EQ(printable("\xC2\x9B\x7F"), "\uFFFD\uFFFD");
}

TEST(Text, QuotesAndCutsOff) {
  EXPECT_EQ(text::quoted("85 ft"), "'85 ft'");
  EXPECT_EQ(text::quoted(std::string(60, 'x')), "'" + std::string(60, 'x') + "'");
  EXPECT_EQ(text::quoted(std::string(61, 'x')), "'" + std::string(60, 'x') + "…'");
}

TEST(Text, FixedPoint) {
  EXPECT_EQ(fixed(141.93, 1), "141.9");
  EXPECT_EQ(fixed(-31, 0), "−31");
  EXPECT_EQ(fixed(-0.004, 2), "0.00");
  EXPECT_EQ(fixed(-0.0, 1), "0.0");
  EXPECT_EQ(fixed(1e9, 0), "1000000000");
}

// By hand 11.35 A · 2 · 1.25 = 28.375 A, which a person rounds to 28.38 A.
TEST(Text, HalvesRoundAwayFromZeroWhateverTheFloatNoise) {
  EXPECT_EQ(fixed(28.375, 2), "28.38");
  EXPECT_EQ(fixed(1.005, 2), "1.01");  // 1.00499999999999989...
  EXPECT_EQ(fixed(-0.125, 2), "−0.13");
  EXPECT_EQ(fixed(2.5, 0), "3");
  EXPECT_EQ(fixed(0.4999999, 0), "0");
}

TEST(Text, WhatIsNotFiniteHasAWord) {
  const double inf = std::numeric_limits<double>::infinity();
  EXPECT_EQ(fixed(inf, 2), "∞");
  EXPECT_EQ(shortest(-inf), "−∞");
  EXPECT_EQ(fixed(std::nan(""), 2), "not a number");
}

TEST(Text, Shortest) {
  EXPECT_EQ(shortest(2), "2");
  EXPECT_EQ(shortest(1.25), "1.25");
  EXPECT_EQ(shortest(1.0 / 3), "0.333333");
  EXPECT_EQ(shortest(1.15678, 4), "1.157");
  EXPECT_EQ(shortest(0.0001), "0.0001");
  EXPECT_EQ(shortest(123456789, 4), "123456789");
  EXPECT_EQ(shortest(-1.5e-7), "−1.5e−7");
  EXPECT_EQ(shortest(2e12), "2e12");
  EXPECT_EQ(shortest(0), "0");
  EXPECT_EQ(shortest(9.9999999), "10");
}

RC_GTEST_PROP(Text, ShortestReadsBack, (double value)) {
  RC_PRE(std::isfinite(value) && std::fabs(value) < 1e300);
  const double back = std::strtod(replace_all(shortest(value, 9), "−", "-").c_str(), nullptr);
  RC_ASSERT(std::fabs(back - value) <= 1e-8 * std::fabs(value));
}

TEST(Text, NearestIsWhatWasMeant) {
  const std::vector<std::string> keys{"length", "wire", "segment", "v_oc", "v_mp"};
  EXPECT_EQ(nearest("lenght", keys), "length");  // neighbours swapped
  EXPECT_EQ(nearest("V_OC", keys), "v_oc");
  EXPECT_EQ(nearest("segments", keys), "segment");
  EXPECT_EQ(nearest("colour", keys), std::nullopt);
  EXPECT_EQ(nearest("x", keys), std::nullopt);
  EXPECT_EQ(nearest("", keys), std::nullopt);
  EXPECT_EQ(nearest("wire", {}), std::nullopt);
}

TEST(Text, NearestPrefersTheCommonBeginning) {
  EXPECT_EQ(nearest("XHW-2", {"RHW-2", "XHHW-2"}), "XHHW-2");
}

RC_GTEST_PROP(Text, OneEditInALongWordIsFound, ()) {
  std::string word = *rc::gen::container<std::string>(12, rc::gen::inRange<char>('a', 'z'));
  const std::string meant = word;
  word[*rc::gen::inRange<std::size_t>(0, word.size())] = 'z';
  RC_ASSERT(nearest(word, {"0123456789", meant}) == meant);
}

TEST(Text, CsvRows) {
  EXPECT_EQ(csv_row("a,b,,c"), (std::vector<std::string>{"a", "b", "", "c"}));
  EXPECT_EQ(csv_row("\"a,b\",\"say \"\"so\"\"\"\r\n"),
            (std::vector<std::string>{"a,b", "say \"so\""}));
  EXPECT_EQ(csv_row(""), (std::vector<std::string>{""}));
  EXPECT_EQ(csv_row("a,"), (std::vector<std::string>{"a", ""}));
}

RC_GTEST_PROP(Text, CsvRowReadsWhatIsQuoted, (const std::vector<std::string>& cells)) {
  RC_PRE(!cells.empty());
  std::vector<std::string> written;
  for (const auto& cell : cells) written.push_back("\"" + replace_all(cell, "\"", "\"\"") + "\"");
  RC_ASSERT(csv_row(join(written, ",")) == cells);
}

}  // namespace
}  // namespace stringwright::text
