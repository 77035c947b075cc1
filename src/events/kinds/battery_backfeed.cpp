#include "events/kinds/places.hpp"

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
  return "controller of " + std::string(place) + " failed: its battery lies on the array";
}

/// What `Load::battery` does is all of it.
Result<Applied> apply(const Site&, std::string_view, circuit::Built&) { return Applied{}; }

}  // namespace

extern const Kind battery_backfeed{.id = "battery-backfeed",
                                   .title = "Battery behind a failed controller",
                                   .cause = Cause::equipment,
                                   .load = Load::battery,
                                   .places = places,
                                   .says = says,
                                   .apply = apply};

}  // namespace stringwright::events
