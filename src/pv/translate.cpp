#include "pv/translate.hpp"

namespace stringwright::pv {

IvPoint translate(const IvPoint& point, units::Current i_sc, const Sky& from, const Sky& to,
                  const TranslationCoefficients& c) {
  const units::TemperatureDifference dt = to.cell - from.cell;
  IvPoint out;
  out.i = point.i + i_sc * (to.sun / from.sun - 1.0) + c.alpha * dt;
  out.v = point.v - c.r_s * (out.i - point.i) - c.kappa * out.i * dt + c.beta * dt;
  return out;
}

}  // namespace stringwright::pv
