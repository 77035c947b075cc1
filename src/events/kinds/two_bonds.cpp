#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"
#include "events/table.hpp"

namespace stringwright::events {
namespace {

bool plus_grounded(const Site& s) {
  for (const auto& d : s.w.devices)
    if (d.kind == wiring::DeviceKind::bond && !d.terminals.empty())
      return s.w.terminals[d.terminals.front()].pole == wiring::Pole::plus;
  return false;
}

std::vector<Place> places(const Site& s) { return s.bonded() ? each_box(s) : std::vector<Place>{}; }

Result<std::string> says(const Site& s, std::string_view place) {
  const auto box = box_at(s, place);
  if (!box) return box.failure();
  if (!s.bonded())
    return Failure{"events.no-place", "there is no first bond here, so there is no second"};
  return "second bond in box " + s.w.boxes[*box].id + ": the ground wire shares the return current";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto box = box_at(s, place);
  if (!box) return box.failure();
  const auto& x = s.w.boxes[*box];
  const int bar = plus_grounded(s) ? x.bus_plus : x.bus_minus;
  Applied a;
  a.fault = circuit::faults::bridge(b, b.node[s.w.devices[bar].terminals.front()],
                                    b.node[s.w.devices[x.bar_ground].terminals.front()]);
  return a;
}

void tell(const Site&, Row& r) {
  r.verdict =
      amps(r.fault) +
      " of return current on the ground wire; the first bond's ground-fault device is bypassed";
  r.danger = Danger::silent;
}

}  // namespace

extern const Kind two_bonds{.id = "two-bonds",
                            .title = "Two bonds",
                            .cause = Cause::work,
                            .load = Load::working,
                            .places = places,
                            .says = says,
                            .apply = apply,
                            .overcurrent = false,
                            .tell = tell};

}  // namespace stringwright::events
