#include "codebook/methods/currents.hpp"

namespace stringwright::codebook {
namespace {

bool one_string(Subject s) { return s == Subject::string_circuit || s == Subject::string_device; }

Traced<units::Current> for_duty(const Facts& facts, const Edition& edition, Trail& trail,
                                const char* usual, const char* full_load, const char* cite) {
  const auto i_max = max_current(facts, edition, trail);
  const bool listed = facts.continuous_100.known() && *facts.continuous_100;
  const auto k = use(trail, "k_dty", listed ? "full-load listing" : "continuous duty",
                     edition.factor(listed ? full_load : usual));
  return trail.let("I_req", "must carry", k * i_max, edition.cite(cite));
}

}  // namespace

Traced<units::Current> max_current(const Facts& facts, const Edition& edition, Trail& trail) {
  const bool string = one_string(facts.subject);
  // A circuit may be taken at the rated current of the input it feeds, from 2020 on.
  if (!string && facts.converter_limit.known() && *facts.converter_limit &&
      facts.subject != Subject::input && facts.i_rated_input.known() &&
      edition.has_factor("current.converter-allowed") &&
      edition.factor("current.converter-allowed").value.value_or(0) > 0) {
    const auto i_in = trail.given("I_ri", "rated current of the input", facts.i_rated_input);
    return trail.let("I_max", "most current", i_in, edition.cite("current.converter"));
  }
  const auto k = use(trail, "k_sun", "strong sun", edition.factor("current.irradiance-factor"));
  const auto i_sc = string ? trail.given("I_sc", "I_sc of the string", facts.i_sc)
                           : trail.given("ΣI_sc", "all strings' I_sc", facts.i_sc_total);
  return trail.let("I_max", "most current", k * i_sc,
                   edition.cite(string ? "current.string" : "current.output"));
}

Traced<units::Current> conductor_current(const Facts& facts, const Edition& edition, Trail& trail) {
  return for_duty(facts, edition, trail, "conductor.continuous-factor",
                  "conductor.listed-100-factor", "conductor.continuous");
}

Traced<units::Current> device_current(const Facts& facts, const Edition& edition, Trail& trail) {
  return for_duty(facts, edition, trail, "ocpd.continuous-factor", "ocpd.listed-100-factor",
                  "ocpd.rating");
}

Traced<units::Current> backfeed_current(const Facts& facts, const Edition& edition, Trail& trail) {
  const auto k = use(trail, "k_sun", "strong sun", edition.factor("current.irradiance-factor"));
  const auto others = trail.given("I_oth", "others' I_sc", facts.i_sc_others);
  return trail.let("I_rev", "back-feed", k * others, edition.cite("ocpd.needed"));
}

Behind behind(const Facts& facts) {
  if (facts.battery.known() && !*facts.battery) return Behind::nothing;
  if (facts.blocks_reverse.known() && *facts.blocks_reverse) return Behind::nothing;
  if (facts.battery.known() && facts.blocks_reverse.known()) return Behind::battery;
  return Behind::not_known;
}

}  // namespace stringwright::codebook
