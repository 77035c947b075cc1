#include "design/milp.hpp"

#include <coin/Cbc_C_Interface.h>
#include <coin/Clp_C_Interface.h>

#include <memory>
#include <string>

// The one place that knows the solver.
namespace stringwright::design {
namespace {

/// The program column by column, as both interfaces take it.
struct Sparse {
  explicit Sparse(const Program& p)
      : lower(p.columns.size(), 0.0), rows_up(p.at_least.size(), 1e30) {
    start.push_back(0);
    for (const auto& c : p.columns) {
      for (const auto& [row, coefficient] : c.entries) {
        index.push_back(row);
        value.push_back(coefficient);
      }
      start.push_back(static_cast<int>(index.size()));
      cost.push_back(c.cost);
      upper.push_back(c.upper);
    }
  }
  std::vector<int> start, index;
  std::vector<double> value, cost, lower, upper, rows_up;
};

std::vector<double> copy(const double* from, std::size_t n) { return {from, from + n}; }

}  // namespace

std::optional<Solution> solve_linear(const Program& p) {
  const Sparse s(p);
  const std::unique_ptr<Clp_Simplex, decltype(&Clp_deleteModel)> model(Clp_newModel(),
                                                                       &Clp_deleteModel);
  Clp_setLogLevel(model.get(), 0);
  Clp_loadProblem(model.get(), static_cast<int>(p.columns.size()),
                  static_cast<int>(p.at_least.size()), s.start.data(), s.index.data(),
                  s.value.data(), s.lower.data(), s.upper.data(), s.cost.data(), p.at_least.data(),
                  s.rows_up.data());
  Clp_primal(model.get(), 0);
  if (Clp_status(model.get()) != 0) return {};
  Solution found;
  found.value = Clp_objectiveValue(model.get());
  found.x = copy(Clp_primalColumnSolution(model.get()), p.columns.size());
  found.price = copy(Clp_dualRowSolution(model.get()), p.at_least.size());
  return found;
}

IntegerAnswer solve_integer(const Program& p, double cutoff, int nodes) {
  const Sparse s(p);
  const std::unique_ptr<Cbc_Model, decltype(&Cbc_deleteModel)> model(Cbc_newModel(),
                                                                     &Cbc_deleteModel);
  Cbc_setLogLevel(model.get(), 0);
  Cbc_loadProblem(model.get(), static_cast<int>(p.columns.size()),
                  static_cast<int>(p.at_least.size()), s.start.data(), s.index.data(),
                  s.value.data(), s.lower.data(), s.upper.data(), s.cost.data(), p.at_least.data(),
                  s.rows_up.data());
  for (int i = 0; i < static_cast<int>(p.columns.size()); ++i) Cbc_setInteger(model.get(), i);
  Cbc_setParameter(model.get(), "log", "0");
  Cbc_setParameter(model.get(), "ratioGap", "0");
  Cbc_setParameter(model.get(), "maxNodes", std::to_string(nodes).c_str());
  if (cutoff < 1e29) Cbc_setCutoff(model.get(), cutoff);
  Cbc_solve(model.get());

  IntegerAnswer answer;
  answer.proved = Cbc_isProvenOptimal(model.get()) != 0 || Cbc_isProvenInfeasible(model.get()) != 0;
  if (const double* x = Cbc_bestSolution(model.get());
      x && Cbc_numberSavedSolutions(model.get()) > 0) {
    Solution found;
    found.value = Cbc_getObjValue(model.get());
    found.x = copy(x, p.columns.size());
    answer.best = std::move(found);
  }
  return answer;
}

}  // namespace stringwright::design
