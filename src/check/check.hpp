#pragma once

#include "check/facts.hpp"
#include "check/finding.hpp"
#include "codebook/rule.hpp"
#include "events/table.hpp"

namespace stringwright::check {

/// What faults and mistakes do to a wiring.
struct Events {
  const events::Site& site;
  const events::Table& table;
};

/// Judge a wiring by every rule of the edition. Pure: same wiring, same edition, same report.
///
/// @param events  null: the rules about events are not asked
Report check(const wiring::Wiring& w, const codebook::Edition& edition,
             const Events* events = nullptr);

/// The events that findings need: those about too much current.
std::vector<events::Event> events_to_judge(const events::Site& site);

/// What stands in a report where the circuit could not be solved: nothing is told of faults, and that is
/// never a pass.
Finding not_solved(const std::string& why);

/// One rule asked of one thing: what `check` and the search both call.
Finding ask(const codebook::Rule& rule, const Judged& judged, const codebook::Edition& edition);

}  // namespace stringwright::check
