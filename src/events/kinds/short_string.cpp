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

extern const Kind battery_into_string = behind_failed_controller<short_string>(
    "battery-into-string", "Short across a string, controller failed");

}  // namespace stringwright::events
