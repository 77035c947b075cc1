#include "circuit/elements/cell_group.hpp"

namespace stringwright::circuit {

Drop at_current(const CellGroup& e, units::Current i) {
  const pv::CurvePoint p = e.curve.at_current(i);
  return {p.v, p.dv_di};
}

Flow at_voltage(const CellGroup& e, units::Voltage v) {
  const pv::CurvePoint p = e.curve.at_voltage(v);
  return {p.i, pv::siemens(1 / p.dv_di.si())};
}

}  // namespace stringwright::circuit
