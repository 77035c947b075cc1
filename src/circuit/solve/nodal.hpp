#pragma once

#include <utility>
#include <vector>

#include <Eigen/SparseCholesky>
#include <Eigen/SparseCore>

/// Inside of the solver: the Laplacian of the sections between groups of knots.
namespace stringwright::circuit::solve_detail {

/// Symmetric positive definite matrix of conductances, one row per free node, and its LDLᵀ. The pattern
/// is analysed once.
class Nodal {
 public:
  /// @param branches  rows of the two ends of each branch; -1: held, or no branch at all
  Nodal(int rows, const std::vector<std::pair<int, int>>& branches);

  int rows() const { return rows_; }

  /// @param g  conductance of each branch [S], >= 0
  void factorise(const std::vector<double>& g);
  /// Solves in place.
  void solve(Eigen::VectorXd& x) const;

 private:
  struct Slots {  // where a branch stands in the values; -1: nowhere
    int from = -1, to = -1, between = -1;
  };
  int rows_;
  std::vector<Slots> slots_;
  Eigen::SparseMatrix<double> a_;
  Eigen::SimplicialLDLT<Eigen::SparseMatrix<double>, Eigen::Lower> ldlt_;
};

}  // namespace stringwright::circuit::solve_detail
