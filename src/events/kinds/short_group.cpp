#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"

namespace stringwright::events {
namespace {

std::vector<Place> places(const Site& s) {
  std::vector<Place> all;
  for (const auto& like : s.likes) {
    const auto& m = s.w.module_of(s.w.strings[like.first].modules.front());
    if (!m.bypass || *m.bypass < 2) continue;
    Place p{s.w.strings[like.first].id + ".1", {}};
    for (const int x : like.strings) p.like.push_back(s.w.strings[x].id + ".1");
    all.push_back(std::move(p));
  }
  return all;
}

Result<std::string> says(const Site& s, std::string_view place) {
  const auto spot = spot_at(s, place);
  if (!spot) return spot.failure();
  if (spot->module < 1) return no_place("module", place);
  const int device = s.w.strings[spot->string].modules[spot->module - 1];
  const auto& m = s.w.module_of(device);
  if (!m.bypass || *m.bypass < 2)
    return Failure{"events.no-place", "module " + s.w.devices[device].id +
                                          " has no bypass groups that its record names"};
  return "one bypass group of module " + std::to_string(spot->module) + " of " +
         s.w.strings[spot->string].id + " shorted";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto spot = spot_at(s, place);
  if (!spot) return spot.failure();
  const int device = s.w.strings[spot->string].modules[spot->module - 1];
  const int minus = circuit::faults::tap(b, s.w, device, 0);
  const int above = circuit::faults::tap(b, s.w, device, 1);
  Applied a;
  a.fault = circuit::faults::bridge(b, above, minus);
  return a;
}

}  // namespace

extern const Kind short_group{.id = "short-group",
                              .title = "Short across a bypass group",
                              .cause = Cause::equipment,
                              .load = Load::idle,
                              .places = places,
                              .says = says,
                              .apply = apply};

}  // namespace stringwright::events
