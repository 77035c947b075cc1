#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"

namespace stringwright::codebook {

/// What parts a box, an input or the whole PV system from its sources. Rating, poles, volts and load
/// break are those of `Facts`.
struct DisconnectFacts {
  std::string of;                       ///< "box", "input", "system"
  trail::Fact<bool> given;              ///< the job says what it is
  trail::Fact<bool> own;                ///< a device that no other rule judges
  trail::Fact<std::string> means;       ///< "device", "plugs", "holders"
  trail::Fact<std::string> opens;       ///< "both", "plus", "minus": all at one stroke
  trail::Fact<std::string> side;        ///< of the system's: "array", "battery", "ac", "load"
  trail::Fact<std::string> box_stands;  ///< of a box: where the box hangs
  trail::Fact<units::Ratio> handles;
  trail::Fact<units::Length> distance;
  trail::Fact<bool> in_sight, by_hand, lockable, not_under_load;
};
template <class V>
void describe(V& visit, DisconnectFacts& d) {
  visit("of", d.of, About{.doc = "box, input or system.", .example = "box"});
  visit("given", d.given, About{.doc = "The job says what it is.", .example = "true"});
  visit("own", d.own, About{.doc = "Judged nowhere else.", .example = "true"});
  visit("means", d.means, About{.doc = "device, plugs or holders.", .example = "device"});
  visit("opens", d.opens, About{.doc = "both, plus or minus.", .example = "both"});
  visit("side", d.side, About{.doc = "Where the system's stands.", .example = "battery"});
  visit("box_stands", d.box_stands, About{.doc = "Where its box hangs.", .example = "roof"});
  visit("handles", d.handles, About{.doc = "Handles it takes.", .example = "1"});
  visit("distance", d.distance, About{.doc = "From the thing.", .example = "2 m"});
  visit("in_sight", d.in_sight, About{.doc = "Seen from the thing.", .example = "true"});
  visit("by_hand", d.by_hand, About{.doc = "Worked by hand from outside.", .example = "true"});
  visit("lockable", d.lockable, About{.doc = "Can be locked open.", .example = "true"});
  visit("not_under_load", d.not_under_load,
        About{.doc = "Marked not to be opened under load.", .example = "true"});
}

}  // namespace stringwright::codebook
