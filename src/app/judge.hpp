#pragma once

#include <string>
#include <vector>

#include "app/circuit_of.hpp"
#include "check/finding.hpp"
#include "codebook/edition.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::app {

/// What check says of a wiring, events included, and the circuit it was asked with.
struct Judged {
  Circuit circuit;
  check::Report report;
};

/// The one judge: `check`, the papers and the design search all ask it.
/// @param remarks  what could not be computed, and why, is added
Judged judge(const wiring::Wiring& w, const codebook::Edition& edition,
             std::vector<std::string>& remarks);

}  // namespace stringwright::app
