#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::connector && f.connector.described.known() && *f.connector.described;
}

///     I_con ≥ I_max,    I_max = k_sun · I_sc
///
/// Source: NFPA 70, 110.3(B): the maker's rating. Proved: cases/rules/connector_current.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto k = use(trail, "k_sun", "strong sun", edition.factor("current.irradiance-factor"));
  const auto i_sc = trail.given("I_sc", "I_sc of the string", f.i_sc);
  const auto i_max = trail.let("I_max", "most current", k * i_sc, edition.cite("current.string"));
  const auto i_con = trail.given("I_con", "connector rating", f.connector.i_max);
  return demand_at_least(trail, i_con, i_max, edition.cite("equipment.instructions"));
}

}  // namespace

extern const Rule connector_current{
    .id = "connector.current",
    .title = "Current of connectors",
    .aliases = "M14",
    .asks = "Is the connector made for the current of the string in strong sun?",
    .applies = applies,
    .check = check,
    .cites = "equipment.instructions current.string"};

}  // namespace stringwright::codebook
