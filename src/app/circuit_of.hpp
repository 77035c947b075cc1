#pragma once

#include <optional>
#include <string>
#include <vector>

#include "circuit/build.hpp"
#include "codebook/edition.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::app {

/// What a wiring's circuit is solved with. Where wire or length is not known a conductor counts as
/// ideal, and a remark says which.
struct Circuit {
  circuit::Models models;
  circuit::Resistances resistances;
  bool solvable = false;  ///< every module has a model, and there are strings and an input
};
Circuit circuit_of(const wiring::Wiring& w, const codebook::Edition& edition,
                   std::vector<std::string>& remarks);

}  // namespace stringwright::app
