#include "wiring/builder.hpp"

namespace stringwright::wiring {

std::vector<std::vector<Stretch>> resolve(const std::vector<job::Segment>& segments,
                                          const job::Site& site, int circuits,
                                          const std::string& where,
                                          std::vector<const job::Segment*>* junctions) {
  std::vector<std::vector<Stretch>> parts(1);
  int number = 0;
  for (const auto& segment : segments) {
    if (segment.junction) {
      parts.emplace_back();
      if (junctions) junctions->push_back(&segment);
      continue;
    }
    ++number;
    Stretch s;
    s.in = segment.in.value_or("");
    s.size = segment.size;
    s.length = segment.length.value_or(units::Length{});
    s.buried = segment.buried.value;
    s.above_roof = segment.above_roof.value;
    s.span = segment.span;
    const std::string here = where + ", stretch " + std::to_string(number);
    if (segment.ambient) {
      s.ambient = *segment.ambient;
      s.ambient_from = here;
    } else if (site.t_hot) {
      // Soil is cooler than the hottest air: the air's temperature errs on the safe side.
      s.ambient = *site.t_hot;
      s.ambient_from = s.buried ? "site t_hot, cautious for buried" : "site t_hot";
    }
    s.wires = segment.wires ? *segment.wires : 2 * circuits;
    s.bends = segment.bends.value_or({});
    parts.back().push_back(std::move(s));
  }
  return parts;
}

}  // namespace stringwright::wiring
