#pragma once

#include <optional>
#include <string_view>

#include "codebook/device_response.hpp"
#include "events/site.hpp"
#include "units/quantity.hpp"

namespace stringwright::events {

/// What a device does under a current, by the convention: it holds, may open and need not, or opens.
enum class Opens { holds, may, opens };
std::string_view word(Opens o);  ///< "holds", "may open", "opens"

/// None where the rating is not known. A disconnect never opens by itself.
std::optional<Opens> response(const Site& s, const DevicePole& p, units::Current i);

/// Current from which on a pole opens within the conventional time; none: never, or not known.
std::optional<units::Current> opening_current(const Site& s, const DevicePole& p);
/// Current up to which it holds.
std::optional<units::Current> holding_current(const Site& s, const DevicePole& p);

}  // namespace stringwright::events
