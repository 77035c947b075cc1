#include "codebook/methods/currents.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// Class II or equivalent insulation is the measure against shock up to the converter; above 120 V d.c.
/// extra-low voltage is none.
///
/// Source: IEC 60364-7-712, 712.412, 712.414, from memory. Proved: cases/rules/iec_shock_protection.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto elv = use(trail, "V_elv", "extra-low voltage",
                       edition.limit<units::dim::voltage>("iec.extra-low-voltage"));
  trail.note("Class II or equivalent up to the converter.", edition.cite("iec.shock"));
  std::string said =
      "Modules, cables, connectors and box are marked class II (double square) up to "
      "the equipment.";
  if (v_max.value && elv.value)
    said += units::at_most(*v_max.value, *elv.value)
                ? ""
                : " The array reaches " + words::plain(*v_max.value) + ": above " +
                      words::plain(*elv.value) + " extra-low voltage protects nobody.";
  return on_site(said);
}

}  // namespace

extern const Rule iec_shock_protection{.id = "iec.shock-protection",
                                       .title = "Protection against shock",
                                       .aliases = "E11",
                                       .asks =
                                           "Is everything up to the converter of class II, and is "
                                           "extra-low voltage relied on nowhere above 120 V?",
                                       .applies = applies,
                                       .check = check,
                                       .cites = "iec.shock",
                                       .family = Asked::iec};

}  // namespace stringwright::codebook
