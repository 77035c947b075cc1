// Operating points against a circuit simulator, run in the test: the network is written as a netlist.
#include <unistd.h>

#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "circuit/build.hpp"
#include "circuit/netlist.hpp"
#include "circuit/solve.hpp"
#include "job/read.hpp"

namespace stringwright::circuit {
namespace {

using units::amps;
using units::ohms;
using units::volts;

/// Vectors printed by `ngspice -b`: name -> value.
std::map<std::string, double> simulate(const std::string& netlist) {
  const auto file = std::filesystem::temp_directory_path() /
                    ("stringwright-" + std::to_string(::getpid()) + ".cir");
  std::ofstream(file) << netlist;
  std::map<std::string, double> found;
  std::string all;
  if (std::FILE* out = ::popen(("ngspice -b '" + file.string() + "' 2>&1").c_str(), "r")) {
    char line[512];
    while (std::fgets(line, sizeof line, out)) {
      all += line;
      std::istringstream words(line);
      std::string name, equals;
      double value = 0;
      if (words >> name >> equals >> value && equals == "=") found[name] = value;
    }
    ::pclose(out);
  }
  std::filesystem::remove(file);
  if (found.empty())
    ADD_FAILURE() << "ngspice gave no values (package ngspice is needed):\n" << all;
  return found;
}

/// Every current and every potential. Tolerances: the simulator works to 1e-12 relative but with
/// 1e-18 S of leakage of its own and a cubic tail of blocking diodes (4e-9 A); nodes that only a blocked
/// diode defines agree to 1e-6 V.
void expect_agreement(const Network& n, const std::string& title) {
  const auto ours = solve(n);
  ASSERT_TRUE(ours) << ours.failure().message;
  std::vector<std::string> print;
  print.reserve(n.elements.size() + n.nodes);
  for (std::size_t k = 0; k < n.elements.size(); ++k)
    print.push_back("i(vi" + std::to_string(k) + ")");
  int zero = n.references.front();
  for (int k = 0; k < n.nodes; ++k)
    if (k != zero && ours->part[k] == ours->part[zero])
      print.push_back("v(n" + std::to_string(k) + ")");
  const auto theirs = simulate(netlist(n, title, print));
  ASSERT_EQ(theirs.size(), print.size()) << title;
  double largest = 1;
  for (const auto i : ours->current) largest = std::fmax(largest, std::fabs(i.si()));
  for (const auto& [name, value] : theirs) {
    const int k = std::atoi(name.c_str() + (name[0] == 'i' ? 4 : 3));
    if (name[0] == 'i') {
      EXPECT_NEAR(ours->current[k].si(), value, 1e-8 + 1e-10 * largest) << title << " " << name;
    } else {
      EXPECT_NEAR(ours->potential[k].si(), value, 1e-6 + 1e-9 * std::fabs(value))
          << title << " " << name;
    }
  }
}

TEST(Ngspice, TwoStringsWithTheirCables) {
  std::ifstream in(STRINGWRIGHT_SOURCE_DIR "/examples/north-cabin.toml");
  std::ostringstream text;
  text << in.rdbuf();
  auto reading = job::read(text.str(), "north-cabin.toml");
  ASSERT_TRUE(reading.job);
  Diagnostics problems;
  const auto w = wiring::build(*reading.job, problems);
  std::map<std::string, Failure> failures;
  const Models models = fit_models(w, failures);
  Resistances r;
  for (const auto& c : w.conductors) r.push_back(ohms(c.length ? 0.003 * c.length->si() : 0));

  State s;
  s.sky = {units::watts_per_square_metre(820), units::celsius(29.6)};
  s.port = Port::at(volts(95));
  s.module_sky[w.strings[1].modules[2]] = {units::watts_per_square_metre(310), units::celsius(25)};
  expect_agreement(build(w, models, r, s).value().network,
                   "two strings, one module in the shade, 95 V");
  s.port = Port::short_circuit();
  expect_agreement(build(w, models, r, s).value().network,
                   "two strings, one module in the shade, shorted");
  s.open = {"A1.Q2"};
  s.port = Port::at(volts(101));
  s.module_sky.clear();
  expect_agreement(build(w, models, r, s).value().network, "one string open, 101 V");
}

/// What sits in the leads of strings: diodes that conduct and block, a fuse out, shutdown units closed and open.
TEST(Ngspice, DevicesInTheLeads) {
  std::ifstream in(STRINGWRIGHT_SOURCE_DIR "/examples/north-cabin.toml");
  std::ostringstream all;
  all << in.rdbuf();
  std::string text = all.str();
  const auto put = [&](const std::string& from, const std::string& to) {
    text.replace(text.find(from), from.size(), to);
  };
  put("lands = \"A1.1\"", "lands = \"A1.1\", blocking_diode = \"D30\", inline_fuse = \"F20\"");
  put("lands = \"A1.2\"", "lands = \"A1.2\", blocking_diode = \"D30\", electronics = \"RSD\"");
  put("[part.BX4]",
      "[part]\nD30 = { kind = \"diode\", rating = \"30 A\", v_forward = \"0.9 V\" }\n"
      "F20 = { kind = \"fuse\", rating = \"20 A\" }\n"
      "RSD = { kind = \"electronics\", does = \"rapid-shutdown\" }\n[part.BX4]");
  auto reading = job::read(text, "leads.toml");
  for (const auto& d : reading.diagnostics) EXPECT_EQ(d.message, "");
  ASSERT_TRUE(reading.job);
  Diagnostics problems;
  const auto w = wiring::build(*reading.job, problems);
  std::map<std::string, Failure> failures;
  const Models models = fit_models(w, failures);
  Resistances r;
  for (const auto& c : w.conductors) r.push_back(ohms(c.length ? 0.003 * c.length->si() : 0));

  State s;
  s.sky = {units::watts_per_square_metre(820), units::celsius(29.6)};
  s.port = Port::at(volts(95));
  expect_agreement(build(w, models, r, s).value().network, "both diodes conduct");
  // At its rated current a diode drops what its sheet says.
  const auto point = operating_point(w, models, r, s);
  ASSERT_TRUE(point);
  EXPECT_GT(point->strings[0].i.si(), 5);
  const auto across = [&](const OperatingPoint& p, const char* anode, const char* cathode) {
    return p.potential[w.find_terminal(anode)]->si() - p.potential[w.find_terminal(cathode)]->si();
  };
  EXPECT_NEAR(across(*point, "S1.D.anode", "S1.D.cathode"),
              0.9 + 0.05 * std::log(point->strings[0].i.si() / 30), 1e-6);

  // String 1 in the shade: its diode holds off the other's voltage, and nothing flows back.
  for (const int m : w.strings[0].modules)
    s.module_sky[m] = {units::watts_per_square_metre(100), units::celsius(25)};
  s.port = Port::at(volts(118));
  // (A blocked string in ngspice: ArraysWithFaults, seed 4. Here it finds no first point.)
  const auto blocked = operating_point(w, models, r, s);
  ASSERT_TRUE(blocked);
  EXPECT_LT(std::fabs(blocked->strings[0].i.si()), 1e-5);
  // A fault counts on no diode.
  s.diodes_shorted = true;
  const auto shorted = operating_point(w, models, r, s);
  ASSERT_TRUE(shorted);
  EXPECT_LT(shorted->strings[0].i.si(), -0.01);

  s = {};
  s.port = Port::at(volts(60));
  s.open = {"S1.F", "S2.2.E"};
  const auto open = operating_point(w, models, r, s);
  ASSERT_TRUE(open);
  EXPECT_EQ(open->strings[0].i.si(), 0);
  EXPECT_EQ(open->strings[1].i.si(), 0);
  s.open = {"S2.9.E"};
  EXPECT_EQ(build(w, models, r, s).failure().id, "circuit.no-such-device");
}

/// Strings of unlike modules, with a ground fault, a line-to-line fault, a reversed string, a cell group
/// near breakdown and a blocking diode: everything that a netlist can hold.
TEST(Ngspice, ArraysWithFaults) {
  for (std::uint32_t seed = 1; seed <= 6; ++seed) {
    std::mt19937 engine(seed);
    const auto between = [&](double a, double b) {
      return std::uniform_real_distribution<>(a, b)(engine);
    };
    Network n;
    const int minus = n.add_node(), plus = n.add_node(), earth = n.add_node();
    n.references = {minus};
    std::vector<std::vector<int>> nodes;
    const int strings = 3, modules = 4;
    for (int s = 0; s < strings; ++s) {
      nodes.push_back({minus});
      for (int m = 0; m < modules; ++m) {
        pv::CellGroup g{.cells = {.i_ph = amps(9.2 * between(0.2, 1.1)),
                                  .i_0 = amps(4.8e-11),
                                  .a = volts(0.49),
                                  .r_s = ohms(0.105),
                                  .g_sh = pv::siemens(1 / 109.0)},
                        .bypass = pv::BypassDiode{.a = volts(0.027)}};
        if (m == 2 && s == 0) {
          g.bypass.reset();
          g.breakdown = pv::Breakdown{.v = volts(-60)};
        }
        const int top = n.add_node();
        n.add(top, nodes[s].back(), CellGroup{pv::Curve(g, 3)});
        nodes[s].push_back(top);
      }
      n.add(plus, nodes[s].back(), Resistor{ohms(0.1 + 0.02 * s)});
    }
    n.add(earth, minus, Resistor{ohms(1)});
    switch (seed) {
      case 1:
        n.add(nodes[1][2], earth, Resistor{ohms(5)});
        break;
      case 2:
        n.add(nodes[0][1], nodes[2][3], Resistor{ohms(0.5)});
        break;
      case 3: {  // string 3 the wrong way round
        const std::size_t each = modules + 1;
        n.elements[2 * each].minus = plus;
        n.elements[3 * each - 1].plus = minus;
        break;
      }
      case 4: {  // string 2 dark, behind a blocking diode
        for (int m = 0; m < modules; ++m) {
          pv::CellGroup dark =
              std::get<CellGroup>(n.laws[n.elements[modules + 1 + m].law]).curve.group();
          dark.cells.i_ph = amps(0);
          n.laws[n.elements[modules + 1 + m].law] = CellGroup{pv::Curve(dark, 3)};
        }
        n.laws[n.elements[2 * modules + 1].law] = Diode{.a = volts(0.03)};
        break;
      }
      case 5:
        n.add(nodes[1][2], nodes[1][0], Joint{});
        break;
      default:
        break;
    }
    n.add(plus, minus,
          seed % 2 == 1 ? Law(Resistor{ohms(5)}) : Law(Source{volts(between(60, 120))}));
    expect_agreement(n, "seed " + std::to_string(seed));
  }
}

}  // namespace
}  // namespace stringwright::circuit
