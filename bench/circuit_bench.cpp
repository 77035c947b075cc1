// Module model and circuit solver over a ladder of sizes. Arrays are of 60-cell modules in three groups,
// cables of unlike length, strings on one bus, the output held at 31.2 V a module.
#include <fstream>
#include <map>
#include <sstream>
#include <string>

#include <benchmark/benchmark.h>

#include "circuit/build.hpp"
#include "circuit/maximum_power.hpp"
#include "circuit/solve.hpp"
#include "job/read.hpp"
#include "pv/module_model.hpp"

namespace stringwright {
namespace {

using units::amps;
using units::ohms;
using units::percent_per_kelvin;
using units::volts;

parts::Module sheet() {
  parts::Module m;
  m.id = "M365";
  m.v_oc = volts(40.9);
  m.i_sc = amps(11.35);
  m.v_mp = volts(34.1);
  m.i_mp = amps(10.71);
  m.b_voc = parts::Coefficient<units::dim::voltage>{.relative = percent_per_kelvin(-0.28),
                                                    .absolute = {}};
  m.a_isc = parts::Coefficient<units::dim::current>{.relative = percent_per_kelvin(0.048),
                                                    .absolute = {}};
  m.g_pmp =
      parts::Coefficient<units::dim::power>{.relative = percent_per_kelvin(-0.36), .absolute = {}};
  m.cells = 60;
  m.bypass = 3;
  return m;
}

pv::Curve module_curve() {
  return pv::at(pv::fit(sheet()).value(), pv::stc_irradiance, pv::stc_temperature).value();
}

void fit_a_module(benchmark::State& state) {
  const auto m = sheet();
  for (auto _ : state) benchmark::DoNotOptimize(pv::fit(m));
}
BENCHMARK(fit_a_module);

void module_voltage_at_current(benchmark::State& state) {
  const auto curve = module_curve();
  double i = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(curve.voltage(amps(i)));
    i = i < 12 ? i + 0.01 : 0;  // the end of it lies beyond short circuit: bypass diodes
  }
}
BENCHMARK(module_voltage_at_current);

void module_current_at_voltage(benchmark::State& state) {
  const auto curve = module_curve();
  double v = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(curve.current(volts(v)));
    v = v < 41 ? v + 0.03 : 0;
  }
}
BENCHMARK(module_current_at_voltage);

void module_maximum_power(benchmark::State& state) {
  const auto curve = module_curve();
  for (auto _ : state) benchmark::DoNotOptimize(curve.maximum_power());
}
BENCHMARK(module_maximum_power);

/// Alike modules of one law, or one element and one law for every group.
circuit::Network array(int strings, int modules, bool apart, int* port) {
  circuit::Network n;
  const auto curve = module_curve();
  const int minus = n.add_node(), plus = n.add_node();
  n.references = {minus};
  const int shared = n.add_law(circuit::CellGroup{curve});
  const pv::Curve group(curve.group());
  for (int s = 0; s < strings; ++s) {
    int at = minus;
    for (int k = 0; k < modules * (apart ? 3 : 1); ++k) {
      const int next = n.add_node();
      n.add(next, at, apart ? n.add_law(circuit::CellGroup{group}) : shared);
      at = next;
    }
    n.add(plus, at, circuit::Resistor{ohms(0.05 + 1e-4 * s)});
  }
  const int out = n.add_node();
  n.add(out, plus, circuit::Resistor{ohms(0.02 / strings)});
  *port = n.add(out, minus, circuit::Source{volts(31.2 * modules)});
  return n;
}

void cold_operating_point(benchmark::State& state, bool apart) {
  int port = 0;
  const auto n =
      array(static_cast<int>(state.range(0)), static_cast<int>(state.range(1)), apart, &port);
  circuit::SolveOptions options;
  options.merge = !apart;
  for (auto _ : state) benchmark::DoNotOptimize(circuit::solve(n, options));
  state.SetComplexityN(state.range(0));
}
BENCHMARK_CAPTURE(cold_operating_point, merged, false)
    ->Args({2, 3})
    ->Args({4, 10})
    ->Args({100, 10})
    ->Args({500, 10})
    ->Args({2000, 10})
    ->Args({10000, 10})
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(cold_operating_point, nothing_merged, true)
    ->Args({2, 3})
    ->Args({4, 10})
    ->Args({100, 10})
    ->Args({500, 10})
    ->Args({2000, 10})
    ->Unit(benchmark::kMicrosecond);

void sweep_of_201_points(benchmark::State& state, bool apart) {
  int port = 0;
  const int modules = static_cast<int>(state.range(1));
  const auto n = array(static_cast<int>(state.range(0)), modules, apart, &port);
  circuit::SolveOptions options;
  options.merge = !apart;
  for (auto _ : state) {
    auto solver = circuit::Solver::make(n, options).value();
    for (int k = 0; k <= 200; ++k) {
      solver.set_source(port, volts(40.9 * modules * k / 200));
      benchmark::DoNotOptimize(solver.solve_port(port));
    }
  }
}
BENCHMARK_CAPTURE(sweep_of_201_points, merged, false)
    ->Args({2, 3})
    ->Args({4, 10})
    ->Args({100, 10})
    ->Args({500, 10})
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(sweep_of_201_points, nothing_merged, true)
    ->Args({4, 10})
    ->Args({100, 10})
    ->Args({500, 10})
    ->Unit(benchmark::kMicrosecond);

void maximum_power(benchmark::State& state, bool one_maximum) {
  int port = 0;
  const int modules = static_cast<int>(state.range(1));
  const auto n = array(static_cast<int>(state.range(0)), modules, false, &port);
  for (auto _ : state) {
    auto solver = circuit::Solver::make(n).value();
    benchmark::DoNotOptimize(
        circuit::find_maximum_power(solver, port, volts(40.9 * modules), one_maximum));
  }
}
BENCHMARK_CAPTURE(maximum_power, one, true)
    ->Args({2, 3})
    ->Args({100, 10})
    ->Unit(benchmark::kMicrosecond);
BENCHMARK_CAPTURE(maximum_power, global, false)
    ->Args({2, 3})
    ->Args({100, 10})
    ->Unit(benchmark::kMicrosecond);

/// What a job is shown at: open circuit at the coldest, short circuit, maximum power at 25 °C and at the
/// hottest; model fitted, network built, solved and read each time.
void four_points_of_a_job(benchmark::State& state) {
  std::ifstream in(STRINGWRIGHT_SOURCE_DIR "/examples/north-cabin.toml");
  std::ostringstream text;
  text << in.rdbuf();
  const auto reading = job::read(text.str(), "north-cabin.toml");
  Diagnostics problems;
  const auto w = wiring::build(reading.job.value(), problems);
  circuit::Resistances r;
  for (const auto& c : w.conductors) r.push_back(ohms(c.length ? 0.003 * c.length->si() : 0));
  for (auto _ : state) {
    std::map<std::string, Failure> failures;
    const auto models = circuit::fit_models(w, failures);
    circuit::State s;
    s.sky.cell = units::celsius(-31);
    benchmark::DoNotOptimize(circuit::operating_point(w, models, r, s));
    s.sky.cell = units::celsius(25);
    s.port = circuit::Port::short_circuit();
    benchmark::DoNotOptimize(circuit::operating_point(w, models, r, s));
    s.port = circuit::Port::maximum_power();
    benchmark::DoNotOptimize(circuit::operating_point(w, models, r, s));
    s.sky.cell = units::celsius(62);
    benchmark::DoNotOptimize(circuit::operating_point(w, models, r, s));
  }
}
BENCHMARK(four_points_of_a_job)->Unit(benchmark::kMicrosecond);

}  // namespace
}  // namespace stringwright
