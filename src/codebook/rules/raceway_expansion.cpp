#include "base/text.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::stretch && f.laid.method.known() && is_pvc(*f.laid.method) &&
         !f.laid.buried.known() && !(f.laid.inside.known() && *f.laid.inside);
}

/// PVC in the open grows and shrinks; from 1/4 in between fixed points an expansion fitting is due.
///
///     ΔL = k_pvc · L · ΔT,    ΔT = T_a − T_min + ΔT_pvc
///
/// k_pvc   6.084e-5 /K [1/K]; L length of the stretch, as if it were one straight run: cautious [m]
/// ΔT_pvc conduit in the sun above the air (30 °F, trade practice) [K]
///
/// Source: NFPA 70, 352.44 and its table. Proved: cases/rules/raceway_expansion.toml (cells of Table 352.44).
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto hot = trail.given("T_a", "hottest ambient", f.laid.ambient);
  const auto cold = trail.given("T_min", "lowest ambient", f.t_min);
  const auto sun =
      use(trail, "ΔT_pvc", "in the sun", edition.limit<units::dim::kelvin>("pvc.sun-rise"));
  const auto range = trail.let("ΔT", "range", (hot - cold) + sun);
  const auto k =
      use(trail, "k_pvc", "growth", edition.limit<units::dim::per_kelvin>("pvc.expansion"));
  const auto length = trail.given("L", "length of the stretch", f.laid.length);
  const auto change = trail.let("ΔL", "change of length", k * length * range, {}, 4);
  const auto most = use(trail, "ΔL_max", "without a fitting",
                        edition.limit<units::dim::length>("pvc.expansion-from"));
  if (!change.value || !(f.laid.length->si() > 0))
    return cannot_tell(words::unknown(trail, change.missing));
  const std::string mm = text::fixed(change.value->in(units::millimetres), 1) + " mm";
  if (change.value->si() < most.value->si() * (1 - 1e-9)) {
    trail.require(change <= most, edition.cite("pvc.expansion"));
    return {Verdict::pass,
            "It moves " + mm + ", less than 6.4 mm (1/4 in): no fitting needed.",
            {},
            {}};
  }
  const std::string so = "It moves " + mm + " between hottest and coldest, 6.4 mm (1/4 in) or more";
  if (f.laid.expansion.known()) {
    trail.note("Moves 1/4 in or more: a fitting is due.", edition.cite("pvc.expansion"));
    return *f.laid.expansion
               ? Outcome{Verdict::pass,
                         so + ": an expansion fitting is there; its travel must be more.",
                         {},
                         {}}
               : Outcome{Verdict::fail, so + ": without an expansion fitting it fails.", {}, {}};
  }
  return on_site(so +
                 ": put in an expansion fitting with more travel than that, set for the "
                 "temperature of the day.");
}

}  // namespace

extern const Rule raceway_expansion{
    .id = "raceway.expansion",
    .title = "Expansion of PVC",
    .aliases = "X11",
    .asks = "Does PVC in the open move so far between cold and heat that it needs a fitting?",
    .applies = applies,
    .check = check,
    .cites = "pvc.expansion pvc.sun"};

}  // namespace stringwright::codebook
