#include "circuit/solve/carry.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "circuit/solve/bracket.hpp"

namespace stringwright::circuit::solve_detail {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double rounding = 8 * std::numeric_limits<double>::epsilon();
constexpr double least_slope = 1e-15;

/// One term: n · u − r · i(u) = w, u the voltage of one of its alike elements.
Carried carry_one(const Section& s, const Term& term, const Law& law, double v, double start) {
  const double n = term.count;
  const double w = term.sign * (v - s.e);
  if (s.r == 0) {
    const Flow f = at_voltage(law, units::volts(w / n));
    return {term.sign * f.i.si(), -f.di_dv.si() / n};
  }
  double u = (w + s.r * term.sign * start) / n;
  Bracket bracket;
  for (int k = 0; k < 200; ++k) {
    const Flow f = at_voltage(law, units::volts(u));
    const double i = f.i.si(), g = -f.di_dv.si();
    const double miss = n * u - s.r * i - w;
    const double step = -miss / (n + s.r * g);
    const Carried here{term.sign * (i - g * step), g / (n + s.r * g)};
    // Where the step is that small, what the slope says of the rest is exact to rounding.
    if (std::fabs(step) <= 1e-9 * std::fmin(1, std::fabs(u)) || bracket.exhausted() ||
        std::fabs(miss) <= rounding * (n * std::fabs(u) + s.r * std::fabs(i) + std::fabs(w))) {
      return here;
    }
    bracket.narrow(u, miss < 0);
    u = bracket.next(u, step);
  }
  const Flow f = at_voltage(law, units::volts(u));
  return {term.sign * f.i.si(), -f.di_dv.si() / (n - s.r * f.di_dv.si()), false};
}

/// The current of a chain whose elements share a voltage evenly: exact where they are alike, and with
/// the weakest of them a good guess where they nearly are.
double even_current(const Section& s, const std::vector<Term>& terms, const std::vector<Law>& laws,
                    double v, double start) {
  double count = 0;
  for (int t = s.term; t < s.term + s.terms; ++t) count += terms[t].sign * terms[t].count;
  if (!(count > 0)) return start;
  const double u = (v - s.e + s.r * start) / count;
  double least = infinity;
  for (int t = s.term; t < s.term + s.terms; ++t) {
    if (terms[t].sign < 0) continue;
    least = std::fmin(least, at_voltage(laws[terms[t].law], units::volts(u)).i.si());
  }
  return std::fabs(least) < 1e3 * (1 + std::fabs(start)) ? least : start;
}

}  // namespace

Voltage voltage_of(const Section& s, const std::vector<Term>& terms, const std::vector<Law>& laws,
                   double i) {
  Voltage sum{s.e - s.r * i, -s.r, std::fabs(s.e) + std::fabs(s.r * i)};
  for (int t = s.term; t < s.term + s.terms; ++t) {
    const Term& term = terms[t];
    const Drop d = at_current(laws[term.law], units::amps(term.sign * i));
    sum.v += term.sign * term.count * d.v.si();
    sum.dv_di += term.count * d.dv_di.si();
    sum.size += term.count * std::fabs(d.v.si());
  }
  return sum;
}

Carried carry(const Section& s, const std::vector<Term>& terms, const std::vector<Law>& laws,
              double v, double start) {
  if (s.terms == 0) return {(s.e - v) / s.r, 1 / s.r};
  if (s.terms == 1) return carry_one(s, terms[s.term], laws[terms[s.term].law], v, start);

  double i = start;
  Bracket bracket;
  double dv_di = -1;
  for (int k = 0; k < 300; ++k) {
    const Voltage here = voltage_of(s, terms, laws, i);
    dv_di = std::fmin(here.dv_di, -least_slope);
    const double miss = here.v - v;
    const double step = -miss / dv_di;
    if (std::fabs(step) <= 1e-12 * std::fabs(i) || bracket.exhausted() ||
        std::fabs(miss) <= rounding * (here.size + std::fabs(v))) {
      return {i + step, -1 / dv_di};
    }
    bracket.narrow(i, miss > 0);
    // Far off at the start, a straight line is no guide across the knee of a curve.
    i = k == 0 && std::fabs(miss) > 0.05 * (here.size + std::fabs(v))
            ? even_current(s, terms, laws, v, i)
            : bracket.next(i, step);
  }
  return {i, -1 / dv_di, false};
}

double likely_current(const Section& s, const std::vector<Term>& terms,
                      const std::vector<Law>& laws) {
  double least = infinity;
  for (int t = s.term; t < s.term + s.terms; ++t) {
    if (t > s.term && terms[t].law == terms[t - 1].law && terms[t].sign == terms[t - 1].sign)
      continue;
    const double i = terms[t].sign * at_voltage(laws[terms[t].law], units::volts(0)).i.si();
    if (std::fabs(i) < std::fabs(least)) least = i;
  }
  return std::isfinite(least) ? 0.9 * least : 0;
}

}  // namespace stringwright::circuit::solve_detail
