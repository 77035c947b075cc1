#include <benchmark/benchmark.h>
#include <spawn.h>
#include <sys/wait.h>

#include <toml++/toml.h>
#include <algorithm>
#include <chrono>
#include <fstream>
#include <sstream>
#include <vector>

#include "app/evaluate.hpp"
#include "app/papers.hpp"
#include "job/read.hpp"

/// One whole check of the example job against the cost of parsing its text. The ratio is taken within one
/// run: `x_parse` is the time of the measured thing over that of the bare TOML parse, both measured here.
namespace {

using namespace stringwright;
using clock_type = std::chrono::steady_clock;

const std::string& cabin() {
  static const std::string text = [] {
    std::ifstream in(STRINGWRIGHT_SOURCE_DIR "/examples/north-cabin.toml");
    std::ostringstream all;
    all << in.rdbuf();
    return all.str();
  }();
  return text;
}

void parse() {
  auto table = toml::parse(cabin());
  benchmark::DoNotOptimize(table);
}

/// Median time of one parse, taken beside the measured loop.
double parse_seconds() {
  std::vector<double> times;
  for (int i = 0; i < 51; ++i) {
    const auto start = clock_type::now();
    parse();
    times.push_back(std::chrono::duration<double>(clock_type::now() - start).count());
  }
  std::nth_element(times.begin(), times.begin() + 25, times.end());
  return times[25];
}

template <class F>
void measure(benchmark::State& state, F f) {
  const double base = parse_seconds();
  double total = 0;
  for (auto _ : state) {
    const auto start = clock_type::now();
    f();
    total += std::chrono::duration<double>(clock_type::now() - start).count();
  }
  state.counters["x_parse"] = total / static_cast<double>(state.iterations()) / base;
}

void bare_parse(benchmark::State& state) { measure(state, parse); }

void read_job(benchmark::State& state) {
  measure(state, [] {
    auto reading = job::read(cabin(), "north-cabin.toml");
    benchmark::DoNotOptimize(reading);
  });
}

void whole_check(benchmark::State& state) {
  measure(state, [] {
    auto evaluation = app::evaluate(cabin(), "north-cabin.toml");
    benchmark::DoNotOptimize(evaluation);
  });
}

void papers_without_png(benchmark::State& state) {
  const auto evaluation = app::evaluate(cabin(), "north-cabin.toml");
  measure(state, [&] {
    auto files = app::papers(evaluation, 0);
    benchmark::DoNotOptimize(files);
  });
}

/// The process from start to end, as a person waits for it.
void process_check(benchmark::State& state) {
  measure(state, [] {
    const char* arguments[] = {STRINGWRIGHT_BIN, "check",
                               STRINGWRIGHT_SOURCE_DIR "/examples/north-cabin.toml", nullptr};
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", 1 /* O_WRONLY */, 0);
    pid_t child = 0;
    int status = 0;
    posix_spawn(&child, STRINGWRIGHT_BIN, &actions, nullptr, const_cast<char**>(arguments),
                nullptr);
    waitpid(child, &status, 0);
    posix_spawn_file_actions_destroy(&actions);
    if (!WIFEXITED(status) || WEXITSTATUS(status) > 1) std::abort();
  });
}

BENCHMARK(bare_parse)->Unit(benchmark::kMicrosecond);
BENCHMARK(read_job)->Unit(benchmark::kMicrosecond);
BENCHMARK(whole_check)->Unit(benchmark::kMicrosecond);
BENCHMARK(papers_without_png)->Unit(benchmark::kMillisecond);
BENCHMARK(process_check)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace
