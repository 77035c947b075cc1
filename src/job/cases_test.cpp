// Each file of cases/job is a job text; its lines that begin with "#> " are the messages it gives,
// as they are rendered. STRINGWRIGHT_REGENERATE=1 rewrites them: read the difference before you keep it.
#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>
#include <string>

#include <gtest/gtest.h>

#include "base/text.hpp"
#include "job/read.hpp"

namespace stringwright::job {
namespace {

const std::filesystem::path folder =
    std::filesystem::path(STRINGWRIGHT_SOURCE_DIR) / "cases" / "job";
constexpr std::string_view mark = "#> ";

std::string read_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream all;
  all << in.rdbuf();
  return all.str();
}

std::vector<std::filesystem::path> case_files() {
  std::vector<std::filesystem::path> all;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) all.push_back(entry.path());
  std::sort(all.begin(), all.end());
  return all;
}

struct Case {
  std::string text;      ///< as it is read, expected messages (comments) included
  std::string job;       ///< without them
  std::string expected;  ///< the messages
};

Case read_case(const std::filesystem::path& path) {
  Case c;
  c.text = read_file(path);
  std::istringstream lines(c.text);
  for (std::string line; std::getline(lines, line);) {
    if (text::starts_with(line, mark))
      c.expected += line.substr(mark.size()) + "\n";
    else
      c.job += line + "\n";
  }
  return c;
}

class JobCase : public testing::TestWithParam<std::filesystem::path> {};

TEST_P(JobCase, GivesItsMessages) {
  const Case c = read_case(GetParam());
  const Reading reading = read(c.text, GetParam().filename().string());
  std::string found;
  for (const auto& d : reading.diagnostics) found += render(d, c.text);
  EXPECT_EQ(reading.job.has_value(), !any_error(reading.diagnostics));

  if (std::getenv("STRINGWRIGHT_REGENERATE") && found != c.expected) {
    std::ofstream out(GetParam(), std::ios::binary);
    out << c.job;
    std::istringstream lines(found);
    for (std::string line; std::getline(lines, line);) out << mark << line << "\n";
    return;
  }
  EXPECT_EQ(found, c.expected);
}

INSTANTIATE_TEST_SUITE_P(Files, JobCase, testing::ValuesIn(case_files()),
                         [](const auto& file) { return file.param.stem().string(); });

TEST(JobCases, EveryMessageOfTheReferencePageHasACase) {
  std::set<std::string> listed;
  std::istringstream page(reference_markdown());
  for (std::string line; std::getline(page, line);)
    if (text::starts_with(line, "| `job.")) listed.insert(line.substr(3, line.find('`', 3) - 3));
  std::set<std::string> proved;
  for (const auto& path : case_files())
    for (const auto& d : read(read_file(path), "case").diagnostics) proved.insert(d.id);
  EXPECT_EQ(listed, proved);
}

}  // namespace
}  // namespace stringwright::job
