// Whatever happens to a good job's bytes, reading ends, and a job never comes together with an error.
#include <fstream>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <rapidcheck/gtest.h>

#include "base/text.hpp"
#include "job/read.hpp"

namespace stringwright::job {
namespace {

const std::string& good_text(bool patterns) {
  const auto load = [](const std::string& path) {
    std::ifstream in(std::string(STRINGWRIGHT_SOURCE_DIR) + "/" + path, std::ios::binary);
    std::stringstream all;
    all << in.rdbuf();
    return all.str();
  };
  static const std::string cabin = load("examples/north-cabin.toml");
  static const std::string field = load("cases/job/good_recombined.toml");
  return patterns ? field : cabin;
}

class Mutator {
 public:
  explicit Mutator(std::uint32_t seed) : random_(seed) {}

  std::string mutate(std::string text) {
    for (std::size_t n = 1 + below(4); n > 0 && !text.empty(); --n)
      below(2) == 0 ? bytes(text) : words(text);
    return text;
  }

 private:
  std::size_t below(std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random_);
  }

  void bytes(std::string& text) {
    const std::size_t at = below(text.size());
    const std::size_t size = std::min(below(8) + 1, text.size() - at);
    switch (below(4)) {
      case 0:
        text.erase(at, size);
        break;
      case 1:
        text.insert(at, text.substr(at, size));
        break;
      case 2:
        text[at] = static_cast<char>(below(256));
        break;
      default:
        text[at] = std::string_view("\"'[]{}=.,#\n\\ 0-")[below(15)];
        break;
    }
  }

  /// Exchanges what stands between quotes, or drops or doubles a line: mistakes that stay TOML.
  void words(std::string& text) {
    const auto lines = text::split(text, '\n');
    const std::string line(lines[below(lines.size())]);
    const auto at = text.find(line);
    switch (below(3)) {
      case 0:
        text.erase(at, line.size());
        break;
      case 1:
        text.insert(at, line + "\n");
        break;
      default: {
        const auto from = quoted(text), to = quoted(text);
        text.replace(from.first, from.second, std::string(text.substr(to.first, to.second)));
      }
    }
  }

  /// Place and size of some quoted text.
  std::pair<std::size_t, std::size_t> quoted(const std::string& text) {
    const auto first = text.find('"', below(text.size()));
    if (first == std::string::npos) return {0, 0};
    const auto last = text.find('"', first + 1);
    return last == std::string::npos ? std::pair<std::size_t, std::size_t>{0, 0}
                                     : std::pair{first, last - first + 1};
  }

  std::mt19937 random_;
};

RC_GTEST_PROP(Mutation, NeverAJobWithAnError, (std::uint32_t seed)) {
  Mutator mutator(seed);
  for (int i = 0; i < 20; ++i) {
    const std::string text = mutator.mutate(good_text(i % 2 == 0));
    const auto lines = static_cast<int>(text::split(text, '\n').size());
    const Reading reading = read(text, "mutated.toml");
    RC_ASSERT(reading.job.has_value() == !any_error(reading.diagnostics));
    for (const auto& d : reading.diagnostics) {
      RC_ASSERT(text::starts_with(d.id, "job."));
      RC_ASSERT(!d.message.empty());
      RC_ASSERT(d.span.line >= 1);
      RC_ASSERT(d.span.line <= lines + 1);
      RC_ASSERT(d.span.column >= 1);
      RC_ASSERT(!render(d, text).empty());
    }
    if (reading.job) RC_ASSERT(read(write(*reading.job), "written.toml").job.has_value());
  }
}

}  // namespace
}  // namespace stringwright::job
