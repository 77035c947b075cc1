#pragma once

#include "codebook/edition.hpp"
#include "codebook/facts.hpp"
#include "codebook/methods/building.hpp"

namespace stringwright::codebook {

/// Whether the edition lets an array do without ground-fault protection, which is also where a pole may
/// be grounded solidly (2017 and later).
///
/// Source: NFPA 70, 2014 690.5 exception (ground or pole mount, at most two source circuits, apart from
/// buildings; the further one of 2011 for twice the ground wire is gone); 2017 690.41(B) exception (at most two
/// source circuits, nothing on or in a building, solidly grounded); 2020 690.41(B)(2) exception (two
/// modules in parallel in place of two source circuits, which comes to the same count of strings).
/// Proved: cases/rules/ground_fault_protection.toml.
Answer may_do_without_ground_fault(const Facts& facts, const Edition& edition);

}  // namespace stringwright::codebook
