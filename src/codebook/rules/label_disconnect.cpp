#include "codebook/labels.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return is_label(f, "pv-disconnect line-load dc-values"); }

/// The labels of a disconnect are due where it stands: its name, the warning of two live sides, the values.
///
/// Source: rows of data/codebook/labels.csv with their places in each edition. Proved: cases/rules/label_disconnect.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  return judge_label(f, edition, trail);
}

}  // namespace

extern const Rule label_disconnect{
    .id = "label.disconnect",
    .title = "Labels of the disconnect",
    .aliases = "L1 L2 L3",
    .asks = "Which labels does the disconnect at the input need, and with which values?",
    .applies = applies,
    .check = check,
    .cites = "label.general"};

}  // namespace stringwright::codebook
