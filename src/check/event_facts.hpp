#pragma once

#include <vector>

#include "check/facts.hpp"
#include "events/table.hpp"

namespace stringwright::check {

/// Adds to the facts what events do to each thing: strings (modules and conductors), devices, outputs,
/// inputs. What holds for the string that was solved holds for all that are alike.
/// Brings what the table knows of ampacities along.
void add_events(const events::Site& site, const events::Table& table, std::vector<Judged>& all);

}  // namespace stringwright::check
