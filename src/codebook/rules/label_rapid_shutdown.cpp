#include "codebook/labels.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return is_label(f, "shutdown-plaque shutdown-plaque-outside shutdown-switch");
}

/// Who has to shut the array down finds words and switch.
///
/// Source: rows of data/codebook/labels.csv with their places in each edition. Proved: cases/rules/label_rapid_shutdown.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  return judge_label(f, edition, trail);
}

}  // namespace

extern const Rule label_rapid_shutdown{
    .id = "label.rapid-shutdown",
    .title = "Labels of rapid shutdown",
    .aliases = "L8 L9",
    .asks = "Which labels does rapid shutdown need, and in which words?",
    .applies = applies,
    .check = check,
    .cites = "label.general"};

}  // namespace stringwright::codebook
