#pragma once

#include "circuit/drop.hpp"

namespace stringwright::circuit {

/// Ideal voltage source: the input of equipment that holds its voltage, a battery. v = e.
struct Source {
  units::Voltage e;
};

Linear linear(const Source& e);

}  // namespace stringwright::circuit
