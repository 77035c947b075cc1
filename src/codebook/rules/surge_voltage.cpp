#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::arrester; }

/// An arrester bears the array's voltage on the coldest morning for ever.
///
///     U_c ≥ V_max
///
/// U_c    its maximum continuous operating voltage for PV [V]
/// V_max  maximum voltage of the strings on the bus [V]
///
/// Source: NFPA 70, article 285 (2014, 2017), 242 (2020 on); IEC 61643-32, from memory.
/// Proved: cases/rules/surge_voltage.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto u_c = trail.given("U_c", "continuous voltage", f.arrester.v_continuous);
  Outcome o = demand_at_least(trail, u_c, v_max, edition.cite("surge.voltage"));
  if (o.verdict == Verdict::fail)
    o.also = {"An arrester that conducts on a cold morning heats up and burns."};
  return o;
}

}  // namespace

extern const Rule surge_voltage{
    .id = "surge.voltage",
    .title = "Continuous voltage of the arrester",
    .aliases = "S1",
    .asks = "Does the arrester bear the array's highest voltage for ever?",
    .applies = applies,
    .check = check,
    .cites = "surge.voltage",
    .family = Asked::both};

}  // namespace stringwright::codebook
