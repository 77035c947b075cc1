#include "codebook/methods/building.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::array; }

/// An electrode at the array: asked by 2014 with exceptions, permitted later.
///
/// Source: NFPA 70, 690.47(D) of 2014, 690.47(B) from 2017 on.
/// Proved: cases/rules/grounding_array_electrode.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto& g = f.grounding;
  const bool none = g.array_electrode.known() && *g.array_electrode == "none";
  trail.note("An electrode at the array" +
                 std::string(edition.year() < 2017 ? " is asked." : " is permitted."),
             edition.cite("grounding.array-electrode"));
  if (edition.year() >= 2017)
    return not_applicable("An electrode at the array is permitted, not asked, in this edition.");
  if (g.array_electrode.known() && !none)
    return {Verdict::pass,
            "The array has an electrode of its own (" + *g.array_electrode + "): passes.",
            {"It does not take the place of the equipment ground."},
            {}};
  if (g.array_electrode_near.known() && *g.array_electrode_near)
    return not_applicable(
        "The building's electrode stands within 6 ft of where this one would: none is asked.");
  if (none && g.array_electrode_near.known())
    return {
        Verdict::fail, "The array has no electrode, which this edition asks for: fails.", {}, {}};
  if (none)
    return cannot_tell(
        "cannot tell: the array has no electrode; whether the building's stands within "
        "6 ft is not known (grounding.array_electrode_near).");
  return cannot_tell(
      "cannot tell: whether the array has an electrode of its own is not known "
      "(grounding.array_electrode).");
}

}  // namespace

extern const Rule grounding_array_electrode{
    .id = "grounding.array-electrode",
    .title = "Electrode at the array",
    .aliases = "G8",
    .asks = "Has the array an electrode of its own where the edition asks for one?",
    .applies = applies,
    .check = check,
    .cites = "grounding.array-electrode"};

}  // namespace stringwright::codebook
