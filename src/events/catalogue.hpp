#pragma once

#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "events/event.hpp"

namespace stringwright::events {

/// Every event that a wiring is asked about, in the order of kinds/all.cpp, one for all places that are
/// alike.
std::vector<Event> catalogue(const Site& s);

/// The event of an id: one of the catalogue, or the same kind at any other place. A failure names the
/// kinds, or what is wrong with the place.
Result<Event> find_event(const Site& s, std::string_view id);

}  // namespace stringwright::events
