#include "codebook/methods/words.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::stretch && f.laid.method.known() && is_pvc(*f.laid.method);
}

/// PVC is not used where it gets hotter than 50 °C: T_a + ΔT_roof ≤ 50 °C.
///
/// The adder over a sunlit roof counts as ambient: the cautious reading. Source: NFPA 70, 352.12(D).
/// Not here: PVC listed for more. Proved: cases/rules/raceway_heat.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  auto t = trail.given("T_a", "ambient", f.laid.ambient);
  if (f.laid.above_roof.known())
    t = trail.let("T_c", "at the raceway",
                  t + read_table(trail, "ΔT_roof", "over the roof",
                                 edition.rooftop_adder(*f.laid.above_roof, "")));
  const auto most = edition.temperature("pvc.most-ambient");
  const auto limit = use(trail, "T_pvc", "most for PVC", most);
  if (!t.value) return cannot_tell("cannot tell: ambient is not known.");
  const bool holds =
      units::at_most(units::kelvins(t.value->kelvin()), units::kelvins(limit.value->kelvin()));
  trail.note("Where it meets the sun, PVC has to be marked sunlight resistant.",
             edition.cite("pvc.heat"));
  return {holds ? Verdict::pass : Verdict::fail,
          units::print(*t.value) + (holds ? " ≤ " : " > ") + units::print(*limit.value) +
              (holds ? ": passes." : ": PVC may not be used there, fails."),
          holds ? std::vector<std::string>{}
                : std::vector<std::string>{"Metal raceway, or higher above the roof."},
          {}};
}

}  // namespace

extern const Rule raceway_heat{.id = "raceway.heat",
                               .title = "Heat around PVC",
                               .aliases = "X12",
                               .asks = "Does PVC stay below the ambient it may be used in?",
                               .applies = applies,
                               .check = check,
                               .cites = "pvc.heat table.rooftop"};

}  // namespace stringwright::codebook
