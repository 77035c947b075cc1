#pragma once

#include <algorithm>
#include <cmath>
#include <limits>

/// Inside of the solver: the interval that holds a root.
namespace stringwright::circuit::solve_detail {

/// Next place to look for a root: the one that is proposed where it stays within the bracket, else the
/// middle.
class Bracket {
 public:
  void narrow(double x, bool root_is_above) { (root_is_above ? lo_ : hi_) = x; }
  double next(double x, double step) {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    ++count_;
    if (!(lo_ > -infinity && hi_ < infinity)) {
      // Newton walks down an exponential by even steps: from the third on each is twice the last.
      return x + step * std::ldexp(1.0, std::max(0, std::min(count_ - 2, 200)));
    }
    const double width = hi_ - lo_;
    const double newton = x + step;
    // It may creep there too: every third step must have halved the bracket.
    const bool creeps = count_ % 3 == 0 && width > 0.5 * width_ && std::fabs(step) > 1e-9 * width;
    if (count_ % 3 == 0) width_ = width;
    if (!creeps && newton > lo_ && newton < hi_) return newton;
    // The middle of their orders of magnitude: an overshoot on an exponential has hundreds of them.
    const double middle = std::sinh((std::asinh(lo_) + std::asinh(hi_)) / 2);
    return middle > lo_ && middle < hi_ && width > 1e-9 * std::fabs(middle) ? middle
                                                                            : lo_ + width / 2;
  }
  bool exhausted() const {
    constexpr double infinity = std::numeric_limits<double>::infinity();
    constexpr double rounding = 8 * std::numeric_limits<double>::epsilon();
    return lo_ > -infinity && hi_ < infinity &&
           hi_ - lo_ <= rounding * std::fmax(std::fabs(lo_), std::fabs(hi_)) + 1e-24;
  }

 private:
  double lo_ = -std::numeric_limits<double>::infinity(),
         hi_ = std::numeric_limits<double>::infinity(),
         width_ = std::numeric_limits<double>::infinity();
  int count_ = 0;
};

}  // namespace stringwright::circuit::solve_detail
