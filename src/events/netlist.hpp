#pragma once

#include <string>

#include "base/result.hpp"
#include "events/solve.hpp"

namespace stringwright::events {

/// The network of an event under one sky as a netlist for a general circuit simulator: what it prints
/// is the current of every device, string and conductor and the voltage of every terminal that has a
/// node of its own; comments say which is which.
///
/// @param event  null: the sound network with the equipment working
Result<std::string> netlist(Trials& trials, const Event* event, const Sky& sky);

}  // namespace stringwright::events
