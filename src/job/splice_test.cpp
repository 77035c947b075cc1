#include "job/splice.hpp"

#include <gtest/gtest.h>

namespace stringwright::job {
namespace {

TEST(Splice, ChangesOnlyWhatItSays) {
  const std::string text = "# words: ä − 6 mm²\na = \"choose\"   # why\nb = { c = \"choose\" }\n";
  const auto made = splice(text, {{{3, 11, 3, 19}, "\"ü\""}, {{2, 5, 2, 13}, "\"x y\""}});
  ASSERT_TRUE(made) << made.failure().message;
  EXPECT_EQ(*made, "# words: ä − 6 mm²\na = \"x y\"   # why\nb = { c = \"ü\" }\n");
  EXPECT_EQ(*splice(text, {}), text);
}

TEST(Splice, ColumnsAreCodePoints) {
  EXPECT_EQ(*splice("²²x²", {{{1, 3, 1, 4}, "y"}}), "²²y²");
  EXPECT_EQ(*splice("²²", {{{1, 3, 1, 3}, "z"}}), "²²z");
}

TEST(Splice, RefusesWhatIsNotThereAndWhatOverlaps) {
  const std::string text = "abc\ndef";
  for (const Span s :
       {Span{}, Span{1, 5, 1, 6}, Span{3, 1, 3, 2}, Span{1, 3, 1, 2}, Span{2, 1, 2, 9}})
    EXPECT_FALSE(splice(text, {{s, "x"}})) << s.line << ":" << s.column;
  EXPECT_FALSE(splice(text, {{{1, 1, 1, 3}, "x"}, {{1, 2, 1, 4}, "y"}}));
  EXPECT_EQ(*splice(text, {{{1, 1, 1, 2}, "x"}, {{1, 2, 1, 3}, "y"}}), "xyc\ndef");
}

TEST(Splice, AFurtherKeyGoesWhereItsTableIs) {
  const std::string braces = "slot = { device = \"choose\", x = 1 }\n";
  const Span in_braces{1, 19, 1, 27};
  EXPECT_EQ(*splice(braces, {{in_braces, "\"B\""}, key_behind(braces, in_braces, "poles = 2")}),
            "slot = { device = \"B\", poles = 2, x = 1 }\n");
  const std::string table = "[box.A.slot]\ndevice = \"choose\"  # remark {\nnext = 1\n";
  const Span alone{2, 10, 2, 18};
  EXPECT_EQ(*splice(table, {{alone, "\"B\""}, key_behind(table, alone, "poles = 2")}),
            "[box.A.slot]\ndevice = \"B\"  # remark {\npoles = 2\nnext = 1\n");
  const std::string dotted = "slot.device = \"choose\"\nout = \"OUT\"\n";
  const Span of_dotted{1, 15, 1, 23};
  EXPECT_EQ(*splice(dotted, {{of_dotted, "\"B\""}, key_behind(dotted, of_dotted, "poles = 2")}),
            "slot.device = \"B\"\nslot.poles = 2\nout = \"OUT\"\n");
  const std::string last = "device = \"choose\"";
  const Span end{1, 10, 1, 18};
  EXPECT_EQ(*splice(last, {{end, "\"B\""}, key_behind(last, end, "poles = 2")}),
            "device = \"B\"\npoles = 2");
}

}  // namespace
}  // namespace stringwright::job
