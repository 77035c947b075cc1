#include <cstddef>
#include <numbers>
#include <string>
#include <vector>

#include "codebook/raceways.hpp"
#include "codebook/tables/csv.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  std::string type;
  units::WireSize size;
  units::Length od;
  units::Area area;
  std::string status;
};

struct Bare {
  units::WireSize size;
  units::Length od;
  std::string status;
};

const std::vector<Row>& rows() {
  static const std::vector<Row> all_rows = [] {
    const auto csv = tables::compiled_in("insulated_wires.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.text(i, "type"),
                     units::WireSize::from_table(csv.text(i, "size")).value_or(units::WireSize{}),
                     units::inches(csv.number(i, "od_in").value_or(0)),
                     units::square_inches(csv.number(i, "area_in2").value_or(0)),
                     csv.text(i, "status")});
    return all;
  }();
  return all_rows;
}

/// Bare conductors, stranded where the table has both.
const std::vector<Bare>& bare() {
  static const std::vector<Bare> all_rows = [] {
    const auto csv = tables::compiled_in("wire_sizes.csv");
    std::vector<Bare> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({units::WireSize::from_table(csv.text(i, "size")).value_or(units::WireSize{}),
                     units::inches(csv.number(i, "od_in").value_or(0)), csv.text(i, "status")});
    return all;
  }();
  return all_rows;
}

struct Found {
  std::optional<units::Length> od;
  std::optional<units::Area> area;
  std::string where, why;
  trail::Source source;
};

Found find(const Edition& edition, const units::Wire& wire) {
  Found found;
  found.where = wire.size.print() + (wire.insulation.empty() ? "" : " " + wire.insulation);
  if (wire.insulation == "bare") {
    found.source = edition.cite("table.resistance");  // chapter 9, table 8
    for (const auto& row : bare())
      if (row.size == wire.size) {
        found.od = row.od;
        found.area = std::numbers::pi / 4 * (row.od * row.od);
      }
  } else {
    found.source = edition.cite("table.insulated-wires");
    for (const auto& row : rows())
      if (row.type == wire.insulation && row.size == wire.size) {
        found.od = row.od;
        found.area = row.area;
        if (row.status == "typical") {
          found.source = edition.cite("fill.typical");
          found.source.status = "typical";
        } else if (found.source.status == "verified") {
          found.source.status = row.status;
        }
      }
  }
  if (!found.od)
    found.why = wire.insulation.empty() ? "the insulation type is not known"
                                        : "no table lists the outside of " + found.where;
  return found;
}

struct Hot {
  units::WireSize size;
  std::optional<double> i_105, i_125;
};

struct HotBand {
  std::optional<double> low;
  double high;
  std::optional<double> k_105, k_125;
};

}  // namespace

Looked<units::Area> wire_area(const Edition& edition, const units::Wire& wire) {
  auto f = find(edition, wire);
  return {f.area, f.where, f.source, f.why};
}

Looked<units::Length> wire_outside(const Edition& edition, const units::Wire& wire) {
  auto f = find(edition, wire);
  return {f.od, f.where, f.source, f.why};
}

Looked<units::Current> hot_ampacity(const Edition& edition, const units::WireSize& size,
                                    units::Temperature rating) {
  static const std::vector<Hot> all_rows = [] {
    const auto csv = tables::compiled_in("pv_wire_hot.csv");
    std::vector<Hot> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({units::WireSize::from_table(csv.text(i, "size")).value_or(units::WireSize{}),
                     csv.number(i, "i_105"), csv.number(i, "i_125")});
    return all;
  }();
  Looked<units::Current> looked;
  looked.source = edition.cite("table.hot-wire");
  const double column = rating.celsius() >= 125 ? 125 : 105;
  looked.where = size.print() + " Cu, " + std::to_string(static_cast<int>(column)) + " °C column";
  looked.why = edition.year() < 2020 ? std::string(edition.name()) + " has no table above 90 °C"
                                     : "the table above 90 °C has no " + size.print();
  if (edition.year() < 2020 || rating.celsius() < 105) return looked;
  for (const auto& row : all_rows)
    if (row.size == size) {
      const auto amps = column > 120 ? row.i_125 : row.i_105;
      if (amps) looked.value = units::amps(*amps);
    }
  return looked;
}

Looked<units::Ratio> hot_ambient_factor(const Edition& edition, units::Temperature ambient,
                                        units::Temperature rating) {
  static const std::vector<HotBand> all_rows = [] {
    const auto csv = tables::compiled_in("pv_wire_hot_ambient.csv");
    std::vector<HotBand> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.number(i, "t_min_c"), csv.number(i, "t_max_c").value_or(0),
                     csv.number(i, "k_105"), csv.number(i, "k_125")});
    return all;
  }();
  Looked<units::Ratio> looked;
  looked.source = edition.cite("table.hot-ambient");
  const double t = ambient.celsius();
  const bool hottest = rating.celsius() >= 125;
  const std::string column = hottest ? "125" : "105";
  for (const auto& row : all_rows) {
    if (t > row.high + 1e-9) continue;
    const auto k = hottest ? row.k_125 : row.k_105;
    looked.where = (row.low ? units::print(units::celsius(*row.low)) + " to " : "up to ") +
                   units::print(units::celsius(row.high)) + ", " + column + " °C column";
    if (k) looked.value = units::Ratio(*k);
    break;
  }
  if (!looked.value)
    looked.why = "conductors rated " + column + " °C may not be used at " + units::print(ambient);
  return looked;
}

}  // namespace stringwright::codebook
