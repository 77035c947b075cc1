#include "job/parts_csv.hpp"

#include <gtest/gtest.h>

#include "job/flat.hpp"
#include "job/parts_file.hpp"
#include "parts/store.hpp"

namespace stringwright::job {
namespace {

std::vector<std::string> flat(const parts::Library& library) {
  return Flat::of(PartsFile{library});
}

parts::Library catalogue() {
  std::string text;
  for (const auto& row : parts::default_rows()) text += row.text;
  auto reading = read_library(text, "data/parts");
  for (const auto& d : reading.diagnostics) ADD_FAILURE() << render(d, text);
  return std::move(reading.library);
}

TEST(PartsCatalogue, ReadsWithoutAMistakeOrAQuestion) {
  const auto library = catalogue();
  EXPECT_EQ(library.modules.size() + library.parts.size(), parts::default_rows().size());
  for (const auto& p : library.parts) {
    EXPECT_TRUE(p.kind) << p.id;
    EXPECT_TRUE(p.title) << p.id;
    // A torque is on the marking of a product, and the catalogue has none.
    for (const auto* t : {&p.line, &p.load, &p.terminal, &p.minus, &p.bus_out})
      EXPECT_FALSE(t->torque) << p.id;
  }
}

TEST(PartsCatalogue, EveryKindIsThere) {
  const auto library = catalogue();
  for (int i = 0; !names(static_cast<parts::PartKind*>(nullptr), i).first.empty(); ++i) {
    const auto [name, kind] = names(static_cast<parts::PartKind*>(nullptr), i);
    bool found = false;
    for (const auto& p : library.parts) found = found || *p.kind == kind;
    EXPECT_TRUE(found) << name;
  }
}

TEST(PartsCsv, TheCatalogueGoesThroughATableAndBack) {
  const auto library = catalogue();
  const std::string csv = write_library_csv(library);
  const auto back = read_library_csv(csv, "parts.csv");
  for (const auto& d : back.diagnostics) ADD_FAILURE() << render(d, csv);
  EXPECT_EQ(flat(back.library), flat(library));
  const auto toml = read_library(write_library(library), "parts.toml");
  EXPECT_EQ(flat(toml.library), flat(library));
}

struct Bad {
  const char* name;
  const char* csv;
  const char* id;
  int line, column;
};

class PartsCsvMistakes : public testing::TestWithParam<Bad> {};

TEST_P(PartsCsvMistakes, HaveOneMessageAtTheirCellAndNothingIsTaken) {
  const auto& bad = GetParam();
  const auto reading = read_library_csv(bad.csv, "parts.csv");
  EXPECT_TRUE(reading.library.parts.empty() && reading.library.modules.empty());
  ASSERT_EQ(reading.diagnostics.size(), 1u);
  const auto& d = reading.diagnostics[0];
  EXPECT_EQ(d.id, bad.id) << render(d, bad.csv);
  EXPECT_EQ(d.file, "parts.csv");
  EXPECT_EQ(d.span.line, bad.line) << render(d, bad.csv);
  EXPECT_EQ(d.span.column, bad.column) << render(d, bad.csv);
}

INSTANTIATE_TEST_SUITE_P(
    All, PartsCsvMistakes,
    testing::Values(
        Bad{"empty", "", "job.csv-header", 1, 1},
        Bad{"no_id_column", "kind,title\nfuse,x\n", "job.csv-header", 1, 1},
        Bad{"unknown_column", "kind,id,raiting\nfuse,a,20 A\n", "job.unknown-key", 1, 9},
        Bad{"column_twice", "kind,id,kind\nfuse,a,fuse\n", "job.duplicate", 1, 9},
        Bad{"unit_missing", "kind,id,rating\nfuse,a,20 A\nfuse,b,20\n", "job.wrong-unit", 3, 8},
        Bad{"wrong_unit", "kind,id,rating\nfuse,a,20 V\n", "job.wrong-unit", 2, 8},
        Bad{"out_of_range", "kind,id,poles\nfuse,a,9\n", "job.out-of-range", 2, 8},
        Bad{"not_whole", "kind,id,poles\nfuse,a,1.5\n", "job.wrong-type", 2, 8},
        Bad{"unknown_kind", "kind,id\nfuze,a\n", "job.unknown-choice", 2, 1},
        Bad{"of_another_kind", "kind,id,slots\nfuse,a,4\n", "job.part-kind", 2, 8},
        Bad{"in_a_terminal", "kind,id,line.torque\nfuse,a,2 A\n", "job.wrong-unit", 2, 8},
        Bad{"id_twice", "kind,id\nfuse,a\nbreaker,a\n", "job.duplicate", 3, 9},
        Bad{"no_id", "kind,id,title\nfuse,,x\n", "job.missing", 2, 6},
        Bad{"too_many_cells", "kind,id\nfuse,a,x\n", "job.csv-row", 2, 8},
        Bad{"open_quote", "kind,id\nfuse,\"a\n", "csv.open-quote", 2, 6},
        Bad{"price_without_date", "kind,id,price\nfuse,a,3 EUR\n", "job.missing", 2, 8},
        Bad{"bad_price", "kind,id,price,price_date\nfuse,a,cheap,2031-05-02\n", "job.bad-price",
            2, 8}),
    [](const auto& bad) { return std::string(bad.param.name); });

TEST(PartsCsv, AllMistakesAreSaidAtOnce) {
  const auto reading =
      read_library_csv("kind,id,rating,poles\nfuse,a,20,1\nfuse,b,x,99\n", "p.csv");
  EXPECT_EQ(reading.diagnostics.size(), 3u);
}

TEST(PartsCsv, ListsAndTruthsAndQuotes) {
  const auto reading = read_library_csv(
      "kind,id,outline,title\nbox,b,250 mm; 186 mm,\"four, \"\"small\"\"\"\n\nmodule,,,\n",
      "p.csv");
  ASSERT_EQ(reading.diagnostics.size(), 1u) << "a module without an id";
  const auto good = read_library_csv(
      "kind,id,outline,title,polarised\nbox,b,250 mm; 186 mm,\"four, \"\"small\"\"\",\n"
      "breaker,q,,,false\n",
      "p.csv");
  for (const auto& d : good.diagnostics) ADD_FAILURE() << d.message;
  ASSERT_EQ(good.library.parts.size(), 2u);
  EXPECT_EQ(*good.library.parts[0].title, "four, \"small\"");
  EXPECT_DOUBLE_EQ((*good.library.parts[0].outline)[1].in(units::millimetres), 186);
  EXPECT_FALSE(*good.library.parts[1].polarised);
}

}  // namespace
}  // namespace stringwright::job
