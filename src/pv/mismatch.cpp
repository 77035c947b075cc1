#include "pv/mismatch.hpp"

#include <cmath>

namespace stringwright::pv {

double shape_constant(double fill_factor) {
  // The fill factor rises with C: bisection.
  const auto of = [](double c) { return c * c / ((1 + c) * (c + std::log1p(c))); };
  double low = 1e-3, high = 1e4;
  for (int k = 0; k < 200; ++k) {
    const double mid = std::sqrt(low * high);
    (of(mid) < fill_factor ? low : high) = mid;
  }
  return std::sqrt(low * high);
}

units::Ratio series_mismatch_loss(double shape, double sigma, int cells) {
  return units::Ratio((shape + 2) / 2 * sigma * sigma * (1 - 1.0 / cells));
}

}  // namespace stringwright::pv
