#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::arrester; }

/// An arrester that has failed parts itself from all the current of the array.
///
///     I_scpv ≥ I_max
///
/// I_scpv  short-circuit current rating of the arrester [A]
/// I_max   maximum current of all strings that reach it [A]
///
/// Source: IEC 61643-31 and -32, from memory; NFPA 70, 110.3(B), its listing.
/// Proved: cases/rules/surge_short_circuit.toml. Not here: what a battery behind it could add.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_max = max_current(f, edition, trail);
  const auto rating = trail.given("I_scpv", "short-circuit rating", f.arrester.isc_rating);
  return demand_at_least(trail, rating, i_max, edition.cite("surge.short-circuit"));
}

}  // namespace

extern const Rule surge_short_circuit{
    .id = "surge.short-circuit",
    .title = "Array current through a failed arrester",
    .aliases = "S3",
    .asks = "Is the arrester rated for the current that the array drives through it once it fails?",
    .applies = applies,
    .check = check,
    .cites = "surge.short-circuit",
    .family = Asked::both};

}  // namespace stringwright::codebook
