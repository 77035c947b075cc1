#pragma once

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

enum class Place { ground, roof, pole };
constexpr Name<Place> names(Place*, int i) {
  constexpr Name<Place> all[] = {
      {"ground", Place::ground}, {"roof", Place::roof}, {"pole", Place::pole}};
  return i < 3 ? all[i] : Name<Place>{};
}

/// `[site]`: the weather that sizes things, and what the array stands on.
struct Site {
  Span span;
  Given<units::Temperature> t_min, t_record, t_hot;
  Given<units::TemperatureDifference> rise;
  Given<Place> place;
  Given<bool> dwelling, on_building;
};
template <class V>
void describe(V& visit, Site& s) {
  visit("t_min", s.t_min,
        About{.doc = "Lowest expected ambient temperature (mean of the yearly lows).",
              .example = "-31 °C",
              .min = 193.15,
              .max = 313.15});
  visit("t_record", s.t_record,
        About{.doc = "Record low; shown beside the design value.",
              .example = "-42 °C",
              .min = 183.15,
              .max = 313.15});
  visit("t_hot", s.t_hot,
        About{.doc = "Hot design ambient temperature.",
              .example = "32 °C",
              .min = 263.15,
              .max = 343.15});
  visit("rise", s.rise,
        About{.doc = "Cell temperature above ambient in full sun, a difference.",
              .example = "30 K",
              .min = 0,
              .max = 60});
  visit("place", s.place, About{.doc = "What the array stands on.", .example = "ground"});
  visit(
      "dwelling", s.dwelling,
      About{.doc = "The circuits are on or in a one- or two-family dwelling.", .example = "true"});
  visit("on_building", s.on_building,
        About{.doc = "Array or its circuits are on or in a building.", .example = "false"});
}

}  // namespace stringwright::job
