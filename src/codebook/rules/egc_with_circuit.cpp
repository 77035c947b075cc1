#include <algorithm>

#include "codebook/methods/words.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::output_circuit; }

/// Once the conductors leave the array, their equipment ground runs with them: a wire, or rigid metal
/// raceway all the way.
///
/// Source: NFPA 70, 690.43, 250.134. Proved: cases/rules/egc_with_circuit.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("The equipment ground runs with the circuit.", edition.cite("egc.with-circuit"));
  if (!f.with_ground.known()) return cannot_tell("cannot tell: the equipment ground is not known.");
  if (*f.with_ground)
    return {Verdict::pass, "A ground wire runs with the circuit: passes.", {}, {}};
  if (f.stretches.empty()) return cannot_tell("cannot tell: the way of the circuit is not known.");
  for (const auto& s : f.stretches)
    if (!s.method.known()) return cannot_tell("cannot tell: wiring method is not known.");
  const bool metal = std::all_of(f.stretches.begin(), f.stretches.end(), [](const auto& s) {
    return is_metal_raceway(*s.method) && !is_flexible_raceway(*s.method);
  });
  if (metal)
    return {Verdict::caution,
            "No ground wire: the metal raceway alone is the ground.",
            {"Every coupling and hub then carries the fault current; a wire is the surer way."},
            {}};
  return {Verdict::fail,
          "No ground wire runs with it, and not all of its way is rigid metal raceway: fails.",
          {"Write egc = \"choose\" in the run's wire, or name a size."},
          {}};
}

}  // namespace

extern const Rule egc_with_circuit{.id = "egc.with-circuit",
                                   .title = "Equipment ground beside its circuit",
                                   .aliases = "X15",
                                   .asks =
                                       "Does an equipment ground run with the conductors that "
                                       "leave the array?",
                                   .applies = applies,
                                   .check = check,
                                   .cites = "egc.with-circuit"};

}  // namespace stringwright::codebook
