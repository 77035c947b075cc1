#include <gtest/gtest.h>

#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

/// The built program as a person runs it: what it prints, how it ends, what it leaves on the disk.
namespace {

namespace fs = std::filesystem;
using nlohmann::json;

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

void spit(const fs::path& path, const std::string& text) {
  std::ofstream(path, std::ios::binary) << text;
}

class Cli : public ::testing::Test {
 protected:
  void SetUp() override {
    char name[] = "/tmp/stringwright-test-XXXXXX";
    folder = ::mkdtemp(name);
  }
  void TearDown() override {
    std::error_code ignored;
    fs::permissions(folder, fs::perms::owner_all, fs::perm_options::add, ignored);
    fs::remove_all(folder, ignored);
  }

  Ran run(const std::string& arguments) {
    const std::string out = (folder / "stdout").string();
    const std::string err = (folder / "stderr").string();
    // The library of whoever runs the tests is none of their business.
    const std::string command = "cd '" + folder.string() + "' && XDG_DATA_HOME='" +
                                (folder / "data").string() + "' '" STRINGWRIGHT_BIN "' " +
                                arguments + " >'" + out + "' 2>'" + err + "' </dev/null";
    const int status = std::system(command.c_str());
    Ran r{WIFEXITED(status) ? WEXITSTATUS(status) : -1, slurp(out), slurp(err)};
    fs::remove(out);
    fs::remove(err);
    return r;
  }

  std::string cabin() {
    return slurp(fs::path(STRINGWRIGHT_SOURCE_DIR) / "examples/north-cabin.toml");
  }

  /// The cabin with one stretch of its text put otherwise.
  void write_cabin(const std::string& from = "", const std::string& to = "") {
    std::string text = cabin();
    if (!from.empty()) {
      ASSERT_NE(text.find(from), std::string::npos) << from;
      text.replace(text.find(from), from.size(), to);
    }
    spit(folder / "job.toml", text);
  }

  void expect_valid(const std::string& reply) {
    const json schema_json = json::parse(run("schema reply").out);
    const json document = json::parse(reply);
    valijson::Schema schema;
    valijson::SchemaParser parser;
    valijson::adapters::NlohmannJsonAdapter schema_adapter(schema_json);
    parser.populateSchema(schema_adapter, schema);
    valijson::Validator validator;
    valijson::ValidationResults results;
    valijson::adapters::NlohmannJsonAdapter adapter(document);
    const bool valid = validator.validate(schema, adapter, &results);
    std::string why;
    valijson::ValidationResults::Error error;
    while (results.popError(error)) {
      for (const auto& part : error.context) why += part;
      why += ": " + error.description + "\n";
    }
    EXPECT_TRUE(valid) << why;
  }

  static const json* finding(const json& reply, const std::string& id) {
    for (const auto& f : reply["findings"])
      if (f["id"] == id) return &f;
    return nullptr;
  }

  fs::path folder;
};

TEST_F(Cli, HelpSaysTheDangerAndTheExitCodes) {
  const Ran r = run("--help");
  EXPECT_EQ(r.code, 0);
  EXPECT_NE(r.out.find("live as long as there is light"), std::string::npos);
  EXPECT_NE(r.out.find("1 a fail not waived or a cannot-tell"), std::string::npos);
  for (const char* command : {"check", "papers", "events", "netlist", "labels", "new", "explain", "schema"})
    EXPECT_NE(r.out.find(command), std::string::npos) << command;
}

TEST_F(Cli, UsageMistakesAreInput) {
  EXPECT_EQ(run("").code, 2);
  EXPECT_EQ(run("chek job.toml").code, 2);
  EXPECT_EQ(run("check").code, 2);
  EXPECT_EQ(run("check nothing-here.toml").code, 2);
  EXPECT_NE(run("check nothing-here.toml").err.find("nothing-here.toml: no such file"),
            std::string::npos);
  EXPECT_EQ(run("check .").code, 2);
}

TEST_F(Cli, CabinHoldsByTheCoefficientMethod) {
  write_cabin();
  const Ran r = run("check job.toml");
  EXPECT_EQ(r.code, 0) << r.out << r.err;
  EXPECT_EQ(r.err, "");
  EXPECT_NE(r.out.find("0 fail · 0 cannot tell"), std::string::npos) << r.out;
  EXPECT_NE(r.out.find("rules NOT LOOKED AT"), std::string::npos);
  EXPECT_EQ(r.out.find('\x1b'), std::string::npos) << "colour without a terminal";
}

TEST_F(Cli, ANumberChangedChangesTheRightThing) {
  write_cabin("v_max = \"150 V\"", "v_max = \"140 V\"");
  const Ran r = run("check job.toml");
  EXPECT_EQ(r.code, 1);
  EXPECT_NE(r.out.find("voltage.equipment-input@CC1.PV1"), std::string::npos);
  EXPECT_NE(r.out.find("1 fail"), std::string::npos) << r.out;
}

TEST_F(Cli, EventsOfTheCabinSayWhatTripsAndWhatNever) {
  write_cabin();
  const Ran r = run("events job.toml");
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_NE(r.out.find("reversed@S1"), std::string::npos);
  EXPECT_NE(r.out.find("nothing trips until dark"), std::string::npos);
  EXPECT_NE(r.out.find("2.0 × Voc"), std::string::npos);
  std::istringstream lines(r.out);
  for (std::string line; std::getline(lines, line);) {
    std::size_t columns = 0;
    for (const char c : line) columns += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    EXPECT_LE(columns, 132u) << line;
  }
  const Ran again = run("events job.toml");
  EXPECT_EQ(r.out, again.out);
  const Ran as_json = run("events job.toml --json");
  EXPECT_EQ(as_json.code, 0);
  expect_valid(as_json.out);
  const json reply = json::parse(as_json.out);
  EXPECT_GT(reply["rows"].size(), 20u);
  EXPECT_EQ(reply["skies"].size(), 14u);
  for (const auto& row : reply["rows"]) EXPECT_TRUE(row["solved"]) << row["id"];
}

TEST_F(Cli, OneEventIsDrawnAndWrittenAsANetlist) {
  write_cabin();
  const Ran one = run("events job.toml --event reversed@S2 -o reversed.svg");
  EXPECT_EQ(one.code, 0) << one.err;
  EXPECT_NE(slurp(folder / "reversed.svg").find("REVERSED"), std::string::npos);
  EXPECT_EQ(run("events job.toml --curves -o curves.svg").code, 0);
  EXPECT_NE(slurp(folder / "curves.svg").find("maximum power"), std::string::npos);
  EXPECT_EQ(run("events job.toml -o nothing.svg").code, 2);
  const Ran unknown = run("events job.toml --event reversd@S2");
  EXPECT_EQ(unknown.code, 2);
  EXPECT_NE(unknown.err.find("did you mean 'reversed'?"), std::string::npos) << unknown.err;
  const Ran net = run("netlist job.toml --event short-string@S1 --sun 800");
  EXPECT_EQ(net.code, 0) << net.err;
  EXPECT_NE(net.out.find(": A1.Q1\n"), std::string::npos);
  EXPECT_NE(net.out.find("print i(vi"), std::string::npos);
  EXPECT_EQ(run("netlist job.toml").code, 0);
}

TEST_F(Cli, FindingsNameTheEventThatDecides) {
  write_cabin();
  const json reply = json::parse(run("check job.toml --json").out);
  const json* f = finding(reply, "event.device-recovery-voltage@A1.Q1");
  ASSERT_TRUE(f);
  EXPECT_EQ((*f)["verdict"], "caution");
  EXPECT_NE((*f)["also"].dump().find("reversed@S"), std::string::npos);
  f = finding(reply, "event.fault-persists@CC1.PV1");
  ASSERT_TRUE(f);
  EXPECT_EQ((*f)["verdict"], "caution");
}

TEST_F(Cli, APolarisedBreakerFailsByTheDirectionOfAnEvent) {
  write_cabin("polarised = false", "polarised = true");
  const json reply = json::parse(run("check job.toml --json").out);
  const json* f = finding(reply, "event.device-clears@A1.Q1");
  ASSERT_TRUE(f);
  EXPECT_EQ((*f)["verdict"], "fail");
}

TEST_F(Cli, TheTableMethodRefusesTheCabin) {
  write_cabin("voltage_by = \"coefficient\"", "voltage_by = \"table\"");
  const Ran r = run("check job.toml --json");
  EXPECT_EQ(r.code, 1);
  const json reply = json::parse(r.out);
  const json* f = finding(reply, "voltage.equipment-input@CC1.PV1");
  ASSERT_TRUE(f);
  EXPECT_EQ((*f)["verdict"], "fail");
}

TEST_F(Cli, AMissingFactIsNeverAPass) {
  write_cabin("blocks_reverse = true", "# blocks_reverse left out");
  const Ran r = run("check job.toml --json");
  EXPECT_EQ(r.code, 1);
  const json reply = json::parse(r.out);
  const json* f = finding(reply, "ocpd.string-needed@S1");
  ASSERT_TRUE(f);
  EXPECT_EQ((*f)["verdict"], "cannot-tell");
}

TEST_F(Cli, AWaivedFailIsFineAndPrinted) {
  write_cabin("v_max = \"150 V\"", "v_max = \"140 V\"");
  std::string text = slurp(folder / "job.toml");
  text.insert(text.find("[job]"),
              "waive = [{ finding = \"voltage.equipment-input@CC1.PV1\", reason = \"trial on the "
              "bench only\", by = "
              "\"the designer\", date = \"2031-05-02\" }]\n");
  spit(folder / "job.toml", text);
  const Ran r = run("check job.toml");
  EXPECT_NE(r.out.find("WAIVED"), std::string::npos) << r.out << r.err;
  EXPECT_NE(r.out.find("trial on the bench only"), std::string::npos);
}

TEST_F(Cli, BadInputGivesOneMessageEachAndNoFiles) {
  write_cabin("t_min       = \"-31 °C\"", "t_min       = \"-31 V\"");
  std::string text = slurp(folder / "job.toml");
  text.replace(text.find("fuse_max"), 8, "fuse_mx");
  spit(folder / "job.toml", text);
  const Ran r = run("papers job.toml -o out");
  EXPECT_EQ(r.code, 2);
  EXPECT_NE(r.err.find("[job.wrong-unit]"), std::string::npos) << r.err;
  EXPECT_NE(r.err.find("did you mean 'fuse_max'?"), std::string::npos) << r.err;
  EXPECT_EQ(r.out, "");
  EXPECT_FALSE(fs::exists(folder / "out"));
}

TEST_F(Cli, PapersAreWholeRepeatableAndReplaced) {
  write_cabin();
  const Ran first = run("papers job.toml -o out");
  EXPECT_EQ(first.code, 0) << first.out << first.err;
  std::map<std::string, std::string> bytes;
  for (const auto& f : fs::directory_iterator(folder / "out"))
    bytes[f.path().filename()] = slurp(f.path());
  EXPECT_TRUE(bytes.count("papers.pdf"));
  EXPECT_GE(bytes.size(), 7u);
  EXPECT_EQ(bytes["papers.pdf"].substr(0, 5), "%PDF-");
  run("papers job.toml -o out");
  std::size_t again = 0;
  for (const auto& f : fs::directory_iterator(folder / "out")) {
    EXPECT_TRUE(bytes[f.path().filename()] == slurp(f.path())) << f.path();
    ++again;
  }
  EXPECT_EQ(again, bytes.size()) << "left-overs of the writing";
}

TEST_F(Cli, PapersGoNowhereTheyCannot) {
  write_cabin();
  spit(folder / "taken", "a file stands where the folder should be");
  const Ran r = run("papers job.toml -o taken");
  EXPECT_EQ(r.code, 2);
  EXPECT_NE(r.err.find("taken: cannot be made"), std::string::npos) << r.err;
}

TEST_F(Cli, ANewJobReadsAndIsNeverOverwritten) {
  EXPECT_EQ(run("new mine.toml").code, 0);
  const Ran r = run("check mine.toml");
  EXPECT_EQ(r.err, "");
  EXPECT_LE(r.code, 1);
  spit(folder / "mine.toml", "precious");
  EXPECT_EQ(run("new mine.toml").code, 2);
  EXPECT_EQ(slurp(folder / "mine.toml"), "precious");
}

TEST_F(Cli, ExplainRuleAndFinding) {
  write_cabin();
  const Ran rule = run("explain conductor.terminal-ampacity");
  EXPECT_EQ(rule.code, 0) << rule.err;
  EXPECT_NE(rule.out.find("690.8(B)(1)"), std::string::npos) << rule.out;
  const Ran found = run("explain conductor.terminal-ampacity@OUT job.toml");
  EXPECT_EQ(found.code, 0) << found.err;
  EXPECT_NE(found.out.find("require"), std::string::npos) << found.out;
  EXPECT_EQ(run("explain conductor.terminal-ampacity@OUT").code, 2);
  const Ran near = run("explain conductor.terminal-ampacty");
  EXPECT_EQ(near.code, 2);
  EXPECT_NE(near.err.find("did you mean 'conductor.terminal-ampacity'?"), std::string::npos)
      << near.err;
}

TEST_F(Cli, EveryReplyKeepsToTheSchema) {
  write_cabin();
  expect_valid(run("check job.toml --json").out);
  expect_valid(run("papers job.toml -o out --json").out);
  expect_valid(run("explain ocpd.rating-window --json").out);
  expect_valid(run("explain ocpd.rating-window@A1.Q1 job.toml --json").out);
  expect_valid(run("new n.toml --json").out);
  write_cabin("v_oc = \"40.9 V\"", "v_oc = \"40.9 A\"");
  const Ran bad = run("check job.toml --json");
  EXPECT_EQ(bad.code, 2);
  expect_valid(bad.out);
  EXPECT_FALSE(json::parse(bad.out)["usable"].get<bool>());
}

TEST_F(Cli, CompareSaysOnlyWhatChanges) {
  const Ran r = run("compare '" STRINGWRIGHT_SOURCE_DIR "/examples/school-roof.toml'");
  EXPECT_EQ(r.code, 0) << r.err;
  for (const auto* name : {"NEC 2014", "NEC 2017", "NEC 2020  (the job's)", "NEC 2023"})
    EXPECT_NE(r.out.find(name), std::string::npos) << name << "\n" << r.out;
  EXPECT_NE(r.out.find("findings say the same in all of them"), std::string::npos);
  EXPECT_NE(r.out.find("IEC is a family of its own"), std::string::npos);
  EXPECT_EQ(r.out.find("IEC 62548"), std::string::npos) << "families are not mixed";
  const Ran reply = run("compare '" STRINGWRIGHT_SOURCE_DIR "/examples/school-roof.toml' --json");
  expect_valid(reply.out);
  const json j = json::parse(reply.out);
  EXPECT_EQ(j["editions"].size(), 4U);
  EXPECT_TRUE(j["editions"][2]["own"]);
}

// The adder over a roof goes at 3/4 in in 2023, at 7/8 in in 2017 and 2020, by height in 2014.
TEST_F(Cli, CompareNamesTheEditionsOfARoof) {
  write_cabin("{ in = \"EMT\", size = \"1 in\", length = \"1.5 m\"",
              "{ in = \"EMT\", size = \"1 in\", above_roof = \"20 mm\", length = \"1.5 m\"");
  std::string text = slurp(folder / "job.toml");
  while (text.find("XHHW-2") != std::string::npos) text.replace(text.find("XHHW-2"), 6, "THWN-2");
  spit(folder / "job.toml", text);
  const Ran r = run("compare job.toml");
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_NE(r.out.find("in NEC 2017 and 2020"), std::string::npos) << r.out;
}

TEST_F(Cli, IecIsComparedAlone) {
  write_cabin();
  const Ran r = run("compare job.toml --family iec");
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_NE(r.out.find("IEC 62548-1:2023"), std::string::npos) << r.out;
  EXPECT_NE(r.out.find("of the other family"), std::string::npos) << r.out;
  EXPECT_EQ(r.out.find("NEC 2017"), std::string::npos) << r.out;
}

TEST_F(Cli, FlipsStandUnderFindings) {
  write_cabin();
  const Ran plain = run("check job.toml");
  const Ran r = run("check job.toml --flips");
  EXPECT_EQ(r.code, plain.code);
  EXPECT_EQ(plain.out.find("~ "), std::string::npos);
  EXPECT_NE(r.out.find("~ Holds"), std::string::npos) << r.out;
  const Ran reply = run("check job.toml --flips --json");
  expect_valid(reply.out);
  const json j = json::parse(reply.out);
  const json* f = finding(j, "voltage.equipment-input@CC1.PV1");
  ASSERT_TRUE(f);
  EXPECT_FALSE((*f)["flips"].empty());
}

TEST_F(Cli, ExplainSaysFormulaSourceAndStatusByEdition) {
  const Ran r = run("explain conductor.terminal-ampacity");
  EXPECT_EQ(r.code, 0) << r.err;
  EXPECT_NE(r.out.find("I_req = k_dty · I_max"), std::string::npos) << r.out;
  EXPECT_NE(r.out.find("k_sun = 1.25"), std::string::npos) << r.out;
  EXPECT_NE(r.out.find("Not asked in IEC 62548-1:2023"), std::string::npos) << r.out;
  expect_valid(run("explain conductor.terminal-ampacity --json").out);
}

}  // namespace
