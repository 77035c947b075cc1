#include "codebook/methods/currents.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// An isolator of the array is of category d.c.-PV2, or d.c.-PV1 where no current can run backwards, for the
/// array's voltage and current.
///
/// Source: IEC 60947-3; IEC 62548-1, 7.2.7, from memory. Proved: cases/rules/iec_switch_category.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto i_max = max_current(f, edition, trail);
  trail.note("Category d.c.-PV2, or d.c.-PV1 where no current can run backwards.",
             edition.cite("iec.switch-category"));
  std::string least;
  if (v_max.value) least = " for at least " + words::plain(*v_max.value);
  if (i_max.value)
    least += (least.empty() ? " for at least " : " and ") + words::plain(*i_max.value);
  return on_site(
      "The isolator in front of the equipment opens all poles and is marked d.c.-PV2 "
      "(d.c.-PV1 where no current can run backwards)" +
      least + ".");
}

}  // namespace

extern const Rule iec_switch_category{
    .id = "iec.switch-category",
    .title = "Category of the isolator",
    .aliases = "E10",
    .asks = "Is the isolator in front of the equipment made for switching an array under load?",
    .applies = applies,
    .check = check,
    .cites = "iec.switch-category current.output voltage.coefficient",
    .family = Asked::iec};

}  // namespace stringwright::codebook
