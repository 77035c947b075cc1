#include "circuit/solve/chains.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <variant>

namespace stringwright::circuit::solve_detail {
namespace {

constexpr double rounding = 8 * std::numeric_limits<double>::epsilon();

/// Lanes that are filled before they are evaluated: what comes back still lies in the nearest cache.
constexpr std::size_t at_once = 256;

/// The same sum whatever the compiler makes of it, four at a time.
double sum(const double* x, std::size_t n) {
  double a = 0, b = 0, c = 0, d = 0;
  std::size_t k = 0;
  for (; k + 4 <= n; k += 4) a += x[k], b += x[k + 1], c += x[k + 2], d += x[k + 3];
  for (; k < n; ++k) a += x[k];
  return (a + b) + (c + d);
}

/// z with z + β·(e^z − 1) = q, to what a guess needs; e^z − 1 beside it. β >= 0.
struct Bent {
  double z, exp_minus_1;
};
Bent bent(double q, double beta) {
  if (std::fabs(q) < 1e-3) {
    const double p = 1 / (1 + beta);
    double z = q * p;  // the rest is its square
    for (int k = 0; k < 2; ++k) {
      const double e = z * (1 + z / 2 * (1 + z / 3 * (1 + z / 4)));
      z -= (z + beta * e - q) / (1 + beta * (1 + e));
    }
    return {z, z * (1 + z / 2 * (1 + z / 3 * (1 + z / 4)))};
  }
  // From the right Newton walks straight to the root: the function is convex.
  double z = q / (1 + beta);
  if (q > 0 && beta > 0) z = std::min(z, std::log1p(q / beta));
  z = std::min(z, 300.0);
  double e = std::expm1(z);
  for (int k = 0; k < 8 && beta > 0; ++k) {
    const double step = (z + beta * e - q) / (1 + beta * (1 + e));
    z -= step;
    e = std::expm1(z);
    if (std::fabs(step) <= 1e-4 * (1 + std::fabs(z))) break;
  }
  return {z, e};
}

bool cells(const Term& t, const std::vector<Law>& laws) {
  const auto* group = std::get_if<CellGroup>(&laws[t.law]);
  return group && pv::Lanes::takes(group->curve);
}

}  // namespace

Chains::Chains(const Sections& s, const std::vector<Law>& laws, bool lanes)
    : s_(s), of_(s.all.size(), -1), in_lanes_(lanes) {
  lanes_.reserve(s.terms.size());
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    const Section& section = s.all[k];
    if (!section.live || section.rigid || section.terms == 0) continue;
    const Term* const begin = s.terms.data() + section.term;
    const Term* const end = begin + section.terms;
    const bool fits = std::all_of(
        begin, end, [&](const Term& t) { return t.sign == begin->sign && cells(t, laws); });
    if (!fits) continue;
    Chain c;
    c.section = static_cast<int>(k);
    c.first = lanes_.size();
    c.count = static_cast<std::size_t>(section.terms);
    c.term = static_cast<std::size_t>(section.term);
    c.sign = begin->sign;
    c.r = c.fixed = section.r;
    c.sharp = c.i_sc = std::numeric_limits<double>::infinity();
    for (const Term* t = begin; t != end; ++t) {
      const auto lane = lanes_.add(std::get<CellGroup>(laws[t->law]).curve, t->count);
      c.fixed += lane.r_s;
      c.sharp = std::min(c.sharp, lane.sharpness);
      c.i_sc = std::min(c.i_sc, lane.i_sc);
    }
    of_[k] = static_cast<int>(all_.size());
    all_.push_back(c);
  }
}

void Chains::make_room(std::size_t n) {
  const std::size_t room = pv::Lanes::room(n);
  if (room <= i_.size()) return;
  for (auto* x : {&i_, &v_, &dv_, &d2v_, &d3v_}) x->resize(room);
}

void Chains::evaluate(std::size_t first, std::size_t n) {
  const pv::Lanes::Answers out{v_.data(), dv_.data(), d2v_.data(), d3v_.data()};
  if (in_lanes_)
    lanes_.at_currents(first, n, i_.data(), out);
  else
    lanes_.at_currents_one_by_one(first, n, i_.data(), out);
}

void Chains::expand(const std::vector<int>& which, const std::vector<double>& currents) {
  for (std::size_t k = 0; k < which.size();) {
    // Neighbours go together.
    const std::size_t first = all_[which[k]].first, lead = pv::Lanes::lead(first);
    std::size_t n = 0, end = k;
    do n += all_[which[end++]].count;
    while (end < which.size() && n < at_once && all_[which[end]].first == first + n);
    make_room(n);
    for (std::size_t j = k; j < end; ++j) {
      Chain& c = all_[which[j]];
      c.i = currents[j];
      std::fill_n(i_.begin() + static_cast<std::ptrdiff_t>(c.first - first + lead), c.count,
                  c.sign * c.i);
    }
    evaluate(first, n);
    for (; k < end; ++k) {
      Chain& c = all_[which[k]];
      const std::size_t at = c.first - first + lead;
      const double v = sum(v_.data() + at, c.count);
      c.v = c.sign * v - c.r * c.i;
      c.slope = std::min(sum(dv_.data() + at, c.count), -1e-15) - c.r;
      c.per_slope = 1 / c.slope;
      c.bend = c.sign * sum(d2v_.data() + at, c.count);
      c.third = sum(d3v_.data() + at, c.count);
      c.size = std::fabs(v) + std::fabs(c.fixed * c.i);
    }
  }
}

Guess Chains::at(int chain, double w, double most) const {
  const Chain& c = all_[chain];
  const double miss = w - c.v;
  const double newton = miss * c.per_slope;
  if (std::fabs(c.i) >= most && newton * c.i >= 0) return {c.i + newton, -c.per_slope, true};
  const double turn = c.bend * newton * c.per_slope;  // relative change of the slope over that step
  double step, slope;
  if (std::fabs(turn) < 1e-3) {
    step = newton * (1 - turn * (0.5 - 0.5 * turn));
    slope = c.slope + c.bend * step;
  } else {
    step = newton;
    slope = c.slope;
    const double junction = c.slope + c.fixed;  // <= 0
    // The junction's voltage over this step by its own measure.
    const double q = -miss * c.bend / (junction * junction);
    if (junction < -1e-12 && std::isfinite(q)) {
      const Bent b = bent(q, -c.fixed / junction);
      step = -junction / c.bend * b.exp_minus_1;
      slope = junction / (1 + b.exp_minus_1) - c.fixed;
    }
    if (!std::isfinite(step)) step = newton;
  }
  if (!(std::fabs(c.i + step) <= most))
    return {std::copysign(most, c.i + step), -c.per_slope, false};
  // Two curves of the same slope and curvature differ by what the third derivative makes of the step.
  const double left = std::fabs(c.third * step * step * step * c.per_slope) / 6;
  const bool exact =
      (left <= 2e-15 * std::fabs(c.i) + 1e-24 * most && std::fabs(miss) <= 0.1 * c.sharp) ||
      std::fabs(step) <= 1e-14 * std::fabs(c.i) + 1e-24 * most ||
      std::fabs(miss) <= rounding * (c.size + std::fabs(w));
  return {c.i + step, -1 / slope, exact};
}

void Chains::solve(std::vector<int>& which, std::vector<double>& w, double most,
                   std::vector<Guess>& result) {
  bracket_.assign(which.size(), {});
  for (int round = 0; round < 120 && !which.empty(); ++round) {
    std::size_t kept = 0;
    currents_.clear();
    for (std::size_t j = 0; j < which.size(); ++j) {
      const Chain& c = all_[which[j]];
      Guess g = at(which[j], w[j], most);
      result[which[j]] = g;
      if (g.exact) continue;
      Bracket b = bracket_[j];
      b.narrow(c.i, c.v > w[j]);
      if (b.exhausted()) {
        const double newton = (w[j] - c.v) * c.per_slope;
        result[which[j]] = {c.i + newton, -c.per_slope, true};
        continue;
      }
      const double next = round == 0 ? g.i : b.next(c.i, g.i - c.i);
      currents_.push_back(std::clamp(next, -most, most));
      which[kept] = which[j];
      w[kept] = w[j];
      bracket_[kept++] = b;
    }
    which.resize(kept);
    w.resize(kept);
    expand(which, currents_);
  }
  for (std::size_t j = 0; j < which.size(); ++j) result[which[j]] = at(which[j], w[j], most);
}

void Chains::drops(const std::vector<double>& carried, std::vector<double>& drop) {
  for (std::size_t k = 0; k < all_.size();) {
    const std::size_t first = all_[k].first, lead = pv::Lanes::lead(first);
    std::size_t n = 0, end = k;
    do n += all_[end++].count;
    while (end < all_.size() && n < at_once);
    make_room(n);
    for (std::size_t j = k; j < end; ++j) {
      const Chain& c = all_[j];
      std::fill_n(i_.begin() + static_cast<std::ptrdiff_t>(c.first - first + lead), c.count,
                  c.sign * carried[c.section]);
    }
    evaluate(first, n);
    for (; k < end; ++k) {
      const Chain& c = all_[k];
      const double* v = v_.data() + (c.first - first + lead);
      for (std::size_t t = 0; t < c.count; ++t)
        drop[c.term + t] = c.sign * v[t] / s_.terms[c.term + t].count;
    }
  }
}

}  // namespace stringwright::circuit::solve_detail
