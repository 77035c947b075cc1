#include "codebook/tables/insulation.hpp"

#include <cstddef>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  std::string type;
  std::optional<double> wet, dry;
  int exempt_since = -1;
  std::string status;
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("insulation.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.text(i, "type"), csv.number(i, "wet_c"), csv.number(i, "dry_c"),
                     tables::edition_index(csv.text(i, "rooftop_adder_exempt_since")),
                     csv.text(i, "status")});
    return all;
  }();
  return rows;
}

const Row* find(std::string_view type) {
  for (const auto& row : all_rows())
    if (row.type == type) return &row;
  return nullptr;
}

Looked<units::Temperature> look(std::string_view type, std::optional<double> Row::* place,
                                std::string_view place_name, trail::Source source) {
  Looked<units::Temperature> looked;
  looked.where = std::string(type) + ", " + std::string(place_name);
  looked.source = std::move(source);
  const Row* row = find(type);
  if (type.empty()) {
    looked.why = "the insulation type is not known";
  } else if (row == nullptr) {
    looked.why = "the table does not list the insulation type " + std::string(type);
  } else {
    if (looked.source.status == "verified") looked.source.status = row->status;
    if (const auto celsius = row->*place)
      looked.value = units::celsius(*celsius);
    else
      looked.why =
          std::string(type) + " may not be used in a " + std::string(place_name) + " place";
  }
  return looked;
}

}  // namespace

namespace tables {

bool exempt_from_rooftop_adder(std::string_view insulation, int edition) {
  const Row* row = find(insulation);
  return row != nullptr && row->exempt_since >= 0 && reaches(row->exempt_since, edition);
}

}  // namespace tables

Looked<units::Temperature> Edition::insulation_rating(std::string_view insulation) const {
  return look(insulation, &Row::wet, "wet", cite("table.insulation"));
}

Looked<units::Temperature> Edition::insulation_rating_dry(std::string_view insulation) const {
  return look(insulation, &Row::dry, "dry", cite("table.insulation"));
}

}  // namespace stringwright::codebook
