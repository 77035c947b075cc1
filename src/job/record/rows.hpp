#pragma once

#include <string>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

enum class Setting { portrait, landscape };
constexpr Name<Setting> names(Setting*, int i) {
  constexpr Name<Setting> all[] = {{"portrait", Setting::portrait},
                                   {"landscape", Setting::landscape}};
  return i < 2 ? all[i] : Name<Setting>{};
}

/// A plane that rows stand on.
struct Surface {
  std::string id;
  Span span;
  Given<units::Angle> tilt, azimuth;
  Given<units::Irradiance> rear_sun;
  Given<bool> guarded;
};
template <class V>
void describe(V& visit, Surface& s) {
  visit("tilt", s.tilt,
        About{.doc = "Slope against the horizontal.",
              .example = "45 °",
              .min = 0,
              .max = 3.1415926536});
  visit("azimuth", s.azimuth,
        About{.doc = "Direction it faces, clockwise from north.",
              .example = "180 °",
              .min = -6.2831853072,
              .max = 6.2831853072});
  visit(
      "rear_sun", s.rear_sun,
      About{.doc = "Light on the rear side of its modules in full sun: 135 W/m² on a nameplate, up "
                   "to 300 W/m² over bright ground.",
            .example = "135 W/m²",
            .min = 0,
            .max = 1000});
  visit(
      "guarded", s.guarded,
      About{.doc = "Nobody can touch the leads behind its modules: a fence, mesh, cover or height "
                   "keeps them off.",
            .example = "true"});
}

/// A row of like modules; `rows` repeats it regularly and is read into rows of its own.
struct Row {
  std::string id;
  Span span;
  Given<std::string> on, module;
  Given<int> count;
  Given<std::vector<units::Length>> at;  ///< x, y of the first module's lower left corner
  Given<Setting> set;
  Given<units::Length> pitch;
};
template <class V>
void describe(V& visit, Row& r) {
  visit("on", r.on, About{.doc = "Surface it stands on.", .example = "rack"});
  visit("module", r.module,
        About{.doc = "Module of every place.", .required = true, .example = "M365"});
  visit("count", r.count,
        About{.doc = "Places in the row, numbered from 1 in the direction of x.",
              .required = true,
              .example = "3",
              .min = 1,
              .max = 100000});
  visit("at", r.at,
        About{.doc = "Lower left corner of the first module: x to the right, y up the slope.",
              .example = "[\"0 m\", \"0 m\"]",
              .items = 2});
  visit("set", r.set,
        About{.doc = "Long side up (portrait) or across (landscape).", .example = "portrait"});
  visit("pitch", r.pitch,
        About{.doc = "From one module's left edge to the next one's.",
              .example = "1.06 m",
              .min = 0.05,
              .max = 20});
}

/// One module of a string: place `number` (from 1) of row `row`.
struct ModulePlace {
  std::string row;
  int number = 0;
  friend bool operator==(const ModulePlace&, const ModulePlace&) = default;
};

}  // namespace stringwright::job
