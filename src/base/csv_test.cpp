#include "base/csv.hpp"

#include <gtest/gtest.h>

namespace stringwright {
namespace {

std::vector<std::vector<std::string>> texts(std::string_view csv) {
  Diagnostics out;
  std::vector<std::vector<std::string>> all;
  for (const auto& row : read_csv(csv, "f.csv", out).rows) {
    auto& line = all.emplace_back();
    for (const auto& cell : row) line.push_back(cell.text);
  }
  EXPECT_TRUE(out.empty()) << csv;
  return all;
}

using Rows = std::vector<std::vector<std::string>>;

// The seven rules of RFC 4180, section 2.
TEST(Csv, ReadsWhatTheStandardSays) {
  EXPECT_EQ(texts("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n"),
            (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(texts("aaa,bbb,ccc\nzzz,yyy,xxx"),
            (Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(texts("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx"),
            (Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}}));
  EXPECT_EQ(texts("\"aaa\",\"b\"\"bb\",\"ccc\""), (Rows{{"aaa", "b\"bb", "ccc"}}));
  EXPECT_EQ(texts("\xEF\xBB\xBFid,\n\n a , b\n"), (Rows{{"id", ""}, {"a", "b"}}));
}

TEST(Csv, KnowsWhereACellStands) {
  Diagnostics out;
  const auto table = read_csv("a,b\n\"x\ny\",6 mm²,z\n", "f.csv", out);
  ASSERT_EQ(table.rows.size(), 2u);
  EXPECT_EQ(table.rows[1][0].span, (Span{2, 1, 3, 3}));
  EXPECT_EQ(table.rows[1][1].span, (Span{3, 4, 3, 9}));  // columns are code points
  EXPECT_EQ(table.rows[1][2].span, (Span{3, 10, 3, 11}));
}

TEST(Csv, RefusesBrokenQuotes) {
  Diagnostics out;
  read_csv("a,\"b\nc", "f.csv", out);
  ASSERT_EQ(out.size(), 1u);
  EXPECT_EQ(out[0].id, "csv.open-quote");
  EXPECT_EQ(out[0].span.line, 1);
  EXPECT_EQ(out[0].span.column, 3);
  out.clear();
  read_csv("\"a\" b,c", "f.csv", out);
  ASSERT_EQ(out.size(), 1u);
  EXPECT_EQ(out[0].id, "csv.behind-quote");
  EXPECT_EQ(out[0].span.column, 4);
}

TEST(Csv, WhatIsWrittenReadsBack) {
  for (const std::string s :
       {"", "plain", "with, comma", "a \"quote\"", "two\nlines", " blanks "}) {
    Diagnostics out;
    const auto table = read_csv("x," + csv_cell(s), "f.csv", out);
    EXPECT_TRUE(out.empty());
    EXPECT_EQ(table.rows.at(0).at(1).text, s);
  }
}

}  // namespace
}  // namespace stringwright
