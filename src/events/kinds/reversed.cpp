#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"

namespace stringwright::events {
namespace {

Result<std::string> says(const Site& s, std::string_view place) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  return s.w.strings[*string].id + " landed the wrong way round";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  circuit::faults::reverse(b, s.w, *string);
  return Applied{};
}

}  // namespace

extern const Kind reversed{.id = "reversed",
                           .title = "Reversed string",
                           .cause = Cause::work,
                           .load = Load::idle,
                           .places = each_string,
                           .says = says,
                           .apply = apply,
                           .gate =
                               "the sign of each string's volts at its own terminal, device "
                               "open; then about 0 V across the device before it closes, "
                               "another one closed"};

}  // namespace stringwright::events
