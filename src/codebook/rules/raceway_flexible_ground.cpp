#include <algorithm>

#include "codebook/methods/words.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::stretch && f.laid.method.known() &&
         is_flexible_raceway(*f.laid.method);
}

/// Flexible conduit is not relied on as the ground: a wire runs in it. A conservative choice: short
/// lengths with listed fittings may serve in some places.
///
/// Source: NFPA 70, 250.118, 350.60. Proved: cases/rules/raceway_flexible_ground.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("Flexible conduit does not count as the ground.", edition.cite("raceway.flexible"));
  if (f.laid.wires.empty()) return cannot_tell("cannot tell: what lies in it is not known.");
  const bool wire = std::any_of(f.laid.wires.begin(), f.laid.wires.end(),
                                [](const auto& w) { return w.ground.known() && *w.ground; });
  return wire ? Outcome{Verdict::pass, "An equipment grounding wire lies in it: passes.", {}, {}}
              : Outcome{Verdict::fail,
                        "No equipment grounding wire lies in " + *f.laid.method + ": fails.",
                        {},
                        {}};
}

}  // namespace

extern const Rule raceway_flexible_ground{
    .id = "raceway.flexible-ground",
    .title = "Ground through flexible conduit",
    .aliases = "X16",
    .asks = "Does an equipment grounding wire run where the conduit is flexible?",
    .applies = applies,
    .check = check,
    .cites = "raceway.flexible"};

}  // namespace stringwright::codebook
