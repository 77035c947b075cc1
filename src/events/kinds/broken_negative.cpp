#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"
#include "events/table.hpp"

namespace stringwright::events {
namespace {

Result<std::string> says(const Site& s, std::string_view place) {
  const auto box = output_at(s, place);
  if (!box) return box.failure();
  return std::string(place) + "− broken";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto box = output_at(s, place);
  if (!box) return box.failure();
  const int element = b.conductor[s.w.boxes[*box].out_minus];
  if (element < 0) return no_place("length of", place);
  Applied a;
  a.gap_plus = b.network.elements[element].plus;
  a.gap_minus = circuit::faults::cut(b, element);
  return a;
}

void tell(const Site&, Row& r) { tell_gap(r); }

}  // namespace

extern const Kind broken_negative{.id = "broken-negative",
                                  .title = "Broken negative",
                                  .cause = Cause::equipment,
                                  .load = Load::working,
                                  .places = each_output,
                                  .says = says,
                                  .apply = apply,
                                  .overcurrent = false,
                                  .tell = tell};

}  // namespace stringwright::events
