#include <algorithm>

#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"

namespace stringwright::events {
namespace {

/// "S1.2-4": modules 2 to 4; "S1.2": module 2 alone.
struct Range {
  int string = -1, first = 1, last = 1;
};

Result<Range> range_at(const Site& s, std::string_view place) {
  const auto dot = place.rfind('.');
  const auto dash = place.rfind('-');
  const bool several =
      dot != std::string_view::npos && dash != std::string_view::npos && dash > dot;
  const auto first = spot_at(s, several ? place.substr(0, dash) : place);
  if (!first) return first.failure();
  const auto last =
      several
          ? spot_at(s, std::string(place.substr(0, dot + 1)) + std::string(place.substr(dash + 1)))
          : first;
  if (!last) return last.failure();
  if (first->module < 1 || last->module < first->module) return no_place("range of modules", place);
  return Range{first->string, first->module, last->module};
}

std::vector<Place> places(const Site& s) {
  std::vector<Place> all;
  for (const auto& like : s.likes) {
    const int n = static_cast<int>(s.w.strings[like.first].modules.size());
    std::vector<int> counts{1};
    if (n > 2) counts.push_back((n + 1) / 2);
    for (const int k : counts) {
      if (k >= n && n > 1) continue;  // all of it: short-string
      const std::string range = k == 1 ? ".1" : ".1-" + std::to_string(k);
      Place p{s.w.strings[like.first].id + range, {}};
      for (const int x : like.strings) p.like.push_back(s.w.strings[x].id + range);
      all.push_back(std::move(p));
    }
  }
  return all;
}

Result<std::string> says(const Site& s, std::string_view place) {
  const auto r = range_at(s, place);
  if (!r) return r.failure();
  const std::string& id = s.w.strings[r->string].id;
  if (r->first == r->last) return "module " + std::to_string(r->first) + " of " + id + " shorted";
  return "modules " + std::to_string(r->first) + " to " + std::to_string(r->last) + " of " + id +
         " shorted";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto r = range_at(s, place);
  if (!r) return r.failure();
  Applied a;
  a.fault = circuit::faults::bridge(b, node_at(s, b, {r->string, r->last}),
                                    node_at(s, b, {r->string, r->first - 1}));
  return a;
}

}  // namespace

extern const Kind short_modules{.id = "short-modules",
                                .title = "Short across modules",
                                .cause = Cause::equipment,
                                .load = Load::idle,
                                .places = places,
                                .says = says,
                                .apply = apply};

}  // namespace stringwright::events
