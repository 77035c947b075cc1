#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"

namespace stringwright::events {
namespace {

Result<std::string> says(const Site& s, std::string_view place) {
  const auto box = box_at(s, place);
  if (!box) return box.failure();
  return "bus bars of box " + s.w.boxes[*box].id + " shorted";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto box = box_at(s, place);
  if (!box) return box.failure();
  const auto& x = s.w.boxes[*box];
  Applied a;
  a.fault = circuit::faults::bridge(b, b.node[s.w.devices[x.bus_plus].terminals.front()],
                                    b.node[s.w.devices[x.bus_minus].terminals.front()]);
  return a;
}

}  // namespace

extern const Kind short_bus{.id = "short-bus",
                            .title = "Short across the bus",
                            .cause = Cause::equipment,
                            .load = Load::idle,
                            .places = each_box,
                            .says = says,
                            .apply = apply};

extern const Kind battery_into_bus = behind_failed_controller<short_bus>(
    "battery-into-bus", "Short across the bus, controller failed");

}  // namespace stringwright::events
