#pragma once

#include "base/result.hpp"
#include "circuit/solve.hpp"
#include "units/quantity.hpp"

namespace stringwright::circuit {

/// The voltage of a source at which it takes the most power from the rest of the network, all other
/// sources held; the solver is left there.
///
/// With `one_maximum` the slope of the power has one root and is followed to it. Else intervals of the
/// voltage are halved, those first whose bound b · I(a) is largest (the current never rises with the
/// voltage), until no interval can hold more than `certain` above the best point; the maximum around
/// that point is then followed to its own root. Local maxima nearer to each other than `certain` count
/// as the same.
struct MaximumPower {
  units::Voltage v;
  units::Current i;  ///< taken
  int solves = 0;
};
Result<MaximumPower> find_maximum_power(Solver& solver, int source, units::Voltage likely_v_oc,
                                        bool one_maximum, double certain = 1e-3);

/// The voltage of a source at which it takes no current.
Result<units::Voltage> find_open_circuit(Solver& solver, int source, units::Voltage likely_v_oc);

}  // namespace stringwright::circuit
