#pragma once

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

enum class GroundFaultBy { residual_current, insulation, fuse, breaker, none };
constexpr Name<GroundFaultBy> names(GroundFaultBy*, int i) {
  constexpr Name<GroundFaultBy> all[] = {{"residual-current", GroundFaultBy::residual_current},
                                         {"insulation", GroundFaultBy::insulation},
                                         {"fuse", GroundFaultBy::fuse},
                                         {"breaker", GroundFaultBy::breaker},
                                         {"none", GroundFaultBy::none}};
  return i < 5 ? all[i] : Name<GroundFaultBy>{};
}

/// What in the equipment watches for ground faults.
struct GroundFault {
  Span span;
  Given<GroundFaultBy> by;
  Given<bool> sees_grounded, listed;
  Given<units::Current> rating;
  Given<units::Resistance> resistance;
};
template <class V>
void describe(V& visit, GroundFault& g) {
  visit("by", g.by,
        About{.doc = "How it detects: residual-current (a sensor), insulation (measured before "
                     "start), fuse or breaker (in the bond), none.",
              .example = "residual-current"});
  visit("sees_grounded", g.sees_grounded,
        About{.doc = "Its documents say that it also sees a fault of the grounded pole; a bare "
                     "fuse does not.",
              .example = "true"});
  visit("listed", g.listed, About{.doc = "Listed for it.", .example = "true"});
  visit("rating", g.rating,
        About{.doc = "Of the fuse or breaker; of a sensor the current from which on it reacts.",
              .example = "1 A",
              .min = 0.01,
              .max = 100});
  visit("resistance", g.resistance,
        About{.doc = "Of the fuse or breaker itself, cold: it turns current away from the bond.",
              .example = "0.2 Ω",
              .min = 0,
              .max = 100});
}

}  // namespace stringwright::job
