#pragma once

#include <string>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"

namespace stringwright::job {

enum class Scheme { functional, solid, ungrounded };
constexpr Name<Scheme> names(Scheme*, int i) {
  constexpr Name<Scheme> all[] = {{"functional", Scheme::functional},
                                  {"solid", Scheme::solid},
                                  {"ungrounded", Scheme::ungrounded}};
  return i < 3 ? all[i] : Name<Scheme>{};
}

enum class Pole { plus, minus };
constexpr Name<Pole> names(Pole*, int i) {
  constexpr Name<Pole> all[] = {{"plus", Pole::plus}, {"minus", Pole::minus}};
  return i < 2 ? all[i] : Name<Pole>{};
}

enum class DevicesIn { plus, minus, both };
constexpr Name<DevicesIn> names(DevicesIn*, int i) {
  constexpr Name<DevicesIn> all[] = {
      {"plus", DevicesIn::plus}, {"minus", DevicesIn::minus}, {"both", DevicesIn::both}};
  return i < 3 ? all[i] : Name<DevicesIn>{};
}

struct Grounding {
  Span span;
  Given<Scheme> scheme;
  Given<Pole> pole;
  Given<DevicesIn> devices_in;
  Given<std::string> bond;
};
template <class V>
void describe(V& visit, Grounding& g) {
  visit("scheme", g.scheme, About{.doc = "System grounding.", .example = "functional"});
  visit("pole", g.pole,
        About{.doc = "The grounded pole; none for ungrounded.", .example = "minus"});
  visit("devices_in", g.devices_in,
        About{.doc = "Poles that carry string devices.", .example = "plus"});
  visit(
      "bond", g.bond,
      About{.doc = "The one device that owns the bond of the system to ground.", .example = "CC1"});
}

}  // namespace stringwright::job
