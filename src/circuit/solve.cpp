#include "circuit/solve.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <utility>
#include <variant>

#include <Eigen/Core>

#include "circuit/solve/carry.hpp"
#include "circuit/solve/chains.hpp"
#include "circuit/solve/nodal.hpp"
#include "circuit/solve/sections.hpp"
#include "circuit/solve/ties.hpp"

namespace stringwright::circuit {

using solve_detail::Carried;
using solve_detail::Chains;
using solve_detail::Guess;
using solve_detail::Nodal;
using solve_detail::Section;
using solve_detail::Sections;
using solve_detail::Ties;

namespace {

constexpr double rounding = std::numeric_limits<double>::epsilon();

/// What is reached before an answer counts as being all rounding.
constexpr double fine = 1e-13;

/// Potentials as unevaluated sums: behind a small resistance a current is a small difference of large
/// voltages, which one double would round away.
struct Potentials {
  Eigen::VectorXd hi, lo;
};

}  // namespace

struct Solver::Parts {
  const Network& n;
  SolveOptions options;
  Sections s;

  std::vector<std::pair<int, double>> source;  // element, voltage: set after the network was made
  std::vector<double> e;                       // [n_sections]
  bool moved = true;  // a source has changed since the ties were worked out
  Ties ties;
  std::vector<int> row;                   // [n_groups] -1: held at 0 V
  std::vector<std::pair<int, int>> ends;  // [n_sections] rows; equal: not a branch
  std::unique_ptr<Nodal> nodal;
  std::unique_ptr<Chains> chains;
  std::vector<double> likely;  // [n_sections] a current to begin with
  /// Beyond this a section that bends goes on as a straight line, so that no exponential runs away.
  /// Far above what a solution can carry; raised where one comes near.
  double most_current = 1e4;

  // The state: voltages of the rows, and what each section carries at them.
  Potentials x;
  std::vector<double> v, i, g;  // [n_sections]
  std::vector<char> known;      // [n_sections] i and g belong to v
  int inexact = 0;              // sections without a root, for now
  bool warm = false;
  bool factorised = false;  // the factors are those of g
  /// Chains take one evaluation a step and need not be exact on the way.
  bool loose = true;
  std::vector<int> open;  // chains that are not exact under the voltages at hand
  std::vector<double> wanted;
  std::vector<Guess> guess;  // [n_chains]
  Eigen::VectorXd into;      // [rows] sum of currents
  Eigen::VectorXd scale;     // [rows] of magnitudes, rounding included
  double residual = 0;       // largest sum of currents at a knot group [A]
  double share = 0;          // the same, relative
  int iterations = 0;

  Parts(const Network& network, const SolveOptions& o) : n(network), options(o) {}

  bool branch(std::size_t k) const { return s.all[k].live && !s.all[k].rigid; }
  double volts_of(int knot) const {
    const int r = row[ties.group[knot]];
    return (r < 0 ? 0 : x.hi[r] + x.lo[r]) + ties.offset[knot];
  }

  std::optional<Failure> prepare();
  void start();
  Carried carry(std::size_t k) const;
  double across(std::size_t k) const;
  void move(const Potentials& from, double step, const Eigen::VectorXd& dx);
  void take_up_chains();
  void evaluate(const Potentials& from, double step, const Eigen::VectorXd& dx);
  std::optional<Failure> newton();
  void settle();
  void search_line(const Potentials& from, const Eigen::VectorXd& dx, double slope_0);
  std::optional<Failure> run();
  std::vector<double> all_currents();
  Solution read();
};

/// Ties, rows and the pattern of the matrix.
std::optional<Failure> Solver::Parts::prepare() {
  if (!moved) return std::nullopt;
  auto tied = solve_detail::tie(s, e);
  if (!tied) return tied.failure();
  ties = std::move(*tied);
  moved = false;
  if (nodal) return std::nullopt;  // which knots are tied never changes, only by how much

  // In each part the group with the most branches is held at 0 V; read() shifts to the reference.
  std::vector<int> branches(ties.groups, 0), hub(s.parts, -1), part_of(ties.groups, -1);
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    if (!branch(k)) continue;
    ++branches[ties.group[s.all[k].from]];
    ++branches[ties.group[s.all[k].to]];
  }
  for (std::size_t k = 0; k < s.node.size(); ++k) part_of[ties.group[k]] = s.part[k];
  for (int group = 0; group < ties.groups; ++group) {
    int& h = hub[part_of[group]];
    if (h < 0 || branches[group] > branches[h]) h = group;
  }
  row.assign(ties.groups, -1);
  int rows = 0;
  for (int group = 0; group < ties.groups; ++group)
    if (hub[part_of[group]] != group && branches[group] > 0) row[group] = rows++;
  ends.assign(s.all.size(), {-1, -1});
  for (std::size_t k = 0; k < s.all.size(); ++k)
    if (branch(k)) ends[k] = {row[ties.group[s.all[k].from]], row[ties.group[s.all[k].to]]};
  nodal = std::make_unique<Nodal>(rows, ends);
  x.hi = x.lo = into = scale = Eigen::VectorXd::Zero(rows);
  v.assign(s.all.size(), 0);
  i = g = v;
  known.assign(s.all.size(), 0);

  likely.assign(s.all.size(), 0);
  double largest = 1;
  chains = std::make_unique<Chains>(s, n.laws, options.lanes);
  guess.resize(chains->size());
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    if (!branch(k) || s.all[k].terms == 0) continue;
    const int chain = chains->of(k);
    likely[k] = chain >= 0 ? chains->likely_current(chain)
                           : solve_detail::likely_current(s.all[k], s.terms, n.laws);
    largest = std::max(largest, std::fabs(likely[k]));
  }
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    if (!branch(k) || s.all[k].terms == 0 || likely[k] != 0) continue;
    // Dark cells, a diode: begin where they conduct, for a blocked one is left behind in one step.
    const auto ahead = solve_detail::voltage_of(s.all[k], s.terms, n.laws, largest);
    const auto back = solve_detail::voltage_of(s.all[k], s.terms, n.laws, -largest);
    likely[k] = std::fabs(ahead.v) < std::fabs(back.v) ? largest : -largest;
  }
  most_current = 1e4 * largest;
  return std::nullopt;
}

/// From cold: every section as the straight line through a likely current, one linear solve.
void Solver::Parts::start() {
  Eigen::VectorXd b = Eigen::VectorXd::Zero(nodal->rows());
  open.clear();
  wanted.clear();
  for (int c = 0; c < chains->size(); ++c) {
    open.push_back(c);
    wanted.push_back(likely[chains->section(c)]);
  }
  chains->expand(open, wanted);
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    if (!branch(k)) continue;
    const Section& x_k = s.all[k];
    i[k] = likely[k];
    const int chain = chains->of(k);
    const auto here =
        chain >= 0 ? chains->voltage(chain) : solve_detail::voltage_of(x_k, s.terms, n.laws, i[k]);
    const double v_k = here.v + (chain >= 0 ? x_k.e : 0);
    g[k] = -1 / std::min(here.dv_di, -1e-12);
    const double tied = ties.offset[x_k.to] - ties.offset[x_k.from];
    const double at_zero = i[k] + g[k] * (v_k - tied);
    if (ends[k].second >= 0) b[ends[k].second] += at_zero;
    if (ends[k].first >= 0) b[ends[k].first] -= at_zero;
    known[k] = 0;
  }
  nodal->factorise(g);
  nodal->solve(b);
  x.hi = std::move(b);
  x.lo.setZero();
}

Carried Solver::Parts::carry(std::size_t k) const {
  const Section& section = s.all[k];
  const Carried c = solve_detail::carry(section, s.terms, n.laws, v[k], i[k]);
  if (section.terms == 0 || std::fabs(c.i) <= most_current) return c;
  const double edge = std::copysign(most_current, c.i);
  const auto there = solve_detail::voltage_of(section, s.terms, n.laws, edge);
  const double g_edge = -1 / std::min(there.dv_di, -1e-12);
  const double beyond = g_edge * (there.v - v[k]);
  return {edge + beyond, g_edge, c.exact || beyond * edge >= 0};
}

/// Voltage across a section, by the parts of its potentials: what is left of a difference of large ones
/// must not be rounded away by a third.
double Solver::Parts::across(std::size_t k) const {
  const Section& section = s.all[k];
  const auto [f, t] = ends[k];
  double left = (t < 0 ? 0 : x.lo[t]) - (f < 0 ? 0 : x.lo[f]);
  const auto plus = [&](double a, double b) {  // what rounding takes goes to what is left
    const double sum = a + b, back = sum - a;
    left += (a - (sum - back)) + (b - back);
    return sum;
  };
  const double hi = plus(t < 0 ? 0 : x.hi[t], f < 0 ? 0 : -x.hi[f]);
  const double tied = plus(ties.offset[section.to], -ties.offset[section.from]);
  const double sum = plus(hi, tied);
  return sum + left;
}

void Solver::Parts::move(const Potentials& from, double step, const Eigen::VectorXd& dx) {
  if (&from != &x) x = from;
  for (int r = 0; r < nodal->rows() && step != 0; ++r) {
    const double add = x.lo[r] + step * dx[r];
    const double sum = x.hi[r] + add;
    const double back = sum - x.hi[r];
    x.lo[r] = (x.hi[r] - (sum - back)) + (add - back);
    x.hi[r] = sum;
  }
}

/// Currents of all sections and their sums at `from` + step · dx.
void Solver::Parts::evaluate(const Potentials& from, double step, const Eigen::VectorXd& dx) {
  move(from, step, dx);
  into.setZero();
  scale.setZero();
  open.clear();
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    if (!branch(k)) continue;
    const double v_k = across(k);
    if (known[k] && v[k] == v_k) continue;
    v[k] = v_k;
    if (const int chain = chains->of(k); chain >= 0) {
      const Guess c = chains->at(chain, v_k - s.all[k].e, most_current);
      i[k] = c.i;
      g[k] = c.g;
      known[k] = c.exact ? 1 : 0;
      if (!c.exact) open.push_back(chain);
      continue;
    }
    const Carried c = carry(k);
    i[k] = c.i;
    g[k] = c.g;
    known[k] = c.exact ? 1 : 0;
  }
  if (!open.empty()) take_up_chains();
  inexact = 0;
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    if (!branch(k)) continue;
    inexact += !known[k];
    const auto [f, t] = ends[k];
    if (f == t) continue;
    const double size = std::fabs(i[k]) + 4 * rounding / fine * g[k] * std::fabs(v[k]);
    if (f >= 0) into[f] -= i[k], scale[f] += size;
    if (t >= 0) into[t] += i[k], scale[t] += size;
  }
  // Of a current that is no current beside what the modules can give, no share is asked.
  const double least = 1e-6 * most_current;
  residual = share = 0;
  for (int r = 0; r < nodal->rows(); ++r) {
    residual = std::max(residual, std::fabs(into[r]));
    share = std::max(share, std::fabs(into[r]) / (scale[r] + least));
  }
}

/// What the expansions at hand could not tell of the open chains: one more evaluation of each where steps
/// may be loose, else as many as it takes.
void Solver::Parts::take_up_chains() {
  wanted.clear();
  if (loose) {
    for (const int c : open) wanted.push_back(i[chains->section(c)]);
    chains->expand(open, wanted);
    for (const int c : open) {
      const std::size_t k = chains->section(c);
      guess[c] = chains->at(c, v[k] - s.all[k].e, most_current);
    }
  } else {
    for (const int c : open) {
      const std::size_t k = chains->section(c);
      wanted.push_back(v[k] - s.all[k].e);
    }
    std::vector<int> left = open;
    chains->solve(left, wanted, most_current, guess);
  }
  for (const int c : open) {
    const std::size_t k = chains->section(c);
    i[k] = guess[c].i;
    g[k] = guess[c].g;
    known[k] = guess[c].exact ? 1 : 0;
  }
}

/// The co-content falls along `dx`; its slope there is −into · dx and rises with the step. Looks for a
/// step where little of it is left.
void Solver::Parts::search_line(const Potentials& from, const Eigen::VectorXd& dx, double slope_0) {
  double lo = 0, hi = 1, f_lo = slope_0, f_hi = -into.dot(dx);
  for (int k = 0; k < 60 && f_hi > 0; ++k) {
    // Regula falsi; every third step halves, for the slope is far from straight.
    double t = k % 3 == 2 ? lo + (hi - lo) / 2 : lo - f_lo * (hi - lo) / (f_hi - f_lo);
    t = std::clamp(t, lo + 0.02 * (hi - lo), hi - 0.02 * (hi - lo));
    evaluate(from, t, dx);
    const double f = -into.dot(dx);
    if (!(std::fabs(f) > 0.1 * std::fabs(slope_0))) return;
    (f > 0 ? hi : lo) = t;
    (f > 0 ? f_hi : f_lo) = f;
  }
}

std::optional<Failure> Solver::Parts::newton() {
  iterations = 0;
  loose = true;
  evaluate(x, 0, into);
  double best = share;
  int idle = 0;
  while (share > fine || inexact > 0) {
    if (inexact == 0 && idle >= 3 && best <= options.tolerance && share <= options.tolerance) break;
    if (iterations >= options.max_iterations) {
      return Failure{"circuit.not-converged",
                     "no operating point after " + std::to_string(iterations) +
                         " steps: currents of " + std::to_string(residual) +
                         " A are left over at a node"};
    }
    ++iterations;
    // The first step after a source has moved may use the factors at hand: nothing else has changed.
    if (!(factorised && iterations == 1)) nodal->factorise(g);
    factorised = false;
    Eigen::VectorXd dx = into;
    nodal->solve(dx);
    const Potentials from = x;
    const double slope_0 = -into.dot(dx);
    evaluate(from, 1, dx);
    if (loose && (share <= fine ? inexact > 0 : !(share <= 0.5 * best))) {
      // Nothing is certain of inexact currents, be they balanced or not: from here on they are exact.
      loose = false;
      const double reached = share;
      evaluate(reached <= fine ? x : from, 0, dx);
      best = share;
      idle = 0;
      continue;
    }
    if (!(share <= 0.5 * best)) {
      if (share > fine && -into.dot(dx) > 0.1 * std::fabs(slope_0)) search_line(from, dx, slope_0);
    }
    idle = share <= 0.5 * best ? 0 : idle + 1;
    best = std::min(best, share);
  }
  return std::nullopt;
}

/// A last step in the currents alone: what rounding leaves over at the nodes is shared out as the next
/// step would.
void Solver::Parts::settle() {
  Eigen::VectorXd dx;
  for (int k = 0; k < 4; ++k) {
    nodal->factorise(g);
    factorised = true;
    dx = into;
    nodal->solve(dx);
    // Shared out along straight lines: what bends must be near enough to be one.
    if (dx.size() == 0 || dx.cwiseAbs().maxCoeff() <= 1e-7) break;
    evaluate(x, 1, dx);
  }
  move(x, 1, dx);
  into.setZero();
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    const auto [f, t] = ends[k];
    if (!branch(k) || f == t) continue;
    v[k] = across(k);
    i[k] -= g[k] * ((t < 0 ? 0 : dx[t]) - (f < 0 ? 0 : dx[f]));
    if (f >= 0) into[f] -= i[k];
    if (t >= 0) into[t] += i[k];
  }
  residual = 0;
  for (int r = 0; r < nodal->rows(); ++r) residual = std::max(residual, std::fabs(into[r]));
}

std::optional<Failure> Solver::Parts::run() {
  if (auto f = prepare()) return f;
  bool cold = !warm;
  if (cold) start();
  warm = false;
  for (bool beyond = true; beyond;) {
    if (auto f = newton()) {
      // The last solution may be a worse place to begin than none.
      if (cold) return f;
      cold = true;
      start();
      continue;
    }
    beyond = false;
    for (std::size_t k = 0; k < s.all.size(); ++k) {
      if (!branch(k) || s.all[k].terms == 0 || std::fabs(i[k]) <= most_current) continue;
      beyond = true;
      known[k] = 0;
    }
    if (beyond) most_current *= 1e4;
  }
  settle();
  warm = true;
  return std::nullopt;
}

/// Currents of every section, those of dead ends (0) and of joints included.
std::vector<double> Solver::Parts::all_currents() {
  std::vector<double> all(s.all.size(), 0);
  std::vector<double> knot(s.node.size(), 0);
  bool rigid = false;
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    const Section& section = s.all[k];
    if (!section.live) continue;
    rigid = rigid || section.rigid;
    if (section.rigid) continue;
    all[k] = i[k];
    knot[section.to] += i[k];
    knot[section.from] -= i[k];
  }
  if (rigid) solve_detail::tied_currents(s, std::move(knot), all);
  return all;
}

Solution Solver::Parts::read() {
  Solution out;
  out.residual = units::amps(residual);
  out.iterations = iterations;
  const std::vector<double> carried = all_currents();

  out.potential.resize(n.nodes);
  out.part.resize(n.nodes);
  out.current.resize(n.elements.size());
  const auto potential = [&](int node) -> units::Voltage& { return out.potential[node]; };
  for (std::size_t k = 0; k < s.node.size(); ++k) {
    potential(s.node[k]) = units::volts(volts_of(static_cast<int>(k)));
    out.part[s.node[k]] = s.part[k];
  }
  std::vector<double> drop(s.terms.size());  // of one element of a term
  chains->drops(carried, drop);
  const auto own_voltage = [&](int element, double of_law) {
    for (const auto& [changed, value] : source)
      if (changed == element) return value;
    return of_law;
  };
  // Along a section from its `from` end; returns the voltage of its `to` end.
  const auto walk = [&](std::size_t k) {
    const Section& section = s.all[k];
    const double i_k = carried[k];
    if (chains->of(k) < 0) {
      for (int t = section.term; t < section.term + section.terms; ++t) {
        const auto& term = s.terms[t];
        drop[t] = term.sign * at_current(n.laws[term.law], units::amps(term.sign * i_k)).v.si();
      }
    }
    const int part = s.part[section.from];
    double at = potential(s.node[section.from]).si();
    const int end = section.link + section.links - 1;
    for (int l = section.link; l <= end; ++l) {
      const auto& link = s.links[l];
      const Element& element = n.elements[link.element];
      if (link.term >= 0) {
        at += element.count * drop[link.term];
      } else {
        const Linear line = linear(n.laws[element.law]).value_or(Linear{});
        const double e_own = own_voltage(link.element, line.e.si());
        at += element.count * (link.sign * e_own - line.r.si() * i_k);
      }
      out.current[link.element] = units::amps(link.sign * i_k);
      if (l == end) break;
      const int node = link.sign > 0 ? element.plus : element.minus;
      potential(node) = units::volts(at);
      out.part[node] = part;
    }
    return at;
  };
  // A dead end hangs on its far knot: outermost first were found, innermost first are placed.
  for (auto d = s.dead_ends.rbegin(); d != s.dead_ends.rend(); ++d) {
    const Section& section = s.all[d->section];
    const double end = walk(d->section);
    if (section.to == d->knot) {
      potential(s.node[d->knot]) = units::volts(end);
    } else {
      const auto shift = potential(s.node[section.to]) - units::volts(end);
      potential(s.node[d->knot]) += shift;
      for (int l = section.link; l + 1 < section.link + section.links; ++l) {
        const auto& link = s.links[l];
        potential(link.sign > 0 ? n.elements[link.element].plus : n.elements[link.element].minus) +=
            shift;
      }
    }
  }
  for (std::size_t k = 0; k < s.all.size(); ++k)
    if (s.all[k].live) walk(k);

  std::vector<units::Voltage> zero(s.parts);
  out.floating.assign(s.parts, true);
  for (const int node : n.references) {
    const int part = out.part[node];
    if (out.floating[part]) zero[part] = potential(node);
    out.floating[part] = false;
  }
  for (int k = 0; k < n.nodes; ++k) out.potential[k] -= zero[out.part[k]];
  return out;
}

Solver::Solver() = default;
Solver::Solver(Solver&&) noexcept = default;
Solver& Solver::operator=(Solver&&) noexcept = default;
Solver::~Solver() = default;

Result<Solver> Solver::make(const Network& network, const SolveOptions& options) {
  Solver solver;
  solver.parts_ = std::make_unique<Parts>(network, options);
  Parts& p = *solver.parts_;
  auto apart = solve_detail::take_apart(network, options.merge);
  if (!apart) return apart.failure();
  p.s = std::move(*apart);
  p.e.reserve(p.s.all.size());
  for (const Section& s : p.s.all) p.e.push_back(s.e);
  if (auto f = p.prepare()) return *f;
  return solver;
}

void Solver::set_source(int element, units::Voltage e) {
  Parts& p = *parts_;
  const auto entry = std::find_if(p.source.begin(), p.source.end(),
                                  [&](const auto& x) { return x.first == element; });
  if (entry == p.source.end()) {
    p.source.emplace_back(element, e.si());
  } else {
    if (entry->second == e.si()) return;
    entry->second = e.si();
  }
  const int k = p.s.section_of[element];
  Section& s = p.s.all[k];
  s.e = 0;
  for (int l = s.link; l < s.link + s.links; ++l) {
    const auto& link = p.s.links[l];
    double own = linear(p.n.laws[p.n.elements[link.element].law]).value_or(Linear{}).e.si();
    for (const auto& [changed, value] : p.source)
      if (changed == link.element) own = value;
    s.e += link.sign * p.n.elements[link.element].count * own;
  }
  p.e[k] = s.e;
  p.known[k] = 0;
  p.factorised = p.factorised && !s.rigid;
  p.moved = p.moved || s.rigid;
}

Result<Solution> Solver::solve() {
  if (auto f = parts_->run()) return *f;
  return parts_->read();
}

Result<Solver::Port> Solver::solve_port(int element) {
  Parts& p = *parts_;
  if (auto f = p.run()) return *f;
  const int k = p.s.section_of[element];
  const Section& port = p.s.all[k];
  const double sign = p.s.sign_of(element);
  if (!port.live) return Port{};

  // A volt more in the source: how voltages move, and with them every current.
  Eigen::VectorXd dx = Eigen::VectorXd::Zero(p.nodal->rows());
  const auto push = [&](std::size_t at, double di) {
    const auto [f, t] = p.ends[at];
    if (f == t) return;
    if (f >= 0) dx[f] -= di;
    if (t >= 0) dx[t] += di;
  };
  std::vector<double> de(p.s.all.size(), 0);  // change of a section's own voltage, ties included
  if (port.rigid) {
    std::vector<double> e = p.e;
    e[k] += sign;
    const auto moved = solve_detail::tie(p.s, e);
    if (!moved) return moved.failure();
    for (std::size_t j = 0; j < p.s.all.size(); ++j) {
      const Section& s = p.s.all[j];
      if (!p.branch(j)) continue;
      de[j] = -((moved->offset[s.to] - moved->offset[s.from]) -
                (p.ties.offset[s.to] - p.ties.offset[s.from]));
    }
  } else {
    de[k] = sign;
  }
  for (std::size_t j = 0; j < p.s.all.size(); ++j)
    if (de[j] != 0) push(j, p.g[j] * de[j]);
  p.nodal->solve(dx);  // settle() has left the factors at the solution
  const auto change = [&](std::size_t j) {
    const auto [f, t] = p.ends[j];
    const double dv = (t < 0 ? 0 : dx[t]) - (f < 0 ? 0 : dx[f]);
    return p.g[j] * (de[j] - dv);
  };
  std::vector<double> all = p.all_currents();
  if (!port.rigid) return Port{units::amps(sign * all[k]), pv::siemens(sign * change(k))};
  std::vector<double> knot(p.s.node.size(), 0), changes(p.s.all.size(), 0);
  for (std::size_t j = 0; j < p.s.all.size(); ++j) {
    if (!p.branch(j)) continue;
    knot[p.s.all[j].to] += change(j);
    knot[p.s.all[j].from] -= change(j);
  }
  solve_detail::tied_currents(p.s, std::move(knot), changes);
  return Port{units::amps(sign * all[k]), pv::siemens(sign * changes[k])};
}

Result<Solution> solve(const Network& network, const SolveOptions& options) {
  auto solver = Solver::make(network, options);
  if (!solver) return solver.failure();
  return solver->solve();
}

}  // namespace stringwright::circuit
