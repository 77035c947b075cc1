#pragma once

#include "units/quantity.hpp"

namespace stringwright::pv {

using ResistancePerKelvin = units::Quantity<units::dim::resistance - units::dim::kelvin>;

/// One point of a measured curve.
struct IvPoint {
  units::Voltage v;
  units::Current i;
};

/// Light and cell temperature under which a curve was, or would be, measured.
struct Sky {
  units::Irradiance sun;
  units::Temperature cell;
};

/// What carries a curve of one module, or of a whole string, from one sky to another.
struct TranslationCoefficients {
  units::CurrentPerKelvin alpha;  ///< of I_sc, absolute
  units::VoltagePerKelvin beta;   ///< of V_oc, absolute, negative
  units::Resistance r_s;          ///< internal series resistance
  ResistancePerKelvin kappa;      ///< curve correction factor
};

/// A measured point as it would be under another sky: correction procedure 1.
///
///     I_2 = I_1 + I_sc1 · (G_2/G_1 − 1) + α · (T_2 − T_1)
///     V_2 = V_1 − R_s · (I_2 − I_1) − κ · I_2 · (T_2 − T_1) + β · (T_2 − T_1)
///
/// @param i_sc  short-circuit current measured with the point, under `from`
///
/// Source: IEC 60891, correction procedure 1 (from memory). Limits: steps of the sun of about 20 %.
/// Proved: cases of kind iv_translation.
IvPoint translate(const IvPoint& point, units::Current i_sc, const Sky& from, const Sky& to,
                  const TranslationCoefficients& c);

/// A value of the data sheet at another cell temperature: x · (1 + c · (T − 25 °C)).
template <units::Dimension D>
units::Quantity<D> by_coefficient(units::Quantity<D> at_25, units::PerKelvin c,
                                  units::Temperature cell) {
  return at_25 * (1 + c * (cell - units::celsius(25)));
}

}  // namespace stringwright::pv
