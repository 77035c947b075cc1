#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"

namespace stringwright::events {
namespace {

Result<std::string> says(const Site& s, std::string_view place) {
  const auto box = output_at(s, place);
  if (!box) return box.failure();
  return "run " + std::string(place) + " shorted at its far end";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto box = output_at(s, place);
  if (!box) return box.failure();
  const auto& x = s.w.boxes[*box];
  Applied a;
  a.fault = circuit::faults::bridge(b, b.node[s.w.conductors[x.out_plus].to],
                                    b.node[s.w.conductors[x.out_minus].to]);
  return a;
}

}  // namespace

extern const Kind short_feeder{.id = "short-feeder",
                               .title = "Short across the run down",
                               .cause = Cause::equipment,
                               .load = Load::idle,
                               .places = each_output,
                               .says = says,
                               .apply = apply};

}  // namespace stringwright::events
