#include <algorithm>
#include <array>
#include <string_view>

#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment_ground; }

constexpr std::array<std::string_view, 4> open_ways{"free-air", "tray", "in-rack", ""};

/// A thin equipment ground in the open is protected where something could hit it.
///
/// Source: NFPA 70, 690.46, 250.120(C): smaller than 6 AWG; IEC 60364-5-54, 543.1.3: a conductor of its own
/// under 4 mm² copper (16 mm² aluminium, from memory) lies protected, and none is under 2.5 mm².
/// Proved: cases/rules/egc_exposed.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const bool all_in_raceway =
      !f.stretches.empty() &&
      std::all_of(f.stretches.begin(), f.stretches.end(), [](const StretchFacts& s) {
        return s.method.known() &&
               std::find(open_ways.begin(), open_ways.end(), *s.method) == open_ways.end();
      });
  if (all_in_raceway)
    return {Verdict::pass, "It lies in raceway or earth all along: passes.", {}, {}};
  if (!f.wire.known()) return cannot_tell("cannot tell: the ground wire is not chosen.");
  const auto bound = edition.smallest_size("exposed-ground", f.wire->metal);
  if (!bound.value) return cannot_tell("cannot tell: " + bound.why + ".");
  trail.note("Smaller than " + bound.value->print() + " it has to be protected in the open.",
             bound.source);
  if (!(f.wire->size < *bound.value))
    return {Verdict::pass,
            f.wire->size.print() + " is not smaller than " + bound.value->print() +
                ": may lie in the open.",
            {},
            {}};
  const auto& guarded = f.grounding.guarded;
  if (guarded.known())
    return *guarded
               ? Outcome{Verdict::pass,
                         f.wire->size.print() + " is protected where it lies in the open: passes.",
                         {},
                         {}}
               : Outcome{Verdict::fail,
                         f.wire->size.print() + " lies in the open without protection: fails.",
                         {bound.value->print() + " may lie so."},
                         {}};
  return on_site("Thin ground wire, " + f.wire->size.print() +
                 ": protected wherever it lies in the open and something could hit it.");
}

}  // namespace

extern const Rule egc_exposed{
    .id = "egc.exposed",
    .title = "Thin equipment ground in the open",
    .aliases = "G6",
    .asks = "Is a thin equipment ground protected where it lies in the open?",
    .applies = applies,
    .check = check,
    .cites = "egc.exposed",
    .family = Asked::both};

}  // namespace stringwright::codebook
