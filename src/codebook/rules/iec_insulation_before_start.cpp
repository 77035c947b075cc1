#include "codebook/methods/currents.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// The converter measures the array against earth before each start and does not start below the limit.
///
///     R_iso ≥ V_max / I_leak
///
/// I_leak  30 mA, converter standard [A]. No reading is known here: what to look for is named.
///
/// Source: IEC 62109-2; IEC 62548-1, 6.3, from memory. Proved: cases/rules/iec_insulation_before_start.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto leak =
      use(trail, "I_leak", "leakage", edition.limit<units::dim::current>("iec.leakage"));
  const auto r = trail.let("R_iso", "insulation", v_max / leak, edition.cite("iec.insulation"));
  return on_site(
      r.value ? "The converter checks insulation before each start and refuses below " +
                    words::plain(*r.value) + " against earth, and an alarm tells somebody."
              : "The converter checks insulation before each start, and an alarm tells somebody.");
}

}  // namespace

extern const Rule iec_insulation_before_start{
    .id = "iec.insulation-before-start",
    .title = "Insulation before start",
    .aliases = "E9",
    .asks =
        "Is the insulation of the array against earth measured before the converter starts, and is "
        "it high enough?",
    .applies = applies,
    .check = check,
    .cites = "iec.insulation",
    .family = Asked::iec};

}  // namespace stringwright::codebook
