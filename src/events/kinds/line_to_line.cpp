#include <algorithm>

#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"

namespace stringwright::events {
namespace {

/// "S1.1-S2.3": the two spots that touch. A string's id may hold a '-' itself, so every one is tried.
Result<std::pair<Spot, Spot>> spots_at(const Site& s, std::string_view place) {
  for (std::size_t dash = place.find('-'); dash != std::string_view::npos;
       dash = place.find('-', dash + 1)) {
    const auto one = spot_at(s, place.substr(0, dash));
    const auto other = spot_at(s, place.substr(dash + 1));
    if (one && other) return std::pair{*one, *other};
  }
  return no_place("pair of places STRING.MODULE-STRING.MODULE", place);
}

/// Two like strings side by side: near each other's ends, where least drives the fault, and far apart.
std::vector<Place> places(const Site& s) {
  std::vector<Place> all;
  for (const auto& like : s.likes) {
    if (like.strings.size() < 2) continue;
    const int n = static_cast<int>(s.w.strings[like.first].modules.size());
    std::vector<int> apart{1};
    if (n > 2) apart.push_back(n - 1);
    for (const int k : apart) {
      if (k >= n) continue;
      const int other = like.strings[0] == like.first ? like.strings[1] : like.strings[0];
      const std::string a = spot_text(s, {like.first, n - 1 - k > 0 ? n - 1 - k : 0});
      Place p{a + "-" + spot_text(s, {other, (n - 1 - k > 0 ? n - 1 - k : 0) + k}), {}};
      p.like.push_back(p.place);
      all.push_back(std::move(p));
    }
  }
  return all;
}

Result<std::string> says(const Site& s, std::string_view place) {
  const auto spots = spots_at(s, place);
  if (!spots) return spots.failure();
  return spot_words(s, spots->first) + " touches " + spot_words(s, spots->second);
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto spots = spots_at(s, place);
  if (!spots) return spots.failure();
  Applied a;
  a.fault = circuit::faults::bridge(b, node_at(s, b, spots->second), node_at(s, b, spots->first));
  return a;
}

}  // namespace

extern const Kind line_to_line{.id = "line-to-line",
                               .title = "Line to line between strings",
                               .cause = Cause::equipment,
                               .load = Load::idle,
                               .places = places,
                               .says = says,
                               .apply = apply};

}  // namespace stringwright::events
