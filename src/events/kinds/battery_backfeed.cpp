#include <algorithm>

#include "events/kinds/places.hpp"
#include "events/table.hpp"

namespace stringwright::events {
namespace {

std::vector<Place> places(const Site& s) {
  std::vector<Place> all;
  for (std::size_t k = 0; k < s.w.inputs.size(); ++k)
    if (s.battery_of(static_cast<int>(k))) all.push_back({s.w.inputs[k].id, {s.w.inputs[k].id}});
  return all;
}

Result<std::string> says(const Site& s, std::string_view place) {
  const int input = s.find_input(place);
  if (input < 0) return no_place("input", place);
  if (!s.battery_of(input))
    return Failure{"events.no-place", "no battery stands behind " + std::string(place)};
  return "controller of " + std::string(place) +
         " failed and joins its battery to the array, nothing else wrong";
}

/// What `Load::battery` does is all of it.
Result<Applied> apply(const Site&, std::string_view, circuit::Built&) { return Applied{}; }

void tell(const Site&, Row& r) {
  const bool opens = std::any_of(r.devices.begin(), r.devices.end(), [](const Sees& x) {
    return x.opens.value_or(Opens::holds) != Opens::holds;
  });
  if (opens || !r.in_the_dark) return;
  units::Current charging;
  for (const Sees& x : r.devices)
    if (x.role == DevicePole::Role::input) charging = units::max(charging, x.worst);
  r.verdict =
      (charging.si() > 0 ? "up to " + amps(charging) + " charge the battery without control; "
                         : std::string()) +
      (r.in_the_dark->si() < 0.05 ? "without light nothing runs back"
                                  : amps(*r.in_the_dark) + " run back without light") +
      ", but the array's wires stay at battery voltage day and night";
  r.danger = Danger::seen;
}

}  // namespace

extern const Kind battery_backfeed{.id = "battery-backfeed",
                                   .title = "Battery behind a failed controller",
                                   .cause = Cause::equipment,
                                   .load = Load::battery,
                                   .places = places,
                                   .says = says,
                                   .apply = apply,
                                   .tell = tell};

}  // namespace stringwright::events
