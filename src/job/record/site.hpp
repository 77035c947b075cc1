#pragma once

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/disconnect.hpp"
#include "job/record/names.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

enum class Place { ground, roof, pole, open_structure };
constexpr Name<Place> names(Place*, int i) {
  constexpr Name<Place> all[] = {{"ground", Place::ground},
                                 {"roof", Place::roof},
                                 {"pole", Place::pole},
                                 {"open-structure", Place::open_structure}};
  return i < 4 ? all[i] : Name<Place>{};
}

/// What the weather does to parts that stand in it.
enum class Exposure { sheltered, open, coastal, corrosive };
constexpr Name<Exposure> names(Exposure*, int i) {
  constexpr Name<Exposure> all[] = {{"sheltered", Exposure::sheltered},
                                    {"open", Exposure::open},
                                    {"coastal", Exposure::coastal},
                                    {"corrosive", Exposure::corrosive}};
  return i < 4 ? all[i] : Name<Exposure>{};
}

/// `[site]`: the weather that sizes things, and what the array stands on.
struct Site {
  Span span;
  Given<units::Temperature> t_min, t_record, t_hot;
  Given<units::TemperatureDifference> rise;
  Given<Place> place;
  Given<bool> grid, labels_fitted;
  Given<units::Ratio> flashes;
  Given<Access> access;
  Given<bool> dwelling, on_building, purpose_built, detached, unqualified;
  Given<Exposure> exposure;
  Given<units::Length> altitude;
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
  visit("place", s.place,
        About{.doc = "What the array stands on; open-structure: a detached carport, canopy or "
                     "trellis.",
              .example = "ground"});
  visit(
      "dwelling", s.dwelling,
      About{.doc = "The circuits are on or in a one- or two-family dwelling.", .example = "true"});
  visit("on_building", s.on_building,
        About{.doc = "Array or its circuits are on or in a building.", .example = "false"});
  visit("grid", s.grid,
        About{.doc = "Utility power comes to this place as well.", .example = "false"});
  visit("labels_fitted", s.labels_fitted,
        About{.doc = "Every label that `stringwright labels` lists is on; left out, they count as "
                     "due.",
              .example = "true"});
  visit("flashes", s.flashes,
        About{.doc = "Flashes of lightning to ground per square kilometre and year, from a map "
                     "(IEC alone asks).",
              .example = "2",
              .min = 0,
              .max = 100});
  visit("access", s.access,
        About{.doc = "Who reaches the array's leads and plugs: anyone who walks up, qualified "
                     "people only (fence), with a ladder, or none.",
              .example = "ladder"});
  visit("purpose_built", s.purpose_built,
        About{.doc = "The only building that PV circuits enter houses nothing but PV equipment.",
              .example = "false"});
  visit("detached", s.detached,
        About{.doc = "The structure that carries the array stands apart from every building.",
              .example = "true"});
  visit("unqualified", s.unqualified,
        About{.doc = "Persons who are not qualified can reach the wiring or the boxes.",
              .example = "true"});
  visit("exposure", s.exposure,
        About{.doc = "Weather that outdoor parts meet: sheltered under a roof, open, coastal (salt "
                     "in the air), corrosive (farm, chemicals).",
              .example = "open"});
  visit("altitude", s.altitude,
        About{.doc = "Height above the sea: thin air cools and insulates less.",
              .example = "350 m",
              .min = -430,
              .max = 6000});
}

}  // namespace stringwright::job
