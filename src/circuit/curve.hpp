#pragma once

#include <vector>

#include "base/result.hpp"
#include "circuit/build.hpp"
#include "units/quantity.hpp"

namespace stringwright::circuit {

/// Current-voltage curves at one input: of the whole, and of each string at its landing, on the same
/// voltages of the input.
struct IvCurve {
  std::vector<units::Voltage> v;                      ///< [n_points] at the input, rising from 0
  std::vector<units::Current> i;                      ///< [n_points] into the input
  std::vector<std::vector<units::Voltage>> string_v;  ///< [n_strings][n_points] at the landing
  std::vector<std::vector<units::Current>> string_i;  ///< [n_strings][n_points]
};

/// Sweeps the voltage of `input` from 0 to open circuit in `points` >= 2 equal steps; other inputs keep
/// the port the state gives them.
Result<IvCurve> iv_curve(const wiring::Wiring& w, const Models& models,
                         const Resistances& resistances, const State& state, int input,
                         int points = 201, const SolveOptions& options = {});

}  // namespace stringwright::circuit
