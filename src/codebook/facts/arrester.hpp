#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"

namespace stringwright::codebook {

using trail::Fact;

/// A surge arrester and what it protects.
struct ArresterFacts {
  Fact<units::Voltage> v_continuous;  ///< U_cpv: highest it bears for ever
  Fact<units::Voltage> v_protect;     ///< U_p: what it lets through
  Fact<units::Voltage> v_withstand;   ///< U_w: what the equipment bears for microseconds
  Fact<units::Current> isc_rating;    ///< I_scpv: array current it can fail under safely
  Fact<units::Length> leads;          ///< all leads of one path together
  Fact<units::Length> run;            ///< d.c. way from the array to the equipment
  Fact<units::Ratio> flashes;         ///< N_g: flashes to ground per km² and year
  Fact<bool> fitted;                  ///< there is one
};

template <class V>
void describe(V& visit, ArresterFacts& a) {
  visit("v_continuous", a.v_continuous,
        About{.doc = "Maximum continuous voltage.", .example = "200 V"});
  visit("v_protect", a.v_protect, About{.doc = "Protection level.", .example = "1 kV"});
  visit("v_withstand", a.v_withstand,
        About{.doc = "Impulse withstand of the equipment.", .example = "2.5 kV"});
  visit("isc_rating", a.isc_rating, About{.doc = "Short-circuit rating.", .example = "10 kA"});
  visit("leads", a.leads, About{.doc = "Leads of one path together.", .example = "0.4 m"});
  visit("run", a.run, About{.doc = "Way from array to equipment.", .example = "38 m"});
  visit("flashes", a.flashes, About{.doc = "Flashes per km² and year.", .example = "2"});
  visit("fitted", a.fitted, About{.doc = "There is one.", .example = "true"});
}

}  // namespace stringwright::codebook
