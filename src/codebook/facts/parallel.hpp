#pragma once

#include <string>

#include "base/about.hpp"
#include "trail/fact.hpp"
#include "units/quantity.hpp"

namespace stringwright::codebook {

using trail::Fact;

/// How circuits stand beside each other, as the overcurrent rules of the IEC family ask it.
struct ParallelFacts {
  Fact<units::Ratio> strings_on_device;  ///< string device: strings that share it
  Fact<bool> lands_on_input;             ///< output: it ends at equipment, not in another box
  Fact<units::Ratio> sub_arrays;      ///< outputs that meet where this one lands, itself included
  Fact<units::Current> device_below;  ///< nearest device towards the input, of a string's bus
  Fact<bool> device_below_fitted;
  Fact<units::Current> i_sc_below;    ///< sum of I_sc of the other strings on that device
  Fact<units::Current> array_device;  ///< rating of the array's own device
  Fact<std::string> devices_in;       ///< "plus", "minus", "both": poles that carry devices
  Fact<std::string> earthed_pole;     ///< "plus", "minus"; the other is the unearthed one
};

template <class V>
void describe(V& visit, ParallelFacts& p) {
  visit("strings_on_device", p.strings_on_device,
        About{.doc = "Strings that share the device.", .example = "1"});
  visit("lands_on_input", p.lands_on_input,
        About{.doc = "The output ends at equipment.", .example = "true"});
  visit("sub_arrays", p.sub_arrays,
        About{.doc = "Outputs that meet where it lands.", .example = "3"});
  visit("device_below", p.device_below,
        About{.doc = "Nearest device towards the input.", .example = "40 A"});
  visit("device_below_fitted", p.device_below_fitted,
        About{.doc = "There is one.", .example = "true"});
  visit("i_sc_below", p.i_sc_below,
        About{.doc = "I_sc of the other strings on it.", .example = "11.35 A"});
  visit("array_device", p.array_device,
        About{.doc = "Rating of the array's device.", .example = "40 A"});
  visit("devices_in", p.devices_in, About{.doc = "Poles with devices.", .example = "both"});
  visit("earthed_pole", p.earthed_pole, About{.doc = "The earthed pole.", .example = "minus"});
}

}  // namespace stringwright::codebook
