#include "codebook/methods/words.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::stretch && f.laid.method.known() && is_raceway(*f.laid.method);
}

/// "at least 152 mm (6 in)" for the radius of this size, or nothing.
std::string radius_words(const Facts& f, const Edition& edition) {
  if (!f.laid.size.known()) return "by the table of bends";
  const auto radius = bend_radius(edition, *f.laid.size);
  if (!radius.value) return "by the table of bends";
  return units::print(units::AnyQuantity(*radius.value), 3) + " (" +
         words::plain(units::Ratio(radius.value->in(units::inches))) + " in)";
}

/// Bends between two pull points turn no more than a full circle: Σ bends ≤ 360°.
///
/// Stretches of raceway that follow each other count together up to the next pull point. The radius of
/// each bend can't be seen in the job: it is named. Source: NFPA 70, 358.26 and its like, chapter 9,
/// table 2. Proved: cases/rules/raceway_bends.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto most = edition.limit<units::dim::angle>("bends.total");
  const std::string radius = "Radius of each bend at least " + radius_words(f, edition) + ".";
  if (!f.laid.bends.known()) {
    if (trail.steps().empty()) trail.note(radius, edition.cite("table.bend-radius"));
    return on_site("Between two pull points no more than 360° of bends. " + radius);
  }
  const auto bends = trail.given("Σbend", "bends between pull points", f.laid.bends);
  const auto limit = use(trail, "b_most", "most", most);
  Outcome outcome = demand_at_most(trail, bends, limit, edition.cite("raceway.bends"));
  outcome.also.push_back(radius);
  if (outcome.verdict == Verdict::fail)
    outcome.also.push_back("Put a pull point between, or take bends out.");
  trail.note(radius, edition.cite("table.bend-radius"));
  return outcome;
}

}  // namespace

extern const Rule raceway_bends{
    .id = "raceway.bends",
    .title = "Bends between pull points",
    .aliases = "X9",
    .asks = "Do the bends between two pull points of a raceway turn no more than 360° together?",
    .applies = applies,
    .check = check,
    .cites = "raceway.bends table.bend-radius"};

}  // namespace stringwright::codebook
