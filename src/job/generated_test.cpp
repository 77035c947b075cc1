// data/schema/job.schema.json and docs/jobfile.md are what the field lists say.
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "base/text.hpp"
#include "job/read.hpp"

namespace stringwright::job {
namespace {

/// Compares line by line; with STRINGWRIGHT_REGENERATE=1 writes the file instead.
void expect_generated(const std::string& path, const std::string& generated) {
  const auto file = std::filesystem::path(STRINGWRIGHT_SOURCE_DIR) / path;
  if (std::getenv("STRINGWRIGHT_REGENERATE")) {
    std::filesystem::create_directories(file.parent_path());
    std::ofstream(file, std::ios::binary) << generated;
    return;
  }
  std::ifstream in(file, std::ios::binary);
  std::stringstream all;
  all << in.rdbuf();
  const std::string kept = all.str();
  if (kept == generated) return;

  const auto before = text::split(kept, '\n');
  const auto after = text::split(generated, '\n');
  std::size_t line = 0;
  while (line < before.size() && line < after.size() && before[line] == after[line]) ++line;
  const auto shown = [&](const auto& lines) {
    return line < lines.size() ? std::string(lines[line]) : "(end)";
  };
  ADD_FAILURE() << path << " is not what the field lists say, from line " << line + 1
                << " on:\n  - " << shown(before) << "\n  + " << shown(after)
                << "\nTo write it again: STRINGWRIGHT_REGENERATE=1 build/dev/bin/test_job "
                   "--gtest_filter='Generated.*'";
}

TEST(Generated, Schema) { expect_generated("data/schema/job.schema.json", schema_json()); }
TEST(Generated, ReferencePage) { expect_generated("docs/jobfile.md", reference_markdown()); }

TEST(Generated, SaySoInTheirFirstLine) {
  EXPECT_NE(schema_json().substr(0, schema_json().find('\n')).find("Generated"), std::string::npos);
  EXPECT_NE(reference_markdown().substr(0, reference_markdown().find('\n')).find("Generated"),
            std::string::npos);
}

}  // namespace
}  // namespace stringwright::job
