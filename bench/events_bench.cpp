// The event table of every example and of a box of twelve strings; `solutions` is what one table takes.
#include <benchmark/benchmark.h>

#include <fstream>
#include <sstream>

#include "app/events.hpp"

namespace {

using namespace stringwright;

std::string example(const std::string& name) {
  std::ifstream in(std::string(STRINGWRIGHT_SOURCE_DIR) + "/examples/" + name + ".toml");
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

/// One box of the field with its twelve strings, straight to the inverter.
std::string twelve_strings() {
  std::string text = example("two-box-field");
  const auto cut = [&](const std::string& from, const std::string& to) {
    const auto begin = text.find(from), end = text.find(to, begin);
    if (begin != std::string::npos && end != std::string::npos) text.erase(begin, end - begin);
  };
  cut("[strings.B]", "[box.BA]");
  cut("[box.BB]", "[run.FA]");
  cut("[run.FB]", "[equipment.INV1]");
  cut("[[as_built]]", "found with");
  text.erase(text.find("[equipment.INV1.input.PV1]"));
  text +=
      "[equipment.INV1.input.PV1]\nv_max = \"1000 V\"\nisc_max = \"700 A\"\nterminals = \"75 "
      "°C\"\n";
  const std::string lands = "lands = \"RC.1\"";
  text.replace(text.find(lands), lands.size(), "lands = \"INV1.PV1\"");
  return text;
}

void table(benchmark::State& state, const std::string& text) {
  const auto e = app::evaluate(text, "bench.toml");
  if (!e.usable) {
    state.SkipWithError("the job has a mistake");
    return;
  }
  int solutions = 0;
  std::size_t events = 0;
  for (auto _ : state) {
    const auto reply = app::events(e);
    if (!reply) {
      state.SkipWithError(reply.failure().message.c_str());
      return;
    }
    solutions = reply->table.solutions;
    events = reply->table.rows.size();
  }
  state.counters["events"] = static_cast<double>(events);
  state.counters["solutions"] = solutions;
}

void check(benchmark::State& state, const std::string& text) {
  for (auto _ : state) benchmark::DoNotOptimize(app::evaluate(text, "bench.toml"));
}

BENCHMARK_CAPTURE(table, cabin, example("north-cabin"))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(table, barn, example("barn-roof"))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(table, school, example("school-roof"))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(table, shed, example("shed-repair"))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(table, twelve_strings, twelve_strings())->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(table, two_boxes, example("two-box-field"))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(check, cabin, example("north-cabin"))->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(check, school, example("school-roof"))->Unit(benchmark::kMillisecond);

}  // namespace
