#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// From 100 kW on, a licensed engineer may state the maximum voltage by a standard method.
///
///     P_stc ≥ P_study,    V_study ≤ V_in,    V_study ≤ V_sys
///
/// The other findings stay with the code's own methods, which err on the safe side.
///
/// Source: NFPA 70, 690.7(A)(3). Proved: cases/rules/voltage_engineered.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto& s = f.study;
  if (!s.given.known() || !*s.given || !s.v_max.known())
    return not_applicable("No study states the voltage; the code's own methods judge.");
  const auto source = edition.cite("voltage.engineered");
  Demands demands(trail);
  const auto p = trail.given("P_stc", "power of the array", s.power);
  const auto p_min = use(trail, "P_study", "least power",
                         edition.limit<units::dim::power>("voltage.engineered-from"));
  demands.add(demand_at_least(trail, p, p_min, source));
  const auto v = trail.given("V_study", "voltage by the study", s.v_max);
  const auto v_in = trail.given("V_in", "input limit", f.v_max_input);
  demands.add(demand_at_most(trail, v, v_in, source));
  const auto v_sys = trail.given("V_sys", "modules' limit", f.v_sys);
  demands.add(demand_at_most(trail, v, v_sys, source));
  demands.ask(s.by.known() && s.licence.known() ? std::optional(true) : std::nullopt,
              {"a licensed engineer stamped it", "", "who stamped it and under which licence"},
              source);
  demands.ask(s.method.known() ? std::optional(true) : std::nullopt,
              {"it follows a standard method", "", "which standard method it follows"}, source);
  Outcome o = demands.outcome("The study's title page says so.");
  o.also.push_back("All other findings stay with the code's own methods.");
  return o;
}

}  // namespace

extern const Rule voltage_engineered{
    .id = "voltage.engineered",
    .title = "Maximum voltage by an engineer's study",
    .aliases = "V3",
    .asks =
        "Does the stamped study meet the conditions under which its voltage may be used, and do "
        "input and modules bear that voltage?",
    .applies = applies,
    .check = check,
    .cites = "voltage.engineered"};

}  // namespace stringwright::codebook
