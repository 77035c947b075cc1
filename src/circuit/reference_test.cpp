// The reference circuits of cases/circuit: the same element values, solved by a circuit simulator.
#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "circuit/network.hpp"
#include "circuit/solve.hpp"

namespace stringwright::circuit {
namespace {

const std::string folder = std::string(STRINGWRIGHT_SOURCE_DIR) + "/cases/circuit/";

/// The number after `name=` in a comment line.
double value_after(const std::string& line, const std::string& name) {
  const auto at = line.find(name + "=");
  return at == std::string::npos ? 0 : std::strtod(line.c_str() + at + name.size() + 1, nullptr);
}

/// A substring as the comment lines of its subcircuit describe it.
struct Substring {
  std::vector<pv::CellGroup> groups;  // in series, minus end first
  std::optional<pv::BypassDiode> bypass;
};

/// A reference netlist as a network. Reads what these ten files use: subcircuits by their comment lines,
/// R and V elements and subcircuit calls outside of them.
struct Reference {
  Network network;
  std::map<std::string, int> nodes, elements;

  int node(const std::string& name) {
    const auto [it, fresh] = nodes.emplace(name, network.nodes);
    if (fresh) network.add_node();
    return it->second;
  }

  explicit Reference(const std::string& file) {
    std::ifstream in(folder + file);
    EXPECT_TRUE(in) << file;
    std::map<std::string, Substring> kinds;
    std::string line, inside;
    network.references = {node("0")};
    std::getline(in, line);  // the title
    while (std::getline(in, line) && line.rfind(".control", 0) != 0) {
      std::istringstream words(line);
      std::vector<std::string> w;
      for (std::string word; words >> word;) w.push_back(word);
      if (w.empty()) continue;
      if (w[0] == ".subckt") {
        inside = w[1];
      } else if (w[0] == ".ends") {
        inside.clear();
      } else if (!inside.empty()) {
        read_inside(kinds[inside], line, w);
      } else if (w[0][0] == 'R') {
        elements[lower(w[0])] =
            network.add(node(w[1]), node(w[2]), Resistor{units::ohms(std::stod(w[3]))});
      } else if (w[0][0] == 'V') {
        elements[lower(w[0])] =
            network.add(node(w[1]), node(w[2]), Source{units::volts(std::stod(w[3]))});
      } else if (w[0][0] == 'X') {
        add(kinds[w[3]], node(w[1]), node(w[2]), w[3]);
      }
    }
  }

 private:
  std::map<std::string, std::vector<int>> laws_;

  static std::string lower(std::string s) {
    std::transform(s.begin(), s.end(), s.begin(), [](unsigned char c) { return std::tolower(c); });
    return s;
  }

  static void read_inside(Substring& s, const std::string& line,
                          const std::vector<std::string>& w) {
    if (line.rfind("* cell group", 0) == 0) {
      pv::CellGroup g;
      g.cells.i_ph = units::amps(value_after(line, "Iph"));
      g.cells.i_0 = units::amps(value_after(line, "I0"));
      g.cells.a = units::volts(value_after(line, " a"));
      g.cells.g_sh = pv::siemens(1 / value_after(line, "Rsh"));
      s.groups.push_back(g);
    } else if (line.rfind("* reverse term", 0) == 0) {
      // "V/Rsh*(1 + 0.1*(1 - V/(-270 V))^(-3.7))"
      s.groups.back().breakdown = pv::Breakdown{
          .share = 0.1,
          .v = units::volts(std::strtod(line.c_str() + line.find("V/(") + 3, nullptr)),
          .exponent = 3.7};
    } else if (line.rfind("* bypass diode", 0) == 0) {
      s.bypass = pv::BypassDiode{.i_s = units::amps(value_after(line, "Is")),
                                 .a = units::volts(value_after(line, " a"))};
    } else if (w[0] == "Rs") {
      s.groups.back().cells.r_s = units::ohms(std::stod(w[3]));
    }
  }

  void add(const Substring& s, int plus, int minus, const std::string& kind) {
    std::vector<int>& laws = laws_[kind];
    const bool alone = s.groups.size() == 1;
    if (laws.empty()) {
      for (pv::CellGroup g : s.groups) {
        if (alone) g.bypass = s.bypass;
        laws.push_back(network.add_law(CellGroup{pv::Curve(g)}));
      }
      if (!alone && s.bypass)
        laws.push_back(network.add_law(Diode{.i_s = s.bypass->i_s, .a = s.bypass->a}));
    }
    int at = minus;
    for (std::size_t k = 0; k < s.groups.size(); ++k) {
      const int next = k + 1 == s.groups.size() ? plus : network.add_node();
      network.add(next, at, laws[k]);
      at = next;
    }
    if (!alone && s.bypass) network.add(plus, minus, laws.back());
  }
};

struct Wanted {
  std::string file, quantity;
  double value;
  std::string text;
};

std::vector<Wanted> wanted() {
  std::ifstream in(folder + "expected.csv");
  std::vector<Wanted> all;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::vector<std::string> cells;
    std::istringstream row(line);
    for (std::string cell; std::getline(row, cell, ',');) cells.push_back(cell);
    if (cells.size() == 5) all.push_back({cells[0], cells[1], std::stod(cells[4]), cells[4]});
  }
  return all;
}

class References : public testing::TestWithParam<bool> {};

/// Tolerance: half the last printed digit (nine significant), 1e-9 relative, 1e-8 A (the simulator's
/// reverse tail of a blocking bypass diode) or 1e-6 V, whichever is largest.
TEST_P(References, AgreeWithTheSimulator) {
  std::string file;
  std::optional<Reference> reference;
  std::optional<Solution> solution;
  int compared = 0;
  for (const Wanted& w : wanted()) {
    if (w.file != file) {
      file = w.file;
      reference.emplace(file);
      SolveOptions options;
      options.merge = GetParam();
      const auto solved = solve(reference->network, options);
      ASSERT_TRUE(solved) << file << ": " << solved.failure().message;
      solution = *solved;
      EXPECT_LT(solution->residual.si(), 1e-9) << file;
    }
    const bool current = w.quantity[0] == 'i';
    const std::string name = w.quantity.substr(2, w.quantity.size() - 3);
    // The simulator's current of a source flows into its plus end; a string's source has its plus end
    // at the string, so what it reads leaves the string. Ours leaves at plus.
    const double got = current ? -solution->current[reference->elements.at(name)].si()
                               : solution->potential[reference->nodes.at(name)].si();
    const double digit = 0.5 * std::pow(10, std::floor(std::log10(std::fabs(w.value))) - 8);
    const double tolerance = std::max({1e-9 * std::fabs(w.value), digit, current ? 1e-8 : 1e-6});
    EXPECT_NEAR(got, w.value, tolerance) << file << " " << w.quantity;
    ++compared;
  }
  EXPECT_EQ(compared, 38);
}

INSTANTIATE_TEST_SUITE_P(MergedAndNot, References, testing::Bool());

}  // namespace
}  // namespace stringwright::circuit
