#include "codebook/raceways.hpp"

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

#include "codebook/tables/csv.hpp"

namespace stringwright::codebook {
namespace {

struct Inside {
  std::string type;
  units::TradeSize size;
  units::Length id;
  std::string status;
};

struct Bend {
  units::TradeSize size;
  units::Length radius;
  std::string status;
};

struct Support {
  std::string type;
  units::TradeSize from, to;
  units::Length spacing, from_box;
  std::string status;
};

units::TradeSize trade_size(const tables::Csv& csv, std::size_t row, std::string_view column) {
  return units::TradeSize::read(csv.text(row, column)).value();
}

units::Length inches(const tables::Csv& csv, std::size_t row, std::string_view column) {
  return units::inches(csv.number(row, column).value_or(0));
}

const std::vector<Inside>& insides() {
  static const std::vector<Inside> rows = [] {
    const auto csv = tables::compiled_in("raceways.csv");
    std::vector<Inside> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.text(i, "type"), trade_size(csv, i, "trade_size"), inches(csv, i, "id_in"),
                     csv.text(i, "status")});
    return all;
  }();
  return rows;
}

const std::vector<Bend>& bends() {
  static const std::vector<Bend> rows = [] {
    const auto csv = tables::compiled_in("raceway_bends.csv");
    std::vector<Bend> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back(
          {trade_size(csv, i, "trade_size"), inches(csv, i, "other_in"), csv.text(i, "status")});
    return all;
  }();
  return rows;
}

const std::vector<Support>& supports() {
  static const std::vector<Support> rows = [] {
    const auto csv = tables::compiled_in("raceway_supports.csv");
    std::vector<Support> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.text(i, "type"), trade_size(csv, i, "from_size"),
                     trade_size(csv, i, "to_size"),
                     units::feet(csv.number(i, "spacing_ft").value_or(0)),
                     units::feet(csv.number(i, "from_box_ft").value_or(0)), csv.text(i, "status")});
    return all;
  }();
  return rows;
}

bool one_of(std::string_view name, std::initializer_list<std::string_view> names) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

template <class T>
void take(Looked<T>& looked, T value, const std::string& status) {
  looked.value = value;
  if (looked.source.status == "verified") looked.source.status = status;
}

}  // namespace

bool is_raceway(std::string_view method) {
  return is_metal_raceway(method) || one_of(method, {"PVC40", "PVC80", "LFNC", "HDPE"});
}
bool is_metal_raceway(std::string_view method) {
  return one_of(method, {"EMT", "RMC", "IMC", "FMC", "LFMC"});
}
bool is_flexible_raceway(std::string_view method) {
  return one_of(method, {"FMC", "LFMC", "LFNC"});
}
bool is_pvc(std::string_view method) { return one_of(method, {"PVC40", "PVC80"}); }

Looked<units::Length> raceway_inside(const Edition& edition, std::string_view method,
                                     const units::TradeSize& size) {
  Looked<units::Length> looked;
  looked.source = edition.cite("table.raceway-inside");
  looked.where = std::string(method) + " " + size.print();
  for (const auto& row : insides())
    if (row.type == method && row.size == size) {
      take(looked, row.id, row.status);
      return looked;
    }
  looked.why = "the table of raceways has no " + looked.where;
  return looked;
}

Looked<units::Length> bend_radius(const Edition& edition, const units::TradeSize& size) {
  Looked<units::Length> looked;
  looked.source = edition.cite("table.bend-radius");
  looked.where = size.print();
  for (const auto& row : bends())
    if (row.size == size) {
      take(looked, row.radius, row.status);
      return looked;
    }
  looked.why = "the table of bends has no " + looked.where;
  return looked;
}

RacewaySupport raceway_support(const Edition& edition, std::string_view method,
                               const units::TradeSize& size) {
  RacewaySupport found;
  for (auto* looked : {&found.spacing, &found.from_box}) {
    looked->source = edition.cite("raceway.support");
    looked->where = std::string(method) + " " + size.print();
    looked->why = "no table of supports lists " + looked->where;
  }
  for (const auto& row : supports()) {
    if (row.type != method || size < row.from || row.to < size) continue;
    take(found.spacing, row.spacing, row.status);
    take(found.from_box, row.from_box, row.status);
  }
  return found;
}

Looked<units::Length> burial_depth(const Edition& edition, std::string_view method,
                                   std::string_view under) {
  struct Row {
    std::string method;
    std::optional<double> soil, slab, drive, road;
    std::string status;
  };
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("burial_depths.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.text(i, "method"), csv.number(i, "soil_in"), csv.number(i, "slab_in"),
                     csv.number(i, "drive_in"), csv.number(i, "road_in"), csv.text(i, "status")});
    return all;
  }();
  Looked<units::Length> looked;
  looked.source = edition.cite("table.burial");
  looked.where = std::string(method) + ", under " + std::string(under);
  for (const auto& row : rows) {
    if (row.method != method) continue;
    const auto depth = under == "soil"    ? row.soil
                       : under == "slab"  ? row.slab
                       : under == "drive" ? row.drive
                       : under == "road"  ? row.road
                                          : std::nullopt;
    if (depth) take(looked, units::Length(units::inches(*depth)), row.status);
    if (depth) return looked;
  }
  looked.why = "the table of burial depths has no column for " + std::string(method);
  return looked;
}

}  // namespace stringwright::codebook
