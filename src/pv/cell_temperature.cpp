#include "pv/cell_temperature.hpp"

#include "pv/constants.hpp"

namespace stringwright::pv {

units::Temperature cell_temperature(units::Temperature noct, units::Temperature ambient,
                                    units::Irradiance sun) {
  return ambient + (noct - units::celsius(20)) * (sun / units::watts_per_square_metre(800));
}

units::Temperature cell_temperature(units::TemperatureDifference rise, units::Temperature ambient,
                                    units::Irradiance sun) {
  return ambient + rise * (sun / stc_irradiance);
}

}  // namespace stringwright::pv
