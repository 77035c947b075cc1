#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"

namespace stringwright::events {
namespace {

Result<std::string> says(const Site& s, std::string_view place) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  return s.w.strings[*string].id + " shorted where it lands";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  const auto at = landing_of(s, *string);
  Applied a;
  a.fault = circuit::faults::bridge(b, b.node[at.plus], b.node[at.minus]);
  return a;
}

}  // namespace

extern const Kind short_string{.id = "short-string",
                               .title = "Short across a string",
                               .cause = Cause::equipment,
                               .load = Load::idle,
                               .places = each_string,
                               .says = says,
                               .apply = apply};

/// The same with a battery that feeds back through its controller.
extern const Kind battery_into_string{
    .id = "battery-into-string",
    .title = "Short across a string, controller failed",
    .cause = Cause::equipment,
    .load = Load::battery,
    .places = [](const Site& s) { return s.any_battery() ? each_string(s) : std::vector<Place>{}; },
    .says = [](const Site& s, std::string_view place) -> Result<std::string> {
      auto words = says(s, place);
      if (!words) return words.failure();
      return *words + ", and the battery feeds back through a failed controller";
    },
    .apply = apply};

}  // namespace stringwright::events
