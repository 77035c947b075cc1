#pragma once

#include "units/quantity.hpp"

namespace stringwright::pv {

/// Cell temperature on an open rack by the nominal operating cell temperature.
///
///     T_c = T_a + (T_noct − 20 °C) · S / 800 W/m²
///
/// @param noct     nominal operating cell temperature: at 800 W/m², 20 °C air, 1 m/s wind
/// @param ambient  air temperature
/// @param sun      irradiance on the plane of the module, >= 0
///
/// Source: IEC 61215 (definition of NOCT). Limits: linear in the sun; says nothing of wind or a roof
/// close behind. Proved: cases of kind cell_temperature.
units::Temperature cell_temperature(units::Temperature noct, units::Temperature ambient,
                                    units::Irradiance sun);

/// Cell temperature by a rise above air in full sun, proportional to the sun.
///
///     T_c = T_a + rise · S / 1000 W/m²
units::Temperature cell_temperature(units::TemperatureDifference rise, units::Temperature ambient,
                                    units::Irradiance sun);

}  // namespace stringwright::pv
