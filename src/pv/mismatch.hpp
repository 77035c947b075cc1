#pragma once

#include "units/quantity.hpp"

namespace stringwright::pv {

/// C of an ideal cell I = I_ph · (1 − (e^(C·V/V_oc) − 1)/(e^C − 1)) near its maximum power, from its fill
/// factor:
///
///     FF = C² / ((1 + C) · (C + ln(1 + C)))
///
/// @param fill_factor  0.3 to 0.95
///
/// Source: Bucciarelli, Solar Energy 23 (1979) 277-288 (from memory). Proved: cases of kind mismatch_loss.
double shape_constant(double fill_factor);

/// Expected loss of a series string of `cells` whose maximum-power currents scatter by `sigma`, against the
/// sum of what each could give:
///
///     loss = (C + 2)/2 · σ² · (1 − 1/N)
///
/// @param sigma  standard deviation, relative; small: the next order is left out
/// Source: the same. Limits: no bypass diode conducts.
units::Ratio series_mismatch_loss(double shape, double sigma, int cells);

}  // namespace stringwright::pv
