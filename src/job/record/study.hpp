#pragma once

#include <string>

#include "base/about.hpp"
#include "base/span.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

/// `[study]`: an engineer's stamped design that takes the place of the code's own formulas.
struct Study {
  Span span;
  Given<units::Voltage> v_max;
  Given<units::Current> i_string;
  Given<std::string> by, licence, method;
};
template <class V>
void describe(V& visit, Study& s) {
  visit("v_max", s.v_max,
        About{.doc = "Maximum voltage of a string by the study.",
              .example = "980 V",
              .min = 1,
              .max = 2000});
  visit(
      "i_string", s.i_string,
      About{.doc = "Maximum current of a string by the study: the highest average of three hours.",
            .example = "12.4 A",
            .min = 0.01,
            .max = 1000});
  visit("by", s.by, About{.doc = "The engineer who stamped it."});
  visit("licence", s.licence, About{.doc = "The engineer's licence."});
  visit("method", s.method, About{.doc = "The industry standard method it follows."});
}

}  // namespace stringwright::job
