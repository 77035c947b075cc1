#include <algorithm>
#include <cmath>
#include <functional>

#include "kinds.hpp"
#include "pv/constants.hpp"
#include "pv/mismatch.hpp"
#include "pv/single_diode.hpp"

namespace stringwright::run_cases {

namespace {

/// The highest value of `power` between 0 and `most`: the best of a grid, then golden section around it.
double highest(const std::function<double(double)>& power, double most) {
  constexpr int grid = 400;
  int best = 0;
  for (int k = 1; k <= grid; ++k)
    if (power(most * k / grid) > power(most * best / grid)) best = k;
  double low = most * std::max(best - 1, 0) / grid, high = most * std::min(best + 1, grid) / grid;
  const double golden = (std::sqrt(5.0) - 1) / 2;
  for (int k = 0; k < 80; ++k) {
    const double a = high - golden * (high - low), b = low + golden * (high - low);
    if (power(a) > power(b))
      high = b;
    else
      low = a;
  }
  return power((low + high) / 2);
}

/// Two cells that differ in their light, side by side or one behind the other.
void two_cells(Answers& a, bool parallel) {
  const auto i_ph = a.number("iph", "A"), i_0 = a.number("i0", "A"), r_s = a.number("rs", "ohm"),
             r_sh = a.number("rsh", "ohm"), n = a.number("n", "1"),
             t = a.number("temperature", "K");
  if (!i_ph || !i_0 || !r_s || !r_sh || !n || !t)
    return a.fail("needs iph, i0, rs, rsh, n and temperature");
  const auto cell = [&](double share) {
    pv::CellGroup g;
    g.cells = {.i_ph = units::amps(share * *i_ph),
               .i_0 = units::amps(*i_0),
               .a = *n * pv::si_2019.thermal_voltage(units::Temperature::from_kelvin(*t)),
               .r_s = units::ohms(*r_s),
               .g_sh = pv::siemens(1 / *r_sh)};
    return pv::Curve(g);
  };
  const auto alone = [](const pv::Curve& c) {
    const auto p = c.maximum_power();
    return (p.v * p.i).si();
  };
  std::vector<double> powers, losses;
  const pv::Curve one = cell(1);
  for (const double share : a.numbers("photo_current_ratio", "1")) {
    const pv::Curve other = cell(share);
    const double p =
        parallel
            ? highest(
                  [&](double v) {
                    return v * (one.current(units::volts(v)) + other.current(units::volts(v))).si();
                  },
                  one.v_oc().si())
            : highest(
                  [&](double i) {
                    return i * (one.voltage(units::amps(i)) + other.voltage(units::amps(i))).si();
                  },
                  one.i_sc().si());
    powers.push_back(p);
    losses.push_back(100 * (1 - p / (alone(one) + alone(other))));
  }
  a.answer("pmp", powers, "W");
  a.answer("loss_percent", losses, "%");
}

}  // namespace

void check_mismatch_loss(Answers& a) {
  if (a.gives("photo_current_ratio"))
    return two_cells(a, a.of().id.find("parallel") != std::string::npos);
  const auto fill_factor = a.number("fill_factor", "1"), sigma = a.number("sigma", "1");
  const auto cells = a.numbers("cells", "1");
  if (fill_factor && sigma && !cells.empty()) {
    const double c = pv::shape_constant(*fill_factor);
    std::vector<double> losses;
    for (const double n : cells)
      losses.push_back(100 * pv::series_mismatch_loss(c, *sigma, static_cast<int>(n)).si());
    a.answer("c", c, "1");
    a.answer("loss_percent", losses, "%");
    return;
  }
  a.skip("the curves of the measured modules are not printed");
}

}  // namespace stringwright::run_cases
