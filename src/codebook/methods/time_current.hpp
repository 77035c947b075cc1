#pragma once

#include <optional>
#include <vector>

#include "units/quantity.hpp"

/// What a maker's printed points say of a device between them.
namespace stringwright::codebook {

/// A point of a time-current curve: at `times` the rating, opened within `within`.
struct TimeCurrent {
  units::Ratio times = 1.0;
  units::Time within;
};

/// Time within which a device has opened at `times` its rating: between the points along a straight line in
/// logarithms, above the last one as fast as there. None below the first: nobody has printed it.
///
///     log t = log t₁ + (log x − log x₁) · (log t₂ − log t₁) / (log x₂ − log x₁)
///
/// @param points  rising in `times`; the slow side of the maker's band
///
/// Source: time-current curves are printed on logarithmic scales and read so (IEC 60269-1, 8.4). Limits:
/// the points' own ambient. Proved: an adiabatic curve, I²·t constant, is a straight line of slope −2.
std::optional<units::Time> opening_time(const std::vector<TimeCurrent>& points, units::Ratio times);

/// The least multiple of the rating at which the points promise opening within `limit`; none: at none.
/// What opens faster than `limit` at the first point already is promised from that point on only.
std::optional<units::Ratio> opens_within(const std::vector<TimeCurrent>& points, units::Time limit);

/// A maker's factor on the rating at a temperature around the device.
struct Derating {
  units::Temperature ambient;
  units::Ratio factor = 1.0;
};

/// The factor at `ambient`: between the points along a straight line; none outside of them, for nobody has
/// printed it.
///
/// @param points  rising in `ambient`
std::optional<units::Ratio> derating(const std::vector<Derating>& points,
                                     units::Temperature ambient);

}  // namespace stringwright::codebook
