#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

/// The parts library, cut plan, design and bill of materials as a person runs them.
namespace {

namespace fs = std::filesystem;
using nlohmann::json;
using testing::HasSubstr;

struct Ran {
  int code = -1;
  std::string out, err;
};

std::string slurp(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

class Design : public ::testing::Test {
 protected:
  void SetUp() override {
    char name[] = "/tmp/stringwright-design-XXXXXX";
    folder = ::mkdtemp(name);
  }
  void TearDown() override {
    std::error_code ignored;
    fs::remove_all(folder, ignored);
  }

  /// With a library of its own, below the test's folder.
  Ran run(const std::string& arguments) {
    const std::string out = (folder / "stdout").string();
    const std::string err = (folder / "stderr").string();
    const std::string command = "cd '" + folder.string() + "' && XDG_DATA_HOME='" +
                                (folder / "data").string() + "' '" STRINGWRIGHT_BIN "' " +
                                arguments + " >'" + out + "' 2>'" + err + "' </dev/null";
    const int status = std::system(command.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, slurp(out), slurp(err)};
  }
  void spit(const std::string& name, const std::string& text) {
    std::ofstream(folder / name, std::ios::binary) << text;
  }
  void example(const std::string& name) {
    spit("job.toml", slurp(fs::path(STRINGWRIGHT_SOURCE_DIR) / "examples" / name));
  }

  json valid(const std::string& reply) {
    const json schema_json = json::parse(run("schema reply").out);
    const json document = json::parse(reply);
    valijson::Schema schema;
    valijson::SchemaParser parser;
    valijson::adapters::NlohmannJsonAdapter schema_adapter(schema_json);
    parser.populateSchema(schema_adapter, schema);
    valijson::Validator validator;
    valijson::ValidationResults results;
    valijson::adapters::NlohmannJsonAdapter adapter(document);
    const bool good = validator.validate(schema, adapter, &results);
    std::string why;
    valijson::ValidationResults::Error error;
    while (results.popError(error)) {
      for (const auto& part : error.context) why += part;
      why += ": " + error.description + "\n";
    }
    EXPECT_TRUE(good) << why;
    return document;
  }

  fs::path folder;
};

TEST_F(Design, PartsGoIntoYourLibraryAndIntoAJob) {
  spit("mine.csv",
       "kind,id,title,rating,v_dc_pole,poles,polarised,load_break,interrupt\n"
       "breaker,MINE20,my breaker,20 A,150 V,1,false,true,5 kA\n");
  const Ran added = run("parts import mine.csv");
  EXPECT_EQ(added.code, 0) << added.err;
  EXPECT_THAT(added.out, HasSubstr("1 added, 0 replaced"));
  EXPECT_THAT(run("parts import mine.csv").out, HasSubstr("0 added, 0 replaced, 1 as they were"));
  EXPECT_THAT(run("parts list breaker").out, HasSubstr("my breaker  (yours)"));
  EXPECT_THAT(run("parts show MINE20").out, HasSubstr("rating = \"20 A\""));
  EXPECT_EQ(valid(run("parts list --json").out)["kind"], "parts-list");
  EXPECT_EQ(valid(run("parts show MINE20 --json").out)["part"]["own"], true);

  // A job that names it reads it from there.
  example("north-cabin.toml");
  std::string job = slurp(folder / "job.toml");
  const std::string device = "slot = { device = \"breaker-20A\"";
  ASSERT_NE(job.find(device), std::string::npos);
  job.replace(job.find(device), device.size(), "slot = { device = \"MINE20\"");
  spit("job.toml", job);
  EXPECT_NE(run("check job.toml").code, 2);
  EXPECT_EQ(run("parts remove MINE20").code, 0);
  const Ran gone = run("check job.toml");
  EXPECT_EQ(gone.code, 2);
  EXPECT_THAT(gone.err, HasSubstr("MINE20"));
}

TEST_F(Design, AFileWithAMistakeLeavesTheLibraryAsItWas) {
  spit("bad.csv", "kind,id,rating\nfuse,GOOD,20 A\nfuse,BAD,20\n");
  const Ran r = run("parts import bad.csv");
  EXPECT_EQ(r.code, 2);
  EXPECT_THAT(r.err, HasSubstr("bad.csv:3:10: error:"));
  EXPECT_THAT(r.err, HasSubstr("Nothing was put into the library."));
  EXPECT_EQ(run("parts show GOOD").code, 2);
  EXPECT_EQ(valid(run("parts import bad.csv --json").out)["kind"], "parts-mistakes");
  spit("bad.toml", "[part.X]\nkind = \"fuse\"\nrating = 20\n");
  EXPECT_THAT(run("parts add bad.toml").err, HasSubstr("bad.toml:3:10"));
}

TEST_F(Design, ALibraryThatIsNoneIsSaidAndLeftAlone) {
  fs::create_directories(folder / "data" / "stringwright");
  spit("data/stringwright/parts.db", std::string(4096, 'x'));
  const Ran r = run("parts list");
  EXPECT_EQ(r.code, 2);
  EXPECT_THAT(r.err, HasSubstr("is not a parts library"));
  EXPECT_EQ(slurp(folder / "data" / "stringwright" / "parts.db"), std::string(4096, 'x'));
}

TEST_F(Design, CutsOfTheCabin) {
  example("north-cabin.toml");
  const Ran r = run("cuts job.toml --labels");
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_THAT(r.out, HasSubstr("both plugs unmated and in your hand"));
  EXPECT_THAT(r.out, HasSubstr("proved: no plan takes fewer cables"));
  EXPECT_THAT(r.out, HasSubstr("S1+ to A1 L1"));
  const json j = valid(run("cuts job.toml --json").out);
  EXPECT_EQ(j["proved"], true);
  // Need by hand: 1.2 + 4.4 + 2 · 0.75 and 5.6 + 2.4 + 2 · 0.75 m.
  EXPECT_NEAR(j["needed_m"].get<double>(), 7.1 + 9.5, 1e-9);
  ASSERT_EQ(j["cables"].size(), 2u);
  EXPECT_EQ(j["cables"][0]["pieces"].size(), 2u);
}

TEST_F(Design, FrontAndPlaceOfTheCabin) {
  example("north-cabin.toml");
  const Ran r = run("design job.toml --front");
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_THAT(r.out, HasSubstr("as it is"));
  EXPECT_THAT(r.out, HasSubstr("4 in series"));
  valid(run("design job.toml --front --json").out);
  const Ran place = run("cuts job.toml --place A1");
  EXPECT_EQ(place.code, 0) << place.err;
  EXPECT_THAT(place.out, HasSubstr("best"));
  EXPECT_THAT(place.out, HasSubstr("end lengths of its own"));
  EXPECT_EQ(run("cuts job.toml --place NONE").code, 1);
}

TEST_F(Design, BillOfMaterialsInThreeForms) {
  example("north-cabin.toml");
  const Ran text = run("bom job.toml");
  EXPECT_EQ(text.code, 0) << text.err;
  EXPECT_THAT(text.out, HasSubstr("module M365"));
  EXPECT_THAT(text.out, HasSubstr("twice the coldest string voltage"));
  valid(run("bom job.toml --json").out);
  EXPECT_EQ(run("bom job.toml -o list.csv").code, 0);
  EXPECT_THAT(slurp(folder / "list.csv"), testing::StartsWith("group,quantity,unit,part,what"));
  EXPECT_EQ(run("bom job.toml -o list.xlsx").code, 0);
  const std::string book = slurp(folder / "list.xlsx");
  EXPECT_EQ(book.substr(0, 2), "PK");
  EXPECT_EQ(run("bom job.toml -o again.xlsx").code, 0);
  EXPECT_EQ(slurp(folder / "again.xlsx"), book) << "same job, same bytes";
}

TEST_F(Design, FillsOpenChoicesAndLeavesAllElse) {
  example("fern-hut.toml");
  const std::string before = slurp(folder / "job.toml");
  const Ran shown = run("design job.toml");
  EXPECT_LE(shown.code, 1) << shown.err;
  EXPECT_EQ(slurp(folder / "job.toml"), before) << "nothing is written without --write";
  EXPECT_THAT(shown.out, HasSubstr("box.A1.slot.device"));
  const json j = valid(run("design job.toml --json").out);
  EXPECT_LE(j["after"]["fail"], j["before"]["fail"]);
  EXPECT_LT(j["after"]["cannot_tell"], j["before"]["cannot_tell"]);
  const Ran written = run("design job.toml --write");
  EXPECT_LE(written.code, 1);
  const std::string after = slurp(folder / "job.toml");
  EXPECT_NE(after, before);
  // Comments and order stay: without the values chosen, every line is there as it was.
  std::istringstream in(before);
  for (std::string line; std::getline(in, line);)
    if (line.find("choose") == std::string::npos) {
      EXPECT_THAT(after, HasSubstr(line + "\n"));
    }
  EXPECT_NE(run("check job.toml").code, 2);
}

}  // namespace
