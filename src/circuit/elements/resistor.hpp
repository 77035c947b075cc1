#pragma once

#include "circuit/drop.hpp"

namespace stringwright::circuit {

/// Conductor, contact, earthing resistance, load: v = −r · i, r > 0. Where r is 0 use a Joint.
struct Resistor {
  units::Resistance r;
};

Linear linear(const Resistor& e);

}  // namespace stringwright::circuit
