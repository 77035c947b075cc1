#include "events/response.hpp"

#include "units/print.hpp"

namespace stringwright::events {
namespace {

/// On the rating. Cold air lets a device carry more, but how much is rarely printed; it then opens later
/// than this says, and nobody may count on heat.
double heat(const DevicePole& p, Season season) {
  return season == Season::hot && p.heat_factor ? p.heat_factor->si() : 1.0;
}

}  // namespace

std::string_view word(Opens o) {
  switch (o) {
    case Opens::holds:
      return "holds";
    case Opens::may:
      return "may open";
    case Opens::opens:
      return "opens";
  }
  return "";
}

std::optional<Thresholds> thresholds(const Site& s, const DevicePole& p, Season season) {
  if (!p.rating || !p.protects) return std::nullopt;
  const auto agreed = codebook::device_response(s.convention, *p.rating);
  const units::Current rating = heat(p, season) * *p.rating;
  const auto printed = codebook::opens_within(p.curve, agreed.within);
  return Thresholds{agreed.holds * rating, printed.value_or(agreed.opens) * rating, agreed.within};
}

std::optional<Opens> response(const Site& s, const DevicePole& p, units::Current i, Season season) {
  if (!p.protects) return Opens::holds;
  const auto t = thresholds(s, p, season);
  if (!t) return std::nullopt;
  if (units::at_least(units::abs(i), t->opens)) return Opens::opens;
  return units::at_most(units::abs(i), t->holds) ? Opens::holds : Opens::may;
}

std::optional<units::Time> opening_time(const DevicePole& p, units::Current i, Season season) {
  if (!p.rating || !p.protects) return std::nullopt;
  return codebook::opening_time(p.curve, units::abs(i) / (heat(p, season) * *p.rating));
}

std::string heat_words(const DevicePole& p) {
  if (!p.protects) return {};
  if (p.heat_factor)
    return "its rating counts " + units::print(*p.heat_factor) + " times at " +
           units::print(*p.in_box) + " in the box, by its maker";
  if (p.in_box && p.derating.empty())
    return "at " + units::print(*p.in_box) +
           " in the box it opens earlier; its maker's derating is not given";
  if (p.in_box)
    return "its maker's derating is not printed for the " + units::print(*p.in_box) + " in the box";
  return {};
}

}  // namespace stringwright::events
