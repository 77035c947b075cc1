#pragma once

#include <cstdint>
#include <vector>

/// One-dimensional cutting stock: pieces cut from stock lengths at least cost, to a proven optimum.
/// Lengths are whole numbers of one unit (millimetres in cut plans), so that nothing depends on rounding.
namespace stringwright::design {

struct StockLength {
  std::int64_t length = 0;
  std::int64_t cost = 1;  ///< 1 everywhere: the number of stock pieces is made least
};
struct CutDemand {
  std::int64_t length = 0;
  int count = 0;
};

/// What is cut from one stock piece, and how often.
struct Pattern {
  int stock = 0;
  std::vector<int> count;  ///< by demand
  int times = 0;
};

struct CuttingPlan {
  std::vector<Pattern> patterns;
  std::int64_t cost = 0;
  std::int64_t first_fit = 0;  ///< cost by first fit, longest pieces first, for comparison
  double relaxed = 0;          ///< optimum of the linear relaxation over patterns
  std::int64_t bound = 0;      ///< proven: no plan costs less
  bool proved() const { return cost == bound; }
  bool possible = true;  ///< false: a piece is longer than all stock
};

/// Patterns by column generation give the relaxation and with it a bound; first fit, longest pieces first, and the kept
/// integer solver over those patterns give a plan. Where the two still differ, every pattern that a
/// cheaper plan could use (reduced cost within the gap) is listed and the integer program over all of
/// them decides. If those are too many, the plan stands with the bound that is proven.
///
/// Sources: Gilmore, P. C., Gomory, R. E., "A linear programming approach to the cutting-stock problem",
/// Operations Research 9 (1961) 849-859; bound from an unfinished relaxation: Farley, A. A., "A note on
/// bounding a class of linear programming problems", Operations Research 38 (1990) 922-923.
CuttingPlan cut_stock(const std::vector<StockLength>& stock, const std::vector<CutDemand>& demand);

}  // namespace stringwright::design
