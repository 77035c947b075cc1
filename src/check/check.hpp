#pragma once

#include "check/facts.hpp"
#include "check/finding.hpp"
#include "codebook/rule.hpp"

namespace stringwright::check {

/// Judge a wiring by every rule of the edition. Pure: same wiring, same edition, same report.
Report check(const wiring::Wiring& w, const codebook::Edition& edition);

/// One rule asked of one thing: what `check` and the search both call.
Finding ask(const codebook::Rule& rule, const Judged& judged, const codebook::Edition& edition);

}  // namespace stringwright::check
