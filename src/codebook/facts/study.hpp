#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"

namespace stringwright::codebook {

/// An engineer's stamped design.
struct StudyFacts {
  trail::Fact<bool> given;
  trail::Fact<units::Voltage> v_max;
  trail::Fact<units::Current> i_string;
  trail::Fact<std::string> by, licence, method;
  trail::Fact<units::Power> power;  ///< of the whole array at STC
};
template <class V>
void describe(V& visit, StudyFacts& s) {
  visit("given", s.given, About{.doc = "There is one.", .example = "true"});
  visit("v_max", s.v_max, About{.doc = "Maximum voltage by it.", .example = "980 V"});
  visit("i_string", s.i_string, About{.doc = "String current by it.", .example = "12.4 A"});
  visit("by", s.by, About{.doc = "Who stamped it.", .example = "an engineer"});
  visit("licence", s.licence, About{.doc = "Under which licence.", .example = "PE 1"});
  visit("method", s.method, About{.doc = "By which standard method.", .example = "simulation"});
  visit("power", s.power, About{.doc = "Power of the array.", .example = "120 kW"});
}

}  // namespace stringwright::codebook
