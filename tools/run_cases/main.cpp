// run-cases DIR...: checks reference cases against the library. See cases/README.md.
// run-cases --pages ROOT: compares docs/validation.md and docs/rules.md with what cases and tables say.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "case_file.hpp"
#include "edition_cases.hpp"
#include "kinds.hpp"
#include "pages.hpp"
#include "rule_cases.hpp"

namespace {

namespace fs = std::filesystem;
using namespace stringwright;
using namespace stringwright::run_cases;

struct Total {
  int passed = 0, failed = 0, skipped = 0;
  std::map<std::string, int> unknown_kinds;
};

void say(const std::string& line) { std::printf("%s\n", line.c_str()); }

std::string read_file(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void run_published(const Case& c, Total& total) {
  const auto kinds = all_kinds();
  const auto kind =
      std::find_if(kinds.begin(), kinds.end(), [&](const Kind& k) { return k.name == c.kind; });
  if (kind == kinds.end()) {
    ++total.skipped;
    ++total.unknown_kinds[c.kind];
    return;
  }
  Answers answers(c);
  kind->check(answers);
  if (!answers.skipped().empty()) {
    ++total.skipped;
    say("skipped: " + c.id + " of " + c.file + ": " + answers.skipped());
    return;
  }
  const auto misses = answers.misses();
  for (const auto& miss : misses) say(c.file + ": " + c.id + " (" + c.kind + "): " + miss);
  ++(misses.empty() ? total.passed : total.failed);
}

void run_file(const fs::path& path, Total& total) {
  const std::string name = path.generic_string();
  const std::string text = read_file(path);
  const auto bad = [&](const Failure& f) {
    say(f.message + " [" + f.id + "]");
    ++total.failed;
  };
  if (is_rule_file(name, text)) {
    const auto tally = run_rule_file(name, text);
    if (!tally) return bad(tally.failure());
    total.passed += tally->passed;
    total.failed += tally->failed;
    return;
  }
  if (is_edition_file(name, text)) {
    const auto tally = run_edition_file(name, text);
    if (!tally) return bad(tally.failure());
    total.passed += tally->passed;
    total.failed += tally->failed;
    return;
  }
  const auto cases = read_published(name, text);
  if (!cases) return bad(cases.failure());
  for (const auto& c : *cases) run_published(c, total);
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    std::fprintf(stderr, "usage: run-cases DIR... | run-cases --pages ROOT\n");
    return 2;
  }
  if (std::string_view(words[1]) == "--pages")
    return pages_hold(count > 2 ? fs::path(words[2]) : fs::path(".")) ? 0 : 1;
  std::vector<fs::path> files;
  for (int i = 1; i < count; ++i) {
    std::error_code trouble;
    const fs::path start(words[i]);
    if (fs::is_regular_file(start, trouble)) {
      files.push_back(start);
    } else if (fs::is_directory(start, trouble)) {
      for (const auto& entry : fs::recursive_directory_iterator(start))
        if (entry.is_regular_file() && entry.path().extension() == ".toml")
          files.push_back(entry.path());
    } else {
      std::fprintf(stderr, "run-cases: %s is neither a folder nor a file\n", words[i]);
      return 2;
    }
  }
  std::sort(files.begin(), files.end());

  Total total;
  for (const auto& file : files) run_file(file, total);
  for (const auto& [kind, times] : total.unknown_kinds)
    say("skipped: kind " + kind + " is not known here (" + std::to_string(times) +
        (times == 1 ? " case)" : " cases)"));
  say(std::to_string(total.passed) + " passed, " + std::to_string(total.failed) + " failed, " +
      std::to_string(total.skipped) + " skipped");
  if (total.passed + total.failed + total.skipped == 0) {
    std::fprintf(stderr, "run-cases: no cases found\n");
    return 2;
  }
  return total.failed == 0 ? 0 : 1;
}
