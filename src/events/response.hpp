#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "codebook/device_response.hpp"
#include "events/site.hpp"
#include "units/quantity.hpp"

namespace stringwright::events {

/// What a device does under a current that lasts: it holds, may open and need not, or opens.
enum class Opens { holds, may, opens };
std::string_view word(Opens o);  ///< "holds", "may open", "opens"

/// Between which currents a pole's device changes its answer.
///
///     I_h = k_h · f · I_n,    I_o = k_o · f · I_n
///
/// I_n  rating; f the maker's derating in the heat of its box, 1 where it is not known or the season is cold
/// k_h, k_o  conventional currents of its family; k_o by the part's printed curve where it has one
struct Thresholds {
  units::Current holds, opens;
  units::Time within;  ///< conventional time
};
/// None where the rating is not known, and for a disconnect, which never opens by itself.
std::optional<Thresholds> thresholds(const Site& s, const DevicePole& p, Season season);

/// None where the rating is not known. A disconnect holds.
std::optional<Opens> response(const Site& s, const DevicePole& p, units::Current i, Season season);

/// Time within which it has opened, by the part's printed points; none where they say nothing.
std::optional<units::Time> opening_time(const DevicePole& p, units::Current i, Season season);

/// "its derating at 65 °C, 0.84", or why the heat of its box is not counted; "" where there is nothing to say.
std::string heat_words(const DevicePole& p);

}  // namespace stringwright::events
