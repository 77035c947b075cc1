#pragma once

#include "circuit/drop.hpp"
#include "pv/single_diode.hpp"

namespace stringwright::circuit {

/// Cells in series under one bypass diode, or a whole module of like groups: pv::Curve.
struct CellGroup {
  pv::Curve curve;
};

Drop at_current(const CellGroup& e, units::Current i);
Flow at_voltage(const CellGroup& e, units::Voltage v);

}  // namespace stringwright::circuit
