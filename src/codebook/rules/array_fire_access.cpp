#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::surface && f.marks.place.known() && *f.marks.place == "roof";
}

/// A pointer: on roofs the fire code asks for free ways. Not a rule of the electrical code; its numbers
/// are local, so none stands here. Proved: cases/rules/array_fire_access.toml.
Outcome check(const Facts&, const Edition& edition, Trail& trail) {
  trail.note("Access ways of the fire code.", edition.cite("fire.access"));
  return on_site(
      "Ask the authority for the fire code's ways along ridge, eaves and valleys before the "
      "rows are laid out.");
}

}  // namespace

extern const Rule array_fire_access{.id = "array.fire-access",
                                    .title = "Access for the fire service",
                                    .aliases = "M9",
                                    .asks =
                                        "Does the array leave the ways free that the fire code "
                                        "asks for on roofs?",
                                    .applies = applies,
                                    .check = check,
                                    .cites = "fire.access"};

}  // namespace stringwright::codebook
