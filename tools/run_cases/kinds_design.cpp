// Kinds of published cases that the design search answers.
#include <cmath>
#include <cstdint>
#include <vector>

#include "design/cuts/cutting_stock.hpp"
#include "kinds.hpp"

namespace stringwright::run_cases {

/// Minimum number of equal stock lengths, no kerf. Lengths are whole in the unit of the case.
void check_cutting_stock(Answers& a) {
  const std::string unit = a.unit_of("stock_length");
  const auto stock = a.number("stock_length", unit);
  const auto lengths = a.numbers("lengths", unit);
  const auto counts = a.numbers("demand", "1");
  if (!stock || lengths.size() != counts.size()) return a.fail("lengths and demand do not match");
  std::vector<design::CutDemand> demand;
  double material = 0;
  for (std::size_t i = 0; i < lengths.size(); ++i) {
    if (lengths[i] != std::floor(lengths[i])) return a.fail("a length is not whole");
    demand.push_back({static_cast<std::int64_t>(lengths[i]), static_cast<int>(counts[i])});
    material += lengths[i] * counts[i] / *stock;
  }
  const auto plan = design::cut_stock({{static_cast<std::int64_t>(*stock), 1}}, demand);
  if (!plan.possible || !plan.proved()) return a.fail("no proven optimum was found");
  const auto pieces = [&](const char* name, double value) {
    a.answer(name, value, "stock pieces");
  };
  pieces("optimum", static_cast<double>(plan.cost));
  pieces("orlibrary_best_known", static_cast<double>(plan.cost));
  pieces("lp_bound", plan.relaxed);
  constexpr double guard = 1e-7;
  pieces("lp_round_up", std::ceil(plan.relaxed - guard));
  pieces("material_bound", material);
  pieces("first_fit_decreasing", static_cast<double>(plan.first_fit));
}

}  // namespace stringwright::run_cases
