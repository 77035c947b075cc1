#include <algorithm>

#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"

namespace stringwright::events {
namespace {

/// "S1.0+S2.3": the first fault, unseen, and the second.
Result<std::pair<Spot, Spot>> spots_at(const Site& s, std::string_view place) {
  const auto plus = place.find('+');
  if (plus == std::string_view::npos)
    return no_place("pair of places STRING.MODULE+STRING.MODULE", place);
  const auto one = spot_at(s, place.substr(0, plus));
  if (!one) return one.failure();
  const auto other = spot_at(s, place.substr(plus + 1));
  if (!other) return other.failure();
  return std::pair{*one, *other};
}

std::vector<Place> places(const Site& s) {
  std::vector<Place> all;
  for (const auto& like : s.likes) {
    const int n = static_cast<int>(s.w.strings[like.first].modules.size());
    const int other = like.strings.size() < 2         ? like.first
                      : like.strings[0] == like.first ? like.strings[1]
                                                      : like.strings[0];
    Place p{spot_text(s, {other, 0}) + "+" + spot_text(s, {like.first, std::max(1, n - 1)}), {}};
    p.like.push_back(p.place);
    all.push_back(std::move(p));
  }
  return all;
}

Result<std::string> says(const Site& s, std::string_view place) {
  const auto spots = spots_at(s, place);
  if (!spots) return spots.failure();
  return spot_words(s, spots->first) + " touches metal unseen, then " +
         spot_words(s, spots->second);
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto spots = spots_at(s, place);
  if (!spots) return spots.failure();
  const auto metal = [&](Spot x) {
    const int module = s.w.strings[x.string].modules[std::max(x.module - 1, 0)];
    return s.metal_near(s.w.devices[module].owner);
  };
  const int m1 = metal(spots->first), m2 = metal(spots->second);
  if (m1 < 0 || m2 < 0)
    return Failure{"events.no-metal", "no bonded metal is known near " + std::string(place)};
  circuit::faults::bridge(b, b.node[m1], node_at(s, b, spots->first));
  Applied a;
  a.fault = circuit::faults::bridge(b, b.node[m2], node_at(s, b, spots->second));
  return a;
}

}  // namespace

extern const Kind second_ground_fault{.id = "second-ground-fault",
                                      .title = "Second ground fault",
                                      .cause = Cause::equipment,
                                      .load = Load::idle,
                                      .places = places,
                                      .says = says,
                                      .apply = apply,
                                      .bond_open = true};

}  // namespace stringwright::events
