#pragma once

#include "base/about.hpp"
#include "base/span.hpp"
#include "units/quantity.hpp"

/// What a maker prints of an overcurrent device beyond its rating.
namespace stringwright::parts {

/// A point of a time-current curve: at so many times its rating the device has opened within that time.
struct TimeCurrentPoint {
  Span span;
  Given<units::Ratio> times;  ///< of the rating
  Given<units::Time> within;
};
template <class V>
void describe(V& visit, TimeCurrentPoint& p) {
  visit("times", p.times,
        About{.doc = "Current as a multiple of the rating.",
              .required = true,
              .example = "2.1",
              .min = 1,
              .max = 10000});
  visit("within", p.within,
        About{.doc = "Time within which it has opened.",
              .required = true,
              .example = "120 s",
              .min = 1e-6,
              .max = 1e6});
}

/// A factor on the rating at one temperature of the air around the device.
struct DeratingPoint {
  Span span;
  Given<units::Temperature> ambient;
  Given<units::Ratio> factor;
};
template <class V>
void describe(V& visit, DeratingPoint& p) {
  visit("ambient", p.ambient,
        About{.doc = "Air around the device.",
              .required = true,
              .example = "60 °C",
              .min = 223.15,
              .max = 423.15});
  visit("factor", p.factor,
        About{.doc = "Factor on the rating there.",
              .required = true,
              .example = "0.86",
              .min = 0.1,
              .max = 1.5});
}

}  // namespace stringwright::parts
