#include "codebook/iec_tables.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <string>

#include "base/text.hpp"
#include "codebook/tables/csv.hpp"

namespace stringwright::codebook::iec {
namespace {

using tables::Csv;

/// The row of a table that a size has; -1 where the table does not list it.
int row_of(const Csv& csv, const units::WireSize& size) {
  for (std::size_t i = 0; i < csv.size(); ++i)
    if (csv.text(i, "s_mm2") + " mm²" == size.table_name()) return static_cast<int>(i);
  return -1;
}

std::string not_listed(const units::WireSize& size) {
  return size.metric() ? "the table does not list " + size.print()
                       : "the tables of the IEC family list metric sizes, not " + size.print();
}

const Csv& capacities() {
  static const Csv csv = tables::compiled_in("iec_ampacity.csv");
  return csv;
}
const Csv& ambients() {
  static const Csv csv = tables::compiled_in("iec_ambient.csv");
  return csv;
}
const Csv& groupings() {
  static const Csv csv = tables::compiled_in("iec_grouping.csv");
  return csv;
}
const Csv& pv_cables() {
  static const Csv csv = tables::compiled_in("iec_pv_cable.csv");
  return csv;
}
const Csv& pv_ambients() {
  static const Csv csv = tables::compiled_in("iec_pv_cable_ambient.csv");
  return csv;
}
const Csv& resistances() {
  static const Csv csv = tables::compiled_in("iec_resistance.csv");
  return csv;
}
const Csv& protectives() {
  static const Csv csv = tables::compiled_in("iec_protective.csv");
  return csv;
}

bool pvc(units::Temperature column) { return column.celsius() < 80; }

}  // namespace

Looked<units::Current> cable_capacity(const Edition& edition, const units::WireSize& size,
                                      units::Metal metal, std::string_view method,
                                      units::Temperature column) {
  Looked<units::Current> looked;
  const std::string kind = pvc(column) ? "pvc" : "xlpe";
  looked.source = edition.cite("iec.capacity");
  looked.where = size.print() + ", method " + std::string(method) + ", " + units::print(column);
  const int row = row_of(capacities(), size);
  if (metal != units::Metal::copper) {
    looked.why = "capacities of aluminium are not held here";
  } else if (row < 0) {
    looked.why = not_listed(size);
  } else {
    const auto i = static_cast<std::size_t>(row);
    looked.value =
        units::amps(capacities().number(i, kind + "_" + std::string(method)).value_or(0));
    looked.source.status = capacities().text(
        i, method == "b1" ? "status_" + kind + "_b1" : "status_" + kind + "_other");
  }
  return looked;
}

Looked<units::Ratio> ambient_factor(const Edition& edition, units::Temperature ambient,
                                    units::Temperature column) {
  Looked<units::Ratio> looked;
  looked.source = edition.cite("iec.ambient");
  const Csv& csv = ambients();
  for (std::size_t i = 0; i < csv.size(); ++i) {
    const double t = csv.number(i, "ambient_c").value_or(0);
    if (ambient.celsius() > t + 1e-9) continue;
    const auto factor = csv.number(i, pvc(column) ? "pvc_70" : "xlpe_90");
    looked.where = "up to " + units::print(units::celsius(t)) + ", " + units::print(column);
    looked.source.status = csv.text(i, "status");
    if (factor) {
      looked.value = units::Ratio(*factor);
      return looked;
    }
    break;
  }
  looked.why =
      "conductors of " + units::print(column) + " may not be used at " + units::print(ambient);
  return looked;
}

Looked<units::Ratio> grouping_factor(const Edition& edition, std::string_view arrangement,
                                     int circuits) {
  Looked<units::Ratio> looked;
  looked.source = edition.cite("iec.grouping");
  looked.where = std::to_string(circuits) + (circuits == 1 ? " circuit, " : " circuits, ") +
                 std::string(arrangement);
  const Csv& csv = groupings();
  for (std::size_t i = 0; i < csv.size(); ++i) {
    if (csv.text(i, "arrangement") != arrangement) continue;
    for (const int n : {1, 2, 3, 4, 5, 6, 7, 8, 9, 12, 16, 20}) {
      if (circuits > n) continue;
      looked.value = units::Ratio(csv.number(i, "n_" + std::to_string(n)).value_or(0));
      looked.source.status = csv.text(i, "status");
      return looked;
    }
  }
  looked.why = "the table ends at 20 circuits, not " + std::to_string(circuits);
  return looked;
}

Looked<units::Current> pv_cable_capacity(const Edition& edition, const units::WireSize& size,
                                         std::string_view laying) {
  Looked<units::Current> looked;
  looked.source = edition.cite("iec.pv-cable");
  const std::string shown = laying == "two_touching" ? "two that touch"
                            : laying == "surface"    ? "one on a surface"
                                                     : "one free in air";
  looked.where = size.print() + " PV cable, " + shown;
  const int row = row_of(pv_cables(), size);
  if (row < 0) {
    looked.why = not_listed(size);
    return looked;
  }
  const auto i = static_cast<std::size_t>(row);
  looked.value = units::amps(pv_cables().number(i, laying).value_or(0));
  looked.source.status = pv_cables().text(i, "status");
  return looked;
}

Looked<units::Ratio> pv_cable_factor(const Edition& edition, units::Temperature ambient) {
  Looked<units::Ratio> looked;
  looked.source = edition.cite("iec.pv-cable-ambient");
  const Csv& csv = pv_ambients();
  for (std::size_t i = 0; i < csv.size(); ++i) {
    const double t = csv.number(i, "ambient_c_le").value_or(0);
    if (ambient.celsius() > t + 1e-9) continue;
    const double printed = csv.number(i, "factor").value_or(0);
    const double balance = csv.number(i, "physics").value_or(0);
    looked.value = units::Ratio(std::min(printed, balance));
    looked.where = "up to " + units::print(units::celsius(t));
    if (balance < printed)
      looked.where += "; printed " + text::fixed(printed, 2) + ", heat balance " +
                      text::fixed(balance, 2) + ": the smaller counts";
    looked.source.status = csv.text(i, "status");
    return looked;
  }
  looked.why = "the table ends at 90 °C, not " + units::print(ambient);
  return looked;
}

Looked<units::ResistancePerLength> resistance_at_20(const Edition& edition,
                                                    const units::WireSize& size,
                                                    units::Metal metal) {
  Looked<units::ResistancePerLength> looked;
  const bool copper = metal == units::Metal::copper;
  looked.source = edition.cite("table.resistance");
  looked.where = size.print() + (copper ? " flexible tinned copper" : " stranded aluminium");
  const int row = row_of(resistances(), size);
  if (row < 0) {
    looked.why = not_listed(size);
    return looked;
  }
  const auto i = static_cast<std::size_t>(row);
  const auto r = resistances().number(i, copper ? "cu_class5_tinned" : "al_class2");
  if (r)
    looked.value = units::ohms_per_kilometre(*r);
  else
    looked.why = "the table has no value for " + looked.where;
  looked.source.status = resistances().text(i, "status");
  return looked;
}

Looked<units::Area> protective_conductor(const Edition& edition, const units::WireSize& line) {
  Looked<units::Area> looked;
  looked.source = edition.cite("iec.protective");
  if (!line.metric()) {
    looked.why = not_listed(line);
    return looked;
  }
  const double s = line.area().in(units::square_millimetres);
  const Csv& csv = protectives();
  for (std::size_t i = 0; i < csv.size(); ++i) {
    const auto to = csv.number(i, "s_line_le");
    if (to && s > *to + 1e-9) continue;
    const std::string& rule = csv.text(i, "s_pe");
    looked.value = rule == "S"     ? line.area()
                   : rule == "S/2" ? line.area() / 2.0
                                   : units::square_millimetres(std::stod(rule));
    looked.where = "line conductor of " + line.print();
    looked.source.status = csv.text(i, "status");
    return looked;
  }
  return looked;
}

const std::vector<FuseRating>& fuse_ratings() {
  static const std::vector<FuseRating> all = [] {
    const Csv csv = tables::compiled_in("gpv_ratings.csv");
    std::vector<FuseRating> ratings;
    for (std::size_t i = 0; i < csv.size(); ++i)
      ratings.push_back(
          {units::amps(csv.number(i, "rating_a").value_or(0)), csv.text(i, "status")});
    return ratings;
  }();
  return all;
}

}  // namespace stringwright::codebook::iec
