// The design search: cut plans to a proven optimum, beside the kept integer solver on the same question.
#include <benchmark/benchmark.h>

#include <cmath>
#include <cstdint>
#include <random>
#include <stdexcept>
#include <vector>

#include "design/cuts/assignment.hpp"
#include "design/cuts/cut_plan.hpp"
#include "design/milp.hpp"
#include "job/read.hpp"
#include "wiring/wiring.hpp"

namespace {

using namespace stringwright;

constexpr double stock[] = {4.6, 9.1, 15.2, 30.5};
constexpr double per_cable = 10'000;  // fewer cables before less length

struct Field {
  std::vector<double> plus, minus;  ///< needs, tails included [m]
  wiring::Wiring wiring;
};

/// A field of n strings with end lengths from 1 to 25 m; the same every time.
Field field(int n) {
  std::mt19937 random(7);
  std::uniform_int_distribution<int> decimetres(10, 250);
  Field f;
  std::string s =
      "format = 1\njob = { name = \"Bench\", edition = \"nec_2023\" }\n"
      "module.M = { v_oc = \"40 V\", v_mp = \"33 V\", i_sc = \"10 A\", i_mp = \"9.5 A\", family = "
      "\"K2\" }\n"
      "row.R = { module = \"M\", count = " +
      std::to_string(n) + " }\n";
  for (std::size_t i = 0; i < std::size(stock); ++i)
    s += "part.C" + std::to_string(i) +
         " = { kind = \"cable\", family = \"K2\", wire = \"10 AWG Cu PV\", length = \"" +
         std::to_string(stock[i]) + " m\" }\n";
  s += "[string]\n";
  for (int i = 1; i <= n; ++i) {
    const int p = decimetres(random), m = decimetres(random);
    f.plus.push_back(p / 10.0 + 0.75);
    f.minus.push_back(m / 10.0 + 0.75);
    const std::string k = std::to_string(i);
    s += "S" + k + " = { walk = \"R." + k + "\", lands = \"A." + k + "\", plus_end = \"" +
         std::to_string(p / 10.0) + " m\", minus_end = \"" + std::to_string(m / 10.0) + " m\" }\n";
  }
  s += "[box.A]\nhome_run = { wire = \"10 AWG Cu PV\", tail = \"0.75 m\" }\nout = \"OUT\"\n"
       "[run.OUT]\nto = \"E.P\"\n[equipment.E]\nkind = \"inverter\"\ninput.P = {}\n";
  const auto reading = job::read(s, "bench.toml");
  if (!reading.job) throw std::runtime_error(reading.diagnostics.at(0).message);
  Diagnostics ignored;
  f.wiring = wiring::build(*reading.job, ignored);
  return f;
}

void cut_plan(benchmark::State& state) {
  const Field f = field(static_cast<int>(state.range(0)));
  double bought = 0;
  for (auto _ : state) {
    const auto plan = design::cut_plan(f.wiring, {});
    if (!plan.proved) state.SkipWithError("no proven optimum");
    bought = plan.bought.in(units::metres);
  }
  state.counters["bought_m"] = bought;
}
BENCHMARK(cut_plan)->Arg(10)->Arg(30)->Arg(100)->Unit(benchmark::kMillisecond);

/// The same question by patterns: one column for every cable that could be cut.
void integer_program(benchmark::State& state) {
  const Field f = field(static_cast<int>(state.range(0)));
  const auto n = f.plus.size();
  design::Program p;
  p.at_least.assign(2 * n, 1);
  const auto column = [&](double need, std::vector<std::pair<int, double>> entries) {
    for (const double length : stock) {
      if (length < need - 1e-9) continue;
      p.columns.push_back({per_cable + length, std::move(entries), 1});
      return;
    }
  };
  for (std::size_t i = 0; i < n; ++i) {
    column(f.plus[i], {{static_cast<int>(i), 1.0}});
    column(f.minus[i], {{static_cast<int>(n + i), 1.0}});
    for (std::size_t j = 0; j < n; ++j)
      column(f.plus[i] + f.minus[j], {{static_cast<int>(i), 1.0}, {static_cast<int>(n + j), 1.0}});
  }
  double bought = 0;
  for (auto _ : state) {
    const auto answer = design::solve_integer(p, 1e30, 1'000'000);
    if (!answer.best || !answer.proved) {
      state.SkipWithError("no proven optimum");
      break;
    }
    bought = std::fmod(answer.best->value, per_cable);
  }
  state.counters["bought_m"] = bought;
}
BENCHMARK(integer_program)->Arg(10)->Arg(30)->Arg(100)->Unit(benchmark::kMillisecond);

}  // namespace
