// Module model and circuit solver over a ladder of sizes. Arrays are of 60-cell modules in three groups,
// cables of unlike length, strings on one bus, the output held at 31.2 V a module.
//
//   --benchmark_filter=against_ngspice   the same networks in ngspice, in the same run
//   --benchmark_filter=exponent          how time grows with size
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <ctime>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "circuit/build.hpp"
#include "circuit/maximum_power.hpp"
#include "circuit/netlist.hpp"
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

double median(std::vector<double> x) {
  std::nth_element(x.begin(), x.begin() + static_cast<std::ptrdiff_t>(x.size() / 2), x.end());
  return x[x.size() / 2];
}

/// Processor time of this process: on a shared machine the clock on the wall tells nothing.
double processor_seconds() {
  timespec t{};
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
  return static_cast<double>(t.tv_sec) + 1e-9 * static_cast<double>(t.tv_nsec);
}

/// Processor seconds of one call: repeated for `least` seconds, the median of five of that.
template <class F>
double seconds_of(F f, double least) {
  std::vector<double> all;
  for (int run = 0; run < 5; ++run) {
    int calls = 0;
    const double start = processor_seconds();
    double now = start;
    for (; now - start < least; now = processor_seconds(), ++calls) f();
    all.push_back((now - start) / calls);
  }
  return median(all);
}

/// The array for ngspice with nothing in it but its elements: no ammeters, no subcircuits.
std::string bare_netlist(const circuit::Network& n) {
  const auto number = [](double x) { return fmt::format("{:.17g}", x); };
  const auto emission = [&](units::Voltage a) {
    return number(a / pv::codata_2014.thermal_voltage(pv::stc_temperature));
  };
  const auto name = circuit::node_names(n);
  std::string s =
      "array\n.options temp=25 tnom=25 gmin=1e-18 itl1=1000 itl2=1000 reltol=1e-9 abstol=1e-12 "
      "vntol=1e-9\n";
  bool models = false;
  for (std::size_t k = 0; k < n.elements.size(); ++k) {
    const auto& e = n.elements[k];
    const std::string &plus = name[e.plus], &minus = name[e.minus];
    const circuit::Law& law = n.laws[e.law];
    if (const auto* r = std::get_if<circuit::Resistor>(&law)) {
      s += fmt::format("R{} {} {} {}\n", k, plus, minus, number(r->r.si()));
    } else if (const auto* v = std::get_if<circuit::Source>(&law)) {
      s += fmt::format("Vport {} {} {}\n", plus, minus, number(v->e.si()));
    } else if (const auto* cells = std::get_if<circuit::CellGroup>(&law)) {
      const auto& g = cells->curve.group();
      if (!models) {
        s += fmt::format(".model dc D(IS={} N={})\n.model db D(IS={} N={})\n",
                         number(g.cells.i_0.si()), emission(g.cells.a), number(g.bypass->i_s.si()),
                         emission(g.bypass->a));
        models = true;
      }
      s += fmt::format(
          "I{0} {2} m{0} {3}\nD{0} m{0} {2} dc\nRp{0} m{0} {2} {4}\nRs{0} m{0} {1} {5}\nDb{0} "
          "{2} {1} db\n",
          k, plus, minus, number(g.cells.i_ph.si()), number(1 / g.cells.g_sh.si()),
          number(g.cells.r_s.si()));
    }
  }
  return s + ".save vport#branch\n";
}

/// User time of ngspice for a netlist and what it is told to do.
double ngspice_seconds(const std::string& netlist, const std::string& commands,
                       std::string* said = nullptr) {
  char path[] = "/tmp/circuit_bench_XXXXXX";
  const int file = mkstemp(path);
  if (file < 0) return NAN;
  close(file);
  const std::string out = std::string(path) + ".out";
  std::ofstream(path) << netlist << ".control\nset numdgt=15\n"
                      << commands << "quit\n.endc\n.end\n";
  const pid_t child = fork();
  if (child == 0) {
    if (!freopen(out.c_str(), "w", stdout) || !freopen("/dev/null", "w", stderr)) _exit(127);
    execlp("ngspice", "ngspice", "-b", path, static_cast<char*>(nullptr));
    _exit(127);
  }
  int status = 0;
  rusage used{};
  wait4(child, &status, 0, &used);
  if (said) {
    std::ifstream in(out);
    std::ostringstream all;
    all << in.rdbuf();
    *said = all.str();
  }
  unlink(path);
  unlink(out.c_str());
  if (!WIFEXITED(status) || WEXITSTATUS(status) == 127) return NAN;
  return static_cast<double>(used.ru_utime.tv_sec) +
         1e-6 * static_cast<double>(used.ru_utime.tv_usec);
}

enum class Analysis { operating_point, sweep };

/// Seconds that ngspice spends in one analysis: reading the netlist is taken off. (The analysis time of its
/// `rusage` is by the clock on the wall.) Each analysis starts from cold, and its results are thrown away:
/// kept ones make the next slower. They are repeated in one process
/// for at least a second, the median of five of that, of three where one analysis takes over five seconds.
double ngspice_analysis(const std::string& netlist, const std::string& command) {
  std::vector<double> none;
  for (int k = 0; k < 3; ++k) none.push_back(ngspice_seconds(netlist, ""));
  const double base = median(none);
  const auto repeated = [&](int times) {
    return (ngspice_seconds(netlist,
                            fmt::format("repeat {}\n{}\ndestroy all\nend\n", times, command)) -
            base) /
           times;
  };
  int times = 1;
  double one = repeated(times);
  while (one * times < 0.3 && times < 2000) one = repeated(times *= 4);
  times = std::max(1, static_cast<int>(std::ceil(1 / one)));
  std::vector<double> all;
  for (int k = 0; k < (one > 5 ? 3 : 5); ++k) all.push_back(repeated(times));
  return median(all);
}

/// Nothing merged, every group of cells with a law of its own. With `ammeters`, ngspice gets the netlist of
/// `stringwright netlist`: a source of 0 V in series with every element, and a subcircuit for each group.
void against_ngspice(benchmark::State& state, Analysis analysis, bool ammeters) {
  int port = 0;
  const int strings = static_cast<int>(state.range(0)), modules = 10;
  const auto n = array(strings, modules, true, &port);
  const double top = 40.9 * modules;
  circuit::SolveOptions options;
  options.merge = false;
  std::string theirs = bare_netlist(n);
  if (ammeters) {
    theirs = circuit::netlist(n, "array", {}, false);
    theirs.erase(theirs.find(".control"));
    theirs += fmt::format(".save v{}#branch\n", port);
  }
  // The same network: the currents must agree.
  const auto solved = circuit::solve(n, options);
  if (!solved) return state.SkipWithError(solved.failure().message.c_str());
  std::string said;
  const std::string source = ammeters ? fmt::format("v{}", port) : "vport";
  if (std::isnan(ngspice_seconds(theirs, "op\nprint " + source + "#branch\n", &said)))
    return state.SkipWithError("ngspice does not run");
  const auto value = said.find("#branch = ");
  const double current = value == std::string::npos ? NAN : std::atof(said.c_str() + value + 10);
  const double ours_i = solved->current[port].si();
  if (!(std::fabs(current + ours_i) <= 1e-8 + 1e-8 * std::fabs(ours_i)))
    return state.SkipWithError(fmt::format("{} A and {} A do not agree", -current, ours_i).c_str());

  double ngspice = 0, ours = 0;
  for (auto _ : state) {
    ngspice = ngspice_analysis(theirs, analysis == Analysis::sweep
                                           ? fmt::format("dc {} 0 {} {}", source, top, top / 200)
                                           : "op");
    ours = seconds_of(
        [&] {
          if (analysis == Analysis::operating_point) {
            benchmark::DoNotOptimize(circuit::solve(n, options));
            return;
          }
          auto solver = circuit::Solver::make(n, options).value();
          for (int k = 0; k <= 200; ++k) {
            solver.set_source(port, volts(top * k / 200));
            benchmark::DoNotOptimize(solver.solve_port(port));
          }
        },
        0.3);
  }
  state.counters["ngspice_ms"] = 1e3 * ngspice;
  state.counters["ours_ms"] = 1e3 * ours;
  state.counters["times"] = ngspice / ours;
}
#define AGAINST_NGSPICE(name, analysis, ammeters)                        \
  BENCHMARK_CAPTURE(against_ngspice, name, Analysis::analysis, ammeters) \
      ->Arg(4)                                                           \
      ->Arg(100)                                                         \
      ->Arg(500)                                                         \
      ->Iterations(1)                                                    \
      ->Unit(benchmark::kSecond)
AGAINST_NGSPICE(operating_point, operating_point, false);
AGAINST_NGSPICE(sweep_of_201_points, sweep, false);
AGAINST_NGSPICE(operating_point_with_ammeters, operating_point, true);

/// Slope of log time over log size, least squares over seven sizes from 100 to 10 000 strings of 20 modules.
void exponent(benchmark::State& state, bool apart) {
  double slope = 0, worst = 0;
  for (auto _ : state) {
    std::vector<double> x, y;
    for (const int strings : {100, 215, 464, 1000, 2154, 4642, 10000}) {
      int port = 0;
      const auto n = array(strings, 20, apart, &port);
      circuit::SolveOptions options;
      options.merge = !apart;
      x.push_back(std::log(strings));
      y.push_back(
          std::log(seconds_of([&] { benchmark::DoNotOptimize(circuit::solve(n, options)); }, 0.2)));
    }
    const double count = static_cast<double>(x.size());
    double sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (std::size_t k = 0; k < x.size(); ++k)
      sx += x[k], sy += y[k], sxx += x[k] * x[k], sxy += x[k] * y[k];
    slope = (count * sxy - sx * sy) / (count * sxx - sx * sx);
    for (std::size_t k = 0; k < x.size(); ++k)
      worst = std::max(worst, std::fabs(y[k] - (sy + slope * (count * x[k] - sx)) / count));
  }
  state.counters["exponent"] = slope;
  state.counters["off_the_line"] = std::exp(worst) - 1;
}
BENCHMARK_CAPTURE(exponent, merged, false)->Iterations(1)->Unit(benchmark::kSecond);
BENCHMARK_CAPTURE(exponent, nothing_merged, true)->Iterations(1)->Unit(benchmark::kSecond);

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
