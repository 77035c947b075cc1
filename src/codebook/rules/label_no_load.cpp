#include "codebook/labels.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return is_label(f, "holder connector"); }

/// What may not be opened under load says so.
///
/// Source: rows of data/codebook/labels.csv with their places in each edition. Proved: cases/rules/label_no_load.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  return judge_label(f, edition, trail);
}

}  // namespace

extern const Rule label_no_load{
    .id = "label.no-load",
    .title = "Labels: not under load",
    .aliases = "L13",
    .asks = "Is everything that may not be opened under load marked so?",
    .applies = applies,
    .check = check,
    .cites = "label.general",
    .family = Asked::both};

}  // namespace stringwright::codebook
