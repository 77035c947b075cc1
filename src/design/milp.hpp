#pragma once

#include <optional>
#include <utility>
#include <vector>

/// Linear and integer programs, solved by a kept solver (CBC and CLP of COIN-OR) behind one .cpp.
namespace stringwright::design {

/// Minimise c·x with A·x ≥ b and x ≥ 0.
struct Program {
  struct Column {
    double cost = 0;
    std::vector<std::pair<int, double>> entries;  ///< row and coefficient, rows ascending
    double upper = 1e30;
  };
  std::vector<double> at_least;  ///< b, one a row
  std::vector<Column> columns;
};

struct Solution {
  double value = 0;
  std::vector<double> x;      ///< by column
  std::vector<double> price;  ///< dual value of each row; of a linear program only
};

/// The optimum over real x; empty where there is none.
std::optional<Solution> solve_linear(const Program& p);

/// The optimum over whole x. Empty where there is none below `cutoff`, or where the search was given up after
/// `nodes` nodes: `proved` tells the two apart. Limits are counts, never time: same input, same answer.
struct IntegerAnswer {
  std::optional<Solution> best;  ///< the best found
  bool proved = false;           ///< it is the optimum; or, where there is none, none exists
};
IntegerAnswer solve_integer(const Program& p, double cutoff, int nodes);

}  // namespace stringwright::design
