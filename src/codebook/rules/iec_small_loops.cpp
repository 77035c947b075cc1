#include "codebook/methods/currents.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// Plus and minus lie side by side, so that the loop a lightning current couples into is small.
///
/// Source: IEC 62548-1, 6.6, 7.3, from memory. Proved: cases/rules/iec_small_loops.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  (void)f;
  trail.note("Plus and minus side by side, the loop of a string small.", edition.cite("iec.loops"));
  return on_site(
      "Plus and minus of every string come back along the same way, and run side by side to the "
      "box "
      "and down, the protective conductor with them.");
}

}  // namespace

extern const Rule iec_small_loops{
    .id = "iec.small-loops",
    .title = "Small loops",
    .aliases = "E12",
    .asks = "Do plus and minus of every string and output lie close together?",
    .applies = applies,
    .check = check,
    .cites = "iec.loops",
    .family = Asked::iec};

}  // namespace stringwright::codebook
