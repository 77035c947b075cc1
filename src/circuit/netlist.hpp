#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "circuit/network.hpp"

namespace stringwright::circuit {

/// The network as plain SPICE elements, to be solved by a circuit simulator. Node k is named `nk`, its
/// reference `0`; element k carries its current through a zero-volt source `vik`, positive out of plus.
/// Constants are written so that neither the simulator's kT/q nor its default temperature matters;
/// notes in docs/methods/circuit.md.
///
/// @param print  vectors to print, as the simulator writes them: "v(n3)", "i(vi7)"
std::string netlist(const Network& network, std::string_view title,
                    const std::vector<std::string>& print);

}  // namespace stringwright::circuit
