#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"

namespace stringwright::codebook {

/// A connector family, or a pair of families that mate.
struct ConnectorFacts {
  trail::Fact<std::string> family, other;  ///< `other` and `documented`: of a pair
  trail::Fact<bool> documented;            ///< the maker documents that they mate
  trail::Fact<bool> described;             ///< the job has a record of the family
  trail::Fact<bool> polarised, covered, load_break, not_under_load, grounding_pin, pin_first;
  trail::Fact<std::string> lock;  ///< "tool", "latch", "none"
  trail::Fact<units::Current> i_max;
};
template <class V>
void describe(V& visit, ConnectorFacts& c) {
  visit("family", c.family, About{.doc = "Its name.", .example = "K2"});
  visit("other", c.other, About{.doc = "What it mates with.", .example = "K3"});
  visit("documented", c.documented, About{.doc = "The pair is documented.", .example = "true"});
  visit("described", c.described, About{.doc = "The job describes it.", .example = "true"});
  visit("polarised", c.polarised, About{.doc = "Mates one way only.", .example = "true"});
  visit("covered", c.covered, About{.doc = "No finger reaches metal.", .example = "true"});
  visit("load_break", c.load_break, About{.doc = "May break current.", .example = "false"});
  visit("not_under_load", c.not_under_load, About{.doc = "Marked so.", .example = "true"});
  visit("grounding_pin", c.grounding_pin, About{.doc = "Carries a ground.", .example = "false"});
  visit("pin_first", c.pin_first, About{.doc = "That makes first.", .example = "true"});
  visit("lock", c.lock, About{.doc = "tool, latch or none.", .example = "tool"});
  visit("i_max", c.i_max, About{.doc = "Rated current.", .example = "30 A"});
}

}  // namespace stringwright::codebook
