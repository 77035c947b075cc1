#include "codebook/labels.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return is_label(f, "raceway"); }

/// Raceways and covers of PV circuits on or in a building say what is in them.
///
/// Source: rows of data/codebook/labels.csv with their places in each edition. Proved: cases/rules/label_raceway.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  return judge_label(f, edition, trail);
}

}  // namespace

extern const Rule label_raceway{
    .id = "label.raceway",
    .title = "Labels of raceways and covers",
    .aliases = "L4",
    .asks = "Are raceways and covers of PV circuits on or in a building labelled?",
    .applies = applies,
    .check = check,
    .cites = "label.general"};

}  // namespace stringwright::codebook
