#include <cstddef>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/iec_tables.hpp"
#include "codebook/tables/csv.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  units::WireSize size;
  double strands;
  units::Area area;
  units::ResistancePerLength copper, aluminium;  ///< uncoated, at 75 °C
  std::string status;
};

/// Area of a circle of 0.001 in.
units::Area circular_mil() {
  const units::Length mil = units::inches(1e-3);
  return 3.14159265358979323846 / 4 * (mil * mil);
}

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("wire_sizes.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({units::WireSize::from_table(csv.text(i, "size")).value_or(units::WireSize{}),
                     csv.number(i, "strands").value_or(0),
                     circular_mil() * csv.number(i, "area_cmil").value_or(0),
                     units::ohms_per_thousand_feet(csv.number(i, "r75_cu_ohm_kft").value_or(0)),
                     units::ohms_per_thousand_feet(csv.number(i, "r75_al_ohm_kft").value_or(0)),
                     csv.text(i, "status")});
    return all;
  }();
  return rows;
}

}  // namespace

Looked<units::Area> Edition::circular_mils(const units::WireSize& size) const {
  Looked<units::Area> looked;
  looked.where = size.print();
  looked.source = cite("table.resistance");
  for (const auto& row : all_rows()) {
    if (!(row.size == size)) continue;
    looked.value = row.area;
    if (looked.source.status == "verified") looked.source.status = row.status;
    return looked;
  }
  looked.why = "the table does not list " + size.print();
  return looked;
}

Looked<units::ResistancePerLength> Edition::resistance(const units::WireSize& size,
                                                       units::Metal metal,
                                                       units::Temperature t) const {
  Looked<units::ResistancePerLength> looked;
  looked.where = size.print() + " " + std::string(units::print(metal)) + ", " + units::print(t);
  looked.source = cite("table.resistance");
  const auto reference = temperature("resistance.reference");
  const auto alpha = limit<units::dim::per_kelvin>(metal == units::Metal::copper
                                                       ? "resistance.copper-per-kelvin"
                                                       : "resistance.aluminium-per-kelvin");
  if (family() == Family::iec) {
    const auto r_20 = iec::resistance_at_20(*this, size, metal);
    looked.source = r_20.source;
    looked.why = r_20.why;
    if (r_20.value && reference.value && alpha.value)
      looked.value = *r_20.value * (1 + *alpha.value * (t - *reference.value));
    return looked;
  }
  for (const auto& row : all_rows()) {
    if (!(row.size == size) || row.strands < 2 || !reference.value || !alpha.value) continue;
    const auto r_75 = metal == units::Metal::copper ? row.copper : row.aluminium;
    looked.value = r_75 * (1 + *alpha.value * (t - *reference.value));
    if (looked.source.status == "verified") looked.source.status = row.status;
    return looked;
  }
  looked.why = "the table does not list " + size.print();
  return looked;
}

Looked<units::ResistancePerLength> annealed_copper(const Edition& edition,
                                                   const units::WireSize& size,
                                                   units::Temperature t) {
  const auto rho = edition.limit<units::dim::resistivity>("annealed-copper.resistivity");
  const auto alpha = edition.limit<units::dim::per_kelvin>("annealed-copper.per-kelvin");
  const auto reference = edition.temperature("annealed-copper.reference");
  Looked<units::ResistancePerLength> looked;
  looked.where = size.print() + " solid copper, " + units::print(t);
  looked.source = rho.source;
  if (rho.value && alpha.value && reference.value && size.known())
    looked.value = *rho.value / size.area() * (1 + *alpha.value * (t - *reference.value));
  else
    looked.why = "the size is not known";
  return looked;
}

}  // namespace stringwright::codebook
