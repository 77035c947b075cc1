#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_circuit || f.subject == Subject::output_circuit;
}

/// Insulation that has no wet rating may not be used outdoors: in the open, buried, and inside outdoor
/// raceways, where water gathers.
///
/// Insulation without a wet rating passes only where all of its way is said to lie inside a building.
///
/// Source: NFPA 70, 300.9, 310.10(C). Proved: cases/rules/conductor_wet_place.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.wire.known()) return cannot_tell("cannot tell: the conductor is not known.");
  const auto wet = edition.insulation_rating(f.wire->insulation);
  const auto rating = read_table(trail, "T_ins", "insulation, wet", wet);
  trail.note("An outdoor raceway is wet inside.", edition.cite("conductor.wet"));
  if (rating.value)
    return {Verdict::pass,
            "Insulation " + f.wire->insulation + " may be used in a wet place (" +
                units::print(*rating.value) + "): passes.",
            {},
            {}};
  if (!edition.insulation_rating_dry(f.wire->insulation).value)
    return cannot_tell("cannot tell: " + wet.why + ".");
  for (const auto& s : f.stretches)
    if (s.method.known() && (*s.method == "buried" || *s.method == "free-air"))
      return {Verdict::fail,
              wet.why + ", and a stretch lies " +
                  (*s.method == "buried" ? "in earth" : "in open air") + ": fails.",
              {},
              {}};
  bool dry = !f.stretches.empty();
  for (const auto& s : f.stretches) {
    if (s.inside.known() && !*s.inside)
      return {Verdict::fail,
              wet.why + ", and a stretch lies outside, where raceways are wet: fails.",
              {"THWN-2 or XHHW-2 serve there, never plain THHN."},
              {}};
    dry = dry && s.inside.known() && *s.inside;
  }
  if (dry) return {Verdict::pass, "All of its way lies inside a building: passes.", {}, {}};
  return cannot_tell("cannot tell: " + wet.why +
                     "; say of every stretch whether it lies inside a building (inside).");
}

}  // namespace

extern const Rule conductor_wet_place{.id = "conductor.wet-place",
                                      .title = "Insulation for wet places",
                                      .aliases = "M1",
                                      .asks =
                                          "May the conductor's insulation be used in wet places, "
                                          "as the inside of an outdoor raceway is?",
                                      .applies = applies,
                                      .check = check,
                                      .cites = "conductor.wet table.insulation"};

}  // namespace stringwright::codebook
