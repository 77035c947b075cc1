#include "codebook/facts.hpp"
#include "codebook/iec_tables.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment_ground; }

/// The protective conductor beside a circuit: as large as its line conductors up to 16 mm², 16 mm² up to
/// 35 mm², half of them above; apart from the cable and not protected from damage at least 4 mm².
///
///     A_gnd ≥ max(A_min, 4 mm²)
///
/// Source: IEC 60364-5-54, Table 54.2, 543.1.3. Proved: cases/rules/iec_protective_conductor.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.circuit_wire.known())
    return cannot_tell("cannot tell: the circuit's conductor is not known.");
  const auto a_min = read_table(trail, "A_min", "least protective wire",
                                iec::protective_conductor(edition, f.circuit_wire->size));
  const auto apart = use(trail, "A_apart", "apart from the cable",
                         edition.limit<units::dim::area>("iec.protective-apart"));
  const auto a_need = trail.let("A_need", "needed", greater(a_min, apart));
  if (!f.wire.known())
    return cannot_tell(
        "cannot tell: the protective conductor is not chosen" +
        (a_need.value ? "; " + words::plain(*a_need.value) + " is the least." : "."));
  if (f.wire->metal != f.circuit_wire->metal)
    return cannot_tell("cannot tell: the table holds for conductors of one metal.");
  const auto a_gnd =
      trail.given("A_gnd", "ground wire", Fact<units::Area>(f.wire->size.area(), f.wire.from));
  return demand_at_least(trail, a_gnd, a_need, edition.cite("iec.protective"));
}

}  // namespace

extern const Rule iec_protective_conductor{
    .id = "iec.protective-conductor",
    .title = "Size of the protective conductor",
    .aliases = "G5",
    .asks = "Is the protective conductor as large as the circuit's conductors ask for?",
    .applies = applies,
    .check = check,
    .cites = "iec.protective",
    .family = Asked::iec};

}  // namespace stringwright::codebook
