#include "circuit/elements/source.hpp"

namespace stringwright::circuit {

Linear linear(const Source& e) { return {e.e, units::ohms(0)}; }

}  // namespace stringwright::circuit
