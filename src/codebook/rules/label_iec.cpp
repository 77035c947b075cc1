#include "codebook/labels.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return is_label(f, "iec-box iec-route iec-isolator"); }

/// Boxes, routes and isolators say that they belong to a PV array.
///
/// Source: rows of data/codebook/labels.csv with their places in each edition. Proved: cases/rules/label_iec.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  return judge_label(f, edition, trail);
}

}  // namespace

extern const Rule label_iec{.id = "label.iec",
                            .title = "Labels of the IEC family",
                            .aliases = "L16",
                            .asks = "Are boxes, cable routes and isolators of the array labelled?",
                            .applies = applies,
                            .check = check,
                            .cites = "label.general",
                            .family = Asked::iec};

}  // namespace stringwright::codebook
