#pragma once

#include "circuit/drop.hpp"

namespace stringwright::circuit {

/// A diode with its cathode at the plus end, so that current leaves at plus when it conducts, with a
/// leak that keeps its voltage defined under any current:
///
///     i = i_s · (e^(−v/a) − 1) − leak · v
struct Diode {
  units::Current i_s = units::amps(1e-6);
  units::Voltage a;  ///< n · kT/q
  pv::Conductance leak = pv::siemens(1e-12);
};

Drop at_current(const Diode& e, units::Current i);
Flow at_voltage(const Diode& e, units::Voltage v);

}  // namespace stringwright::circuit
