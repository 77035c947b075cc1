#pragma once

#include "circuit/drop.hpp"

namespace stringwright::circuit {

/// Ideal joint: a closed device, a conductor whose resistance does not count. v = 0. An open device is
/// no element at all.
struct Joint {};

Linear linear(const Joint& e);

}  // namespace stringwright::circuit
