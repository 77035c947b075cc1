#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "circuit/network.hpp"

namespace stringwright::circuit {

/// Name of every node in a netlist: "n3", or "0" for the reference of its part.
std::vector<std::string> node_names(const Network& network);

/// The network as plain SPICE elements, to be solved by a circuit simulator. Node k is named `nk`, its
/// reference `0`; element k carries its current through a zero-volt source `vik`, positive out of plus.
/// Constants are written so that neither the simulator's kT/q nor its default temperature matters;
/// notes in docs/methods/circuit.md.
///
/// @param print  vectors to print, as the simulator writes them: "v(n3)", "i(vi7)"
/// @param tight  ask for all that a double holds; where a circuit is stiff (a short beside gigaohms of
///               dark cells) a simulator may then find no point at all, and 1e-10 is enough to compare
std::string netlist(const Network& network, std::string_view title,
                    const std::vector<std::string>& print, bool tight = true);

}  // namespace stringwright::circuit
