#include "circuit/elements/resistor.hpp"

namespace stringwright::circuit {

Linear linear(const Resistor& e) { return {units::volts(0), e.r}; }

}  // namespace stringwright::circuit
