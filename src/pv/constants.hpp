#pragma once

#include "units/quantity.hpp"

/// What light makes of a module: its curve from a data sheet, under any sun and temperature.
namespace stringwright::pv {

/// Physical constants of the thermal voltage kT/q. The charge in volts per joule cancels: only k/q
/// and k in eV/K matter here, and both are the same number.
struct Constants {
  double k = 1.380649e-23;     ///< Boltzmann constant [J/K]
  double q = 1.602176634e-19;  ///< elementary charge [C]

  constexpr double k_over_q() const { return k / q; }  ///< [V/K]

  /// kT/q at temperature `t`.
  constexpr units::Voltage thermal_voltage(units::Temperature t) const {
    return units::volts(k_over_q() * t.kelvin());
  }
};

/// Exact by definition since 2019 (SI brochure, 9th edition).
inline constexpr Constants si_2019{};

/// CODATA 2014, as circuit simulators of that age use them: kT/q is 3.4e-7 smaller. For comparison only.
inline constexpr Constants codata_2014{.k = 1.38064852e-23, .q = 1.6021766208e-19};

/// Standard test conditions.
inline constexpr units::Irradiance stc_irradiance = units::watts_per_square_metre(1000);
inline constexpr units::Temperature stc_temperature = units::celsius(25);

}  // namespace stringwright::pv
