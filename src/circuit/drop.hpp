#pragma once

#include "pv/single_diode.hpp"
#include "units/quantity.hpp"

namespace stringwright::circuit {

/// Voltage of an element that carries a given current: v = V(plus) − V(minus), current out of the plus
/// end. It never rises with the current.
struct Drop {
  units::Voltage v;
  units::Resistance dv_di;  ///< <= 0
};

/// Current of an element under a given voltage.
struct Flow {
  units::Current i;
  pv::Conductance di_dv;  ///< <= 0
};

/// v = e − r · i: a source behind a resistance.
struct Linear {
  units::Voltage e;
  units::Resistance r;  ///< >= 0
};

}  // namespace stringwright::circuit
