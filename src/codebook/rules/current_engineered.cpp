#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// From 100 kW on, a licensed engineer may state a string's maximum current by the sun of the place; never
/// less than a share of the code's own.
///
///     P_stc ≥ P_study,    I_study ≥ k_floor · I_max,    I_max = k_sun · I_sc
///
/// The other findings stay with the code's own current, which errs on the safe side.
///
/// Source: NFPA 70, 690.8(A)(1)(a)(2). Proved: cases/rules/current_engineered.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto& s = f.study;
  if (!s.given.known() || !*s.given || !s.i_string.known())
    return not_applicable("No study states the current; the code's own method judges.");
  const auto source = edition.cite("current.engineered");
  Demands demands(trail);
  const auto p = trail.given("P_stc", "power of the array", s.power);
  const auto p_min = use(trail, "P_study", "least power",
                         edition.limit<units::dim::power>("current.engineered-from"));
  demands.add(demand_at_least(trail, p, p_min, source));
  const auto k = use(trail, "k_sun", "strong sun", edition.factor("current.irradiance-factor"));
  const auto i_sc = trail.given("I_sc", "I_sc of a string", f.i_sc);
  const auto i_max = trail.let("I_max", "most current", k * i_sc, edition.cite("current.string"));
  const auto floor =
      use(trail, "k_floor", "never below", edition.factor("current.engineered-floor"));
  const auto i = trail.given("I_study", "current by the study", s.i_string);
  const auto least = trail.let("I_floor", "least that counts", floor * i_max, source);
  demands.add(demand_at_least(trail, i, least, source));
  demands.ask(s.by.known() && s.licence.known() ? std::optional(true) : std::nullopt,
              {"a licensed engineer stamped it", "", "who stamped it and under which licence"},
              source);
  demands.ask(s.method.known() ? std::optional(true) : std::nullopt,
              {"it follows a standard method", "", "which standard method it follows"}, source);
  Outcome o = demands.outcome("The study's title page says so.");
  o.also.push_back("All other findings stay with the code's own current.");
  return o;
}

}  // namespace

extern const Rule current_engineered{
    .id = "current.engineered",
    .title = "Maximum current by an engineer's study",
    .aliases = "I3",
    .asks = "Does the stamped study meet the conditions under which its current may be used?",
    .applies = applies,
    .check = check,
    .cites = "current.engineered current.string"};

}  // namespace stringwright::codebook
