#pragma once

#include <compare>
#include <cstdint>
#include <functional>
#include <vector>

namespace stringwright::design {

/// What a choice costs, compared part by part: money first (hundredths), then the number of cables, then
/// their length (millimetres), then how many of them two strings share. An ordered group, which is all that
/// assignment needs.
struct Cost {
  std::int64_t money = 0, cables = 0, length = 0, shared = 0;
  friend auto operator<=>(const Cost&, const Cost&) = default;
  friend Cost operator+(Cost x, Cost y) {
    return {x.money + y.money, x.cables + y.cables, x.length + y.length, x.shared + y.shared};
  }
  friend Cost operator-(Cost x, Cost y) {
    return {x.money - y.money, x.cables - y.cables, x.length - y.length, x.shared - y.shared};
  }
};

/// Each row matched with one column of its own.
struct Assignment {
  std::vector<int> column_of;  ///< by row
  Cost total;
  /// The prices of rows and columns that the search ends with are a lower bound of every assignment; true
  /// where it equals `total`, checked again over all pairs.
  bool proved = false;
};

/// The cheapest assignment of n rows to n columns.
///
/// Shortest augmenting paths with potentials, n³ steps. Source: Kuhn, H. W., "The Hungarian method for the
/// assignment problem", Naval Research Logistics Quarterly 2 (1955) 83-97; the proof is linear programming
/// duality: u_i + v_j ≤ c_ij for all i, j makes Σu + Σv a lower bound.
Assignment assign(int n, const std::function<Cost(int row, int column)>& cost);

}  // namespace stringwright::design
