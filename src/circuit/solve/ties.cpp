#include "circuit/solve/ties.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include <Eigen/Dense>

namespace stringwright::circuit::solve_detail {

Result<Ties> tie(const Sections& s, const std::vector<double>& e) {
  const int knots = static_cast<int>(s.node.size());
  std::vector<int> root(knots);
  std::iota(root.begin(), root.end(), 0);
  std::vector<double> above(knots, 0);  // voltage against the root
  const auto find = [&](int k) {
    double sum = 0;
    int r = k;
    while (root[r] != r) {
      sum += above[r];
      r = root[r];
    }
    root[k] = r;
    above[k] = r == k ? 0 : sum;
    return r;
  };
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    const Section& x = s.all[k];
    if (!x.live || !x.rigid) continue;
    const int from = find(x.from), to = find(x.to);
    if (from == to) {
      const double miss = above[x.from] + e[k] - above[x.to];
      if (std::fabs(miss) > 1e-9 * std::fmax(1, std::fabs(e[k]))) {
        return Failure{
            "circuit.source-loop",
            "ideal sources in a ring without resistance differ by " + std::to_string(miss) + " V"};
      }
      continue;
    }
    root[to] = from;  // V(to's root) = V(from) + e − (V(to) − V(to's root))
    above[to] = above[x.from] + e[k] - above[x.to];
  }
  Ties t;
  t.group.assign(knots, -1);
  t.offset.resize(knots);
  std::vector<int> number(knots, -1);
  for (int k = 0; k < knots; ++k) {
    int& n = number[find(k)];
    if (n < 0) n = t.groups++;
    t.group[k] = n;
    t.offset[k] = above[k];
  }
  return t;
}

void tied_currents(const Sections& s, std::vector<double> into, std::vector<double>& i) {
  const int knots = static_cast<int>(s.node.size());
  std::vector<int> open;  // rigid sections without an answer yet
  std::vector<int> degree(knots, 0);
  for (std::size_t k = 0; k < s.all.size(); ++k) {
    const Section& x = s.all[k];
    if (!x.live || !x.rigid) continue;
    i[k] = 0;
    if (x.from == x.to) continue;
    open.push_back(static_cast<int>(k));
    ++degree[x.from];
    ++degree[x.to];
  }
  // A knot with one open section gives its current away; repeat until only rings are left.
  bool found = true;
  while (found && !open.empty()) {
    found = false;
    std::size_t kept = 0;
    for (const int k : open) {
      const Section& x = s.all[k];
      const int leaf = degree[x.to] == 1 ? x.to : degree[x.from] == 1 ? x.from : -1;
      if (leaf < 0) {
        open[kept++] = k;
        continue;
      }
      i[k] = leaf == x.to ? -into[x.to] : into[x.from];
      into[x.to] += i[k];
      into[x.from] -= i[k];
      --degree[x.to];
      --degree[x.from];
      found = true;
    }
    open.resize(kept);
  }
  if (open.empty()) return;

  // Rings: the Laplacian of equal resistances, one knot of each ring held by a small shunt.
  std::vector<int> row(knots, -1);
  int rows = 0;
  for (const int k : open)
    for (const int knot : {s.all[k].from, s.all[k].to})
      if (row[knot] < 0) row[knot] = rows++;
  Eigen::MatrixXd a = Eigen::MatrixXd::Identity(rows, rows) * 1e-12;
  Eigen::VectorXd b = Eigen::VectorXd::Zero(rows);
  for (int knot = 0; knot < knots; ++knot)
    if (row[knot] >= 0) b[row[knot]] = into[knot];
  if (b.cwiseAbs().maxCoeff() < 1e-15) return;
  for (const int k : open) {
    const int f = row[s.all[k].from], t = row[s.all[k].to];
    a(f, f) += 1;
    a(t, t) += 1;
    a(f, t) -= 1;
    a(t, f) -= 1;
  }
  const Eigen::VectorXd v = a.ldlt().solve(b);
  for (const int k : open) i[k] = v[row[s.all[k].from]] - v[row[s.all[k].to]];
}

}  // namespace stringwright::circuit::solve_detail
