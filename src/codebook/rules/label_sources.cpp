#include "codebook/labels.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return is_label(f, "ac-values battery stand-alone directory"); }

/// Who comes to the building reads which sources feed it.
///
/// Source: rows of data/codebook/labels.csv with their places in each edition. Proved: cases/rules/label_sources.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  return judge_label(f, edition, trail);
}

}  // namespace

extern const Rule label_sources{.id = "label.sources",
                                .title = "Labels of sources",
                                .aliases = "L5 L6 L7 L14",
                                .asks =
                                    "Which labels tell of the battery, of a stand-alone system, of "
                                    "the a.c. side and of all sources of a building?",
                                .applies = applies,
                                .check = check,
                                .cites = "label.general"};

}  // namespace stringwright::codebook
