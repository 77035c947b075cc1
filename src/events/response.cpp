#include "events/response.hpp"

namespace stringwright::events {

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

std::optional<units::Current> opening_current(const Site& s, const DevicePole& p) {
  if (!p.rating || !p.protects) return std::nullopt;
  return codebook::device_response(s.convention, *p.rating).opens * *p.rating;
}

std::optional<units::Current> holding_current(const Site& s, const DevicePole& p) {
  if (!p.rating || !p.protects) return std::nullopt;
  return codebook::device_response(s.convention, *p.rating).holds * *p.rating;
}

std::optional<Opens> response(const Site& s, const DevicePole& p, units::Current i) {
  if (!p.protects) return Opens::holds;
  const auto opens = opening_current(s, p), holds = holding_current(s, p);
  if (!opens || !holds) return std::nullopt;
  if (units::at_least(units::abs(i), *opens)) return Opens::opens;
  return units::at_most(units::abs(i), *holds) ? Opens::holds : Opens::may;
}

}  // namespace stringwright::events
