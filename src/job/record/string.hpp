#pragma once

#include <string>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "job/record/grounding.hpp"
#include "job/record/landing.hpp"
#include "job/record/rows.hpp"
#include "units/quantity.hpp"

namespace stringwright::job {

/// A source circuit: modules walked in order from the minus end to the plus end.
struct String {
  std::string id;
  Span span;
  Given<std::vector<ModulePlace>> walk;
  Given<Landing> lands;
  Given<units::Length> plus_end, minus_end;
  Given<std::string> home_run;
  Given<units::Ratio> age;
  Given<std::string> inline_fuse, blocking_diode, electronics;
  Given<DevicesIn> inline_fuse_in;
};
template <class V>
void describe(V& visit, String& s) {
  visit(
      "walk", s.walk,
      About{
          .doc =
              "Modules from the minus end to the plus end: ranges of places, separated by commas.",
          .required = true,
          .example = "R1.3-R1.1"});
  visit(
      "lands", s.lands,
      About{
          .doc = "Slot of a box, or input of the equipment.", .required = true, .example = "A1.1"});
  visit("plus_end", s.plus_end,
        About{.doc = "Mated plug at the plus end to the box entry, one way, without tail; wins "
                     "over geometry.",
              .example = "1.2 m",
              .min = 0,
              .max = 2000});
  visit("minus_end", s.minus_end,
        About{.doc = "The same for the minus end.", .example = "4.4 m", .min = 0, .max = 2000});
  visit("home_run", s.home_run,
        About{.doc = "A run that the ends take instead of the box's home_run.", .example = "HX"});
  visit("age", s.age,
        About{.doc = "Share of its current that an old string still gives.",
              .example = "0.92",
              .min = 0.05,
              .max = 1.2});
  visit("inline_fuse", s.inline_fuse,
        About{.doc = "Fuse in the lead at the string's end, a part of kind fuse.",
              .example = "fuse-15A"});
  visit("inline_fuse_in", s.inline_fuse_in,
        About{.doc = "Poles that carry it; left out: those that carry the string devices.",
              .example = "plus"});
  visit("blocking_diode", s.blocking_diode,
        About{.doc = "Diode in the plus lead that lets no current back, a part of kind diode.",
              .example = "diode-30A"});
  visit("electronics", s.electronics,
        About{.doc = "Unit at every module, a part of kind electronics.", .example = "RSD1"});
}

}  // namespace stringwright::job
