#include "circuit/netlist.hpp"

#include <cmath>
#include <numeric>
#include <optional>
#include <type_traits>

#include <fmt/format.h>

#include "pv/constants.hpp"

namespace stringwright::circuit {
namespace {

/// Written out so that it reads back as the same number.
std::string number(double x) { return fmt::format("{:.17g}", x); }

/// Emission coefficient that makes N·kT/q the stated `a`, by the simulator's own kT/q at 25 °C.
std::string emission(units::Voltage a) {
  return number(a / pv::codata_2014.thermal_voltage(pv::stc_temperature));
}

/// A cell group as a subcircuit of one group; the call repeats it.
std::string define(const CellGroup& e, std::size_t law) {
  const pv::CellGroup& g = e.curve.group();
  const pv::FiveParameters& c = g.cells;
  const std::string mid = c.r_s.si() > 0 ? "mid" : "plus";
  std::string s = fmt::format(".subckt law{} plus minus\n", law);
  s += fmt::format("Iph minus {} {}\n", mid, number(c.i_ph.si()));
  s += fmt::format("Dc {} minus dc{}\n.model dc{} D(IS={} N={})\n", mid, law, law,
                   number(c.i_0.si()), emission(c.a));
  const double conductance = std::fmax(c.g_sh.si(), 1e-12);
  s += fmt::format("Rsh {} minus {}\n", mid, number(1 / conductance));
  if (g.breakdown) {
    s += fmt::format("Bbr {0} minus I=V({0},minus)*{1}*pow(abs(1-V({0},minus)/({2})),-{3})\n", mid,
                     number(conductance * g.breakdown->share), number(g.breakdown->v.si()),
                     number(g.breakdown->exponent));
  }
  if (c.r_s.si() > 0) s += fmt::format("Rs mid plus {}\n", number(c.r_s.si()));
  if (g.bypass) {
    s += fmt::format("Db minus plus db{}\n.model db{} D(IS={} N={})\n", law, law,
                     number(g.bypass->i_s.si()), emission(g.bypass->a));
  }
  return s + ".ends\n";
}
std::string define(const Diode& e, std::size_t law) {
  return fmt::format(
      ".subckt law{} plus minus\nD minus plus d{}\n.model d{} D(IS={} N={})\nRl plus minus "
      "{}\n.ends\n",
      law, law, law, number(e.i_s.si()), emission(e.a), number(1 / e.leak.si()));
}
std::string define(const Resistor&, std::size_t) { return {}; }
std::string define(const Source&, std::size_t) { return {}; }
std::string define(const Joint&, std::size_t) { return {}; }

int repeats(const CellGroup& e) { return e.curve.in_series(); }
int repeats(const Diode&) { return 1; }

/// Elements between nodes `plus` and `minus`; `k` makes their names unique.
std::string call(const Resistor& e, const std::string& plus, const std::string& minus,
                 std::size_t k, int count) {
  return fmt::format("R{} {} {} {}\n", k, plus, minus, number(count * e.r.si()));
}
std::string call(const Source& e, const std::string& plus, const std::string& minus, std::size_t k,
                 int count) {
  return fmt::format("V{} {} {} {}\n", k, plus, minus, number(count * e.e.si()));
}

}  // namespace

std::vector<std::string> node_names(const Network& n) {
  std::vector<int> root(n.nodes);
  std::iota(root.begin(), root.end(), 0);
  const auto find = [&](int k) {
    while (root[k] != k) k = root[k] = root[root[k]];
    return k;
  };
  for (const Element& e : n.elements) root[find(e.plus)] = find(e.minus);
  std::vector<int> zero(n.nodes, -1);
  for (const int k : n.references)
    if (zero[find(k)] < 0) zero[find(k)] = k;
  std::vector<std::string> all;
  for (int k = 0; k < n.nodes; ++k) {
    int& z = zero[find(k)];
    if (z < 0) z = k;
    all.push_back(z == k ? "0" : fmt::format("n{}", k));
  }
  return all;
}

std::string netlist(const Network& network, std::string_view title,
                    const std::vector<std::string>& print, bool tight) {
  std::string s(title);
  s += "\n* Emission coefficients are a over the simulator's kT/q at 25 C; temp and tnom keep it "
       "from rescaling.\n"
       ".options temp=25 tnom=25 gmin=1e-18 itl1=1000 ";
  s +=
      tight ? "reltol=1e-12 abstol=1e-16 vntol=1e-13\n" : "reltol=1e-10 abstol=1e-12 vntol=1e-10\n";
  for (std::size_t k = 0; k < network.laws.size(); ++k)
    s += std::visit([&](const auto& e) { return define(e, k); }, network.laws[k]);

  const auto name = node_names(network);
  for (std::size_t k = 0; k < network.elements.size(); ++k) {
    const Element& e = network.elements[k];
    const std::string &plus = name[e.plus], &minus = name[e.minus];
    std::visit(
        [&](const auto& law) {
          using Kind = std::decay_t<decltype(law)>;
          if constexpr (std::is_same_v<Kind, Joint>) {
            s += fmt::format("Vi{} {} {} 0\n", k, minus, plus);
          } else {
            s += fmt::format("Vi{0} i{0} {1} 0\n", k, plus);
            if constexpr (std::is_same_v<Kind, Resistor> || std::is_same_v<Kind, Source>) {
              s += call(law, fmt::format("i{}", k), minus, k, e.count);
            } else {
              const int copies = e.count * repeats(law);
              std::string upper = fmt::format("i{}", k);
              for (int j = 1; j <= copies; ++j) {
                const std::string lower = j == copies ? minus : fmt::format("x{}_{}", k, j);
                s += fmt::format("X{}_{} {} {} law{}\n", k, j, upper, lower, e.law);
                upper = lower;
              }
            }
          }
        },
        network.laws[e.law]);
  }
  s += ".control\nset numdgt=15\nop\n";
  for (const auto& what : print) s += "print " + what + "\n";
  return s + "quit\n.endc\n.end\n";
}

}  // namespace stringwright::circuit
