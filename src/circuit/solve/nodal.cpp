#include "circuit/solve/nodal.hpp"

#include <algorithm>
#include <cmath>

namespace stringwright::circuit::solve_detail {
namespace {

/// Keeps a node that nothing holds (all its branches block) from being undetermined.
constexpr double least_conductance = 1e-15;

}  // namespace

Nodal::Nodal(int rows, const std::vector<std::pair<int, int>>& branches)
    : rows_(rows), slots_(branches.size()), a_(rows, rows) {
  std::vector<Eigen::Triplet<double>> entries;
  entries.reserve(rows + branches.size());
  for (int k = 0; k < rows; ++k) entries.emplace_back(k, k, 1.0);
  for (const auto& [f, t] : branches)
    if (f >= 0 && t >= 0 && f != t) entries.emplace_back(std::max(f, t), std::min(f, t), 0.0);
  a_.setFromTriplets(entries.begin(), entries.end());
  a_.makeCompressed();
  const auto slot = [&](int row, int column) {
    const int* first = a_.innerIndexPtr() + a_.outerIndexPtr()[column];
    const int* last = a_.innerIndexPtr() + a_.outerIndexPtr()[column + 1];
    return static_cast<int>(std::lower_bound(first, last, row) - a_.innerIndexPtr());
  };
  for (std::size_t k = 0; k < branches.size(); ++k) {
    const auto [f, t] = branches[k];
    if (f == t) continue;
    if (f >= 0) slots_[k].from = slot(f, f);
    if (t >= 0) slots_[k].to = slot(t, t);
    if (f >= 0 && t >= 0) slots_[k].between = slot(std::max(f, t), std::min(f, t));
  }
  if (rows > 1) ldlt_.analyzePattern(a_);
}

void Nodal::factorise(const std::vector<double>& g) {
  double* value = a_.valuePtr();
  std::fill(value, value + a_.nonZeros(), 0.0);
  for (std::size_t k = 0; k < slots_.size(); ++k) {
    const Slots& s = slots_[k];
    if (s.from >= 0) value[s.from] += g[k];
    if (s.to >= 0) value[s.to] += g[k];
    if (s.between >= 0) value[s.between] -= g[k];
  }
  for (int k = 0; k < rows_; ++k)
    value[a_.outerIndexPtr()[k]] += least_conductance;  // the diagonal comes first
  if (rows_ > 1) ldlt_.factorize(a_);
}

void Nodal::solve(Eigen::VectorXd& x) const {
  if (rows_ == 1) {
    x[0] /= a_.valuePtr()[0];
  } else if (rows_ > 1) {
    x = ldlt_.solve(x);
  }
}

}  // namespace stringwright::circuit::solve_detail
