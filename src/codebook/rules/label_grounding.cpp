#include "codebook/labels.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return is_label(f, "ground-fault ungrounded bipolar"); }

/// 2014 warns where a fault, or the scheme, leaves conductors live against ground.
///
/// Source: rows of data/codebook/labels.csv with their places in each edition. Proved: cases/rules/label_grounding.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  return judge_label(f, edition, trail);
}

}  // namespace

extern const Rule label_grounding{
    .id = "label.grounding",
    .title = "Warnings of the grounding scheme",
    .aliases = "L10 L11 L12",
    .asks = "Which warnings about ungrounded or bipolar conductors does the edition ask for?",
    .applies = applies,
    .check = check,
    .cites = "label.general"};

}  // namespace stringwright::codebook
