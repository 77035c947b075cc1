#pragma once

#include <string>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/names.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

/// What it takes to part two mated connectors.
enum class Lock { tool, latch, none };
constexpr Name<Lock> names(Lock*, int i) {
  constexpr Name<Lock> all[] = {{"tool", Lock::tool}, {"latch", Lock::latch}, {"none", Lock::none}};
  return i < 3 ? all[i] : Name<Lock>{};
}

/// `[connector.K2]`: what the data sheet of a connector family says. A family is one type of one maker.
struct Connector {
  std::string id;
  Span span;
  Given<units::Voltage> v_dc;
  Given<Lock> lock;
  Given<bool> polarised, covered, load_break, not_under_load, grounding_pin, pin_first;
  Given<std::string> mates;
};
template <class V>
void describe(V& visit, Connector& c) {
  visit("v_dc", c.v_dc,
        About{.doc = "Rated d.c. voltage.", .example = "1000 V", .min = 1, .max = 2000});
  visit("polarised", c.polarised,
        About{.doc = "Plus and minus can't be mated the wrong way round, nor with other plugs on "
                     "the site.",
              .example = "true"});
  visit("covered", c.covered,
        About{.doc = "No finger reaches live metal, mated or not.", .example = "true"});
  visit(
      "lock", c.lock,
      About{.doc = "What parts it: a tool, a latch by hand, or a pull (none).", .example = "tool"});
  visit("load_break", c.load_break,
        About{.doc = "Rated to break the current. Hardly any is.", .example = "false"});
  visit("not_under_load", c.not_under_load,
        About{.doc = "Marked not to be parted under load, or not for breaking current.",
              .example = "true"});
  visit("grounding_pin", c.grounding_pin,
        About{.doc = "It carries an equipment ground.", .example = "false"});
  visit("pin_first", c.pin_first,
        About{.doc = "That ground makes first and breaks last.", .example = "true"});
  visit("mates", c.mates,
        About{.doc = "Other families, blank separated, with which its maker documents it to mate.",
              .example = "K3"});
}

}  // namespace stringwright::job
