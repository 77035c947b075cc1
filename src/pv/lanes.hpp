#pragma once

#include <cstddef>
#include <vector>

#include "pv/single_diode.hpp"

namespace stringwright::pv {

/// Curves evaluated many at a time, each under a current of its own, in the vector registers of the
/// processor. For the inside of solvers: numbers are SI, arrays are plain.
///
/// What a lane gives depends on nothing but what went into it: every target of the build does the same
/// operations in the same order (no fused multiply-add, its own exponential), so the answers are the
/// same to the last bit on every processor, and those of Curve::at_current to rounding. A lane
/// remembers where it stood: the next current is reached from there, the nearer the sooner. From nearby it
/// takes one exponential.
///
/// Proved: lanes_test.cpp (Curve on random curves and currents, derivatives, every target).
class Lanes {
 public:
  /// Lanes are kept in blocks of so many; a call works on whole blocks.
  static constexpr std::size_t block = 8;

  /// Curves with reverse breakdown have no closed form, and no lane.
  static bool takes(const Curve& curve) { return !curve.group_.breakdown; }

  /// What is asked of a lane once.
  struct Added {
    double i_sc;  ///< current of the curve at no voltage
    double r_s;   ///< series resistance
    /// The smallest voltage over which the current can change e-fold: within a small part of it the
    /// derivatives stay what they are.
    double sharpness;
  };
  /// The curve must stay where it is.
  ///
  /// @param count  alike ones in series, on top of those of the curve
  Added add(const Curve& curve, double count = 1);
  void reserve(std::size_t lanes);
  std::size_t size() const { return curve_.size(); }

  /// What comes back for each lane.
  struct Answers {
    double* v;    ///< voltage [V]
    double* dv;   ///< its derivative by the current [V/A], < 0
    double* d2v;  ///< the second [V/A²]
    double* d3v;  ///< a bound of the third's magnitude, here and nearby [V/A³]
  };
  /// Lanes [first, first + n) under the currents `i`. In all arrays the first lane stands at `lead(first)`,
  /// and there is room for `room(n)` numbers; what stands around the n of `out` is overwritten.
  void at_currents(std::size_t first, std::size_t n, const double* i, const Answers& out);
  static constexpr std::size_t lead(std::size_t first) { return first % block; }
  static constexpr std::size_t room(std::size_t n) { return n + 2 * block; }

  /// The same, one after the other by Curve's own functions: what the lanes are measured against.
  void at_currents_one_by_one(std::size_t first, std::size_t n, const double* i,
                              const Answers& out) const;

  /// What with_bypass() needs of the lanes of a block, `[block]` each.
  struct Bypassed {
    double photo[block], saturation[block], ideality[block], series[block], shunt[block];
    double bypass_i_s[block], bypass_a[block], short_circuit[block];
  };
  void bypassed(std::size_t first_lane, Bypassed& out) const;

  /// Numbers of a lane, those of a block one after the other; alike ones in series are one of `count`
  /// times the voltage.
  enum Column : std::size_t {
    offset,        ///< i_ph + i_0 − i_s
    per_amp,       ///< 1/(g·a) of one group
    log_i,         ///< ln(i_0/(g·a)) of one group
    ideality,      ///< a
    log_v,         ///< a·ln(i_0/(g·a)) + i_s·r_s
    series,        ///< r_s
    blocks_above,  ///< the bypass diode carries nothing from this voltage of the cells on
    lambda,        ///< where the lane stood: λ (NaN: nowhere yet), e^λ and 1/(1 + e^λ)
    omega,
    share,
    columns
  };

 private:
  void one(std::size_t lane, double i, const Answers& out, std::size_t k) const;

  std::vector<double> data_;  // [blocks][columns][block]
  std::vector<const Curve*> curve_;
  std::vector<double> groups_;  // in series, all in all
};

}  // namespace stringwright::pv
