#include <cmath>

#include "codebook/methods/words.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::stretch && f.laid.method.known() && is_raceway(*f.laid.method) &&
         !f.laid.buried.known();
}

std::string feet(units::Length l) {
  return units::print(l) + " (" + words::plain(units::Ratio(l.in(units::feet))) + " ft)";
}

/// A raceway is fastened near each box and at even distances: d_sup ≤ d_max.
///
/// Source: NFPA 70, 358.30 and its like; table 352.30 for PVC. Straight threaded RMC may span more.
/// Proved: cases/rules/raceway_support_spacing.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.laid.size.known())
    return cannot_tell("cannot tell: the trade size of the raceway is not known.");
  const auto least = raceway_support(edition, *f.laid.method, *f.laid.size);
  if (!least.spacing.value)
    return cannot_tell("cannot tell: " + least.spacing.why + "; the maker's instructions decide.");
  const std::string near = "Within " + feet(*least.from_box.value) + " of each box.";
  if (f.laid.support.known()) {
    const auto d = trail.given("d_sup", "between supports", f.laid.support);
    const auto most = read_table(trail, "d_max", "most", least.spacing);
    Outcome outcome = demand_at_most(trail, d, most, edition.cite("raceway.support"));
    outcome.also.push_back(near);
    return outcome;
  }
  read_table(trail, "d_max", "most", least.spacing);
  std::string demand = "Fasten " + *f.laid.method + " " + f.laid.size->print() + " every " +
                       feet(*least.spacing.value) + " at most. " + near;
  if (f.laid.length.known() && f.laid.length->si() > 0) {
    const double spans = std::ceil((*f.laid.length / *least.spacing.value).in(units::plain)-1e-9);
    demand +=
        " This stretch: " + std::to_string(static_cast<int>(spans) + 1) + " supports or more.";
  }
  return on_site(demand);
}

}  // namespace

extern const Rule raceway_support_spacing{
    .id = "raceway.support-spacing",
    .title = "Supports of the raceway",
    .aliases = "X13",
    .asks = "Is the raceway fastened often enough and close to each box?",
    .applies = applies,
    .check = check,
    .cites = "raceway.support"};

}  // namespace stringwright::codebook
