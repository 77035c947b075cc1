#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"
#include "events/table.hpp"

namespace stringwright::events {
namespace {

Result<std::string> says(const Site& s, std::string_view place) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  return "a plug of " + s.w.strings[*string].id + " open";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto string = string_at(s, place);
  if (!string) return string.failure();
  const int element = b.module[s.w.strings[*string].modules.front()];
  Applied a;
  a.gap_minus = b.network.elements[element].plus;
  a.gap_plus = circuit::faults::cut(b, element);
  return a;
}

void tell(const Site&, Row& r) { tell_gap(r); }

}  // namespace

extern const Kind open_plug{.id = "open-plug",
                            .title = "Open plug",
                            .cause = Cause::equipment,
                            .load = Load::working,
                            .places = each_string,
                            .says = says,
                            .apply = apply,
                            .overcurrent = false,
                            .tell = tell};

}  // namespace stringwright::events
