#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::enclosure; }

/// Lugs: unlike metals kept apart, paint off, no sheet-metal screws. Nothing in a drawing shows it.
///
/// Source: NFPA 70, 110.14, 250.8, 250.12. Proved: cases/rules/box_lugs.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("Lugs by their listing; clean metal below.", edition.cite("box.lugs"));
  Outcome outcome = on_site(
      "Under every ground lug bare metal, paint off; machine screws with two threads or a nut, no "
      "sheet-metal screws; tin-plated lugs on aluminium frames, no bare copper on it.");
  if (f.hull.aluminium.known() && *f.hull.aluminium)
    outcome.also.push_back(
        "Aluminium conductors: only in terminals marked AL, brushed, with "
        "compound where the marking asks for it.");
  return outcome;
}

}  // namespace

extern const Rule box_lugs{.id = "box.lugs",
                           .title = "Lugs and metals",
                           .aliases = "M5",
                           .asks =
                               "Are lugs fastened on clean metal with proper screws, and unlike "
                               "metals kept apart?",
                           .applies = applies,
                           .check = check,
                           .cites = "box.lugs"};

}  // namespace stringwright::codebook
