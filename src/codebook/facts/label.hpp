#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"

namespace stringwright::codebook {

using trail::Fact;

/// One label that may be due at one place, and what decides whether it is.
struct LabelFacts {
  std::string id;     ///< row of data/codebook/labels.csv: "dc-values"
  std::string place;  ///< "on CC1.PV1.Q, in reach of a hand"
  Fact<bool> fitted;  ///< the job says that its labels are on
  Fact<bool> grid;    ///< utility power comes in as well
  Fact<bool> bipolar;
  Fact<units::Current> i_out_max;  ///< highest rated output of the charge controller
  Fact<units::Current> ac_current;
  Fact<units::Voltage> ac_voltage;
};

template <class V>
void describe(V& visit, LabelFacts& l) {
  visit("id", l.id, About{.doc = "Which label.", .example = "dc-values"});
  visit("place", l.place, About{.doc = "Where.", .example = "on OUT"});
  visit("fitted", l.fitted, About{.doc = "It is on.", .example = "true"});
  visit("grid", l.grid, About{.doc = "Utility power as well.", .example = "false"});
  visit("bipolar", l.bipolar, About{.doc = "Two monopoles.", .example = "false"});
  visit("i_out_max", l.i_out_max,
        About{.doc = "Highest output of the controller.", .example = "60 A"});
  visit("ac_current", l.ac_current, About{.doc = "Rated a.c. current.", .example = "24 A"});
  visit("ac_voltage", l.ac_voltage, About{.doc = "Nominal a.c. voltage.", .example = "240 V"});
}

}  // namespace stringwright::codebook
