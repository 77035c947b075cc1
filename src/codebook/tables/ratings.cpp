#include <cstddef>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/iec_tables.hpp"
#include "codebook/tables/csv.hpp"

namespace stringwright::codebook {
namespace {

struct Standard {
  units::Current rating;
  std::string status;
};

const std::vector<Standard>& standard() {
  static const std::vector<Standard> rows = [] {
    const auto csv = tables::compiled_in("standard_ratings.csv");
    std::vector<Standard> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({units::amps(csv.number(i, "rating_a").value_or(0)), csv.text(i, "status")});
    return all;
  }();
  return rows;
}

/// The series of the edition's family: breakers and fuses of the NEC, gPV fuse-links of the IEC.
const std::vector<Standard>& series_of(Family family) {
  static const std::vector<Standard> iec = [] {
    std::vector<Standard> all;
    for (const auto& r : iec::fuse_ratings()) all.push_back({r.rating, r.status});
    return all;
  }();
  return family == Family::iec ? iec : standard();
}

struct Small {
  units::WireSize size;
  units::Metal metal;
  units::Current limit;
  std::string status;
};

const std::vector<Small>& small() {
  static const std::vector<Small> rows = [] {
    const auto csv = tables::compiled_in("small_conductors.csv");
    std::vector<Small> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({units::WireSize::from_table(csv.text(i, "size")).value_or(units::WireSize{}),
                     csv.text(i, "metal") == "cu" ? units::Metal::copper : units::Metal::aluminium,
                     units::amps(csv.number(i, "max_device_a").value_or(0)),
                     csv.text(i, "status")});
    return all;
  }();
  return rows;
}

}  // namespace

Looked<units::Current> Edition::standard_rating_at_least(units::Current i) const {
  Looked<units::Current> looked;
  looked.source = cite("table.standard");
  looked.where = "standard rating not below " + units::print(i);
  for (const auto& row : series_of(family())) {
    if (!units::at_least(row.rating, i)) continue;
    looked.value = row.rating;
    looked.source.status = row.status;
    return looked;
  }
  looked.why = "no standard rating is as large as " + units::print(i);
  return looked;
}

Looked<units::Current> Edition::standard_rating_at_most(units::Current i) const {
  Looked<units::Current> looked;
  looked.source = cite("table.standard");
  looked.where = "standard rating not above " + units::print(i);
  for (const auto& row : series_of(family())) {
    if (!units::at_most(row.rating, i)) break;
    looked.value = row.rating;
    looked.source.status = row.status;
  }
  if (!looked.value) looked.why = "no standard rating is as small as " + units::print(i);
  return looked;
}

Looked<units::Current> Edition::small_conductor_limit(const units::WireSize& size,
                                                      units::Metal metal) const {
  Looked<units::Current> looked;
  looked.source = cite("table.small");
  looked.where = size.print() + " " + std::string(units::print(metal));
  for (const auto& row : small()) {
    if (!(row.size == size) || row.metal != metal) continue;
    looked.value = row.limit;
    looked.source.status = row.status;
    return looked;
  }
  looked.why = "no limit of its own for " + looked.where;
  return looked;
}

}  // namespace stringwright::codebook
