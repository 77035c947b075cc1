#include <cstddef>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  int since = -1;
  std::string place;
  units::Voltage limit;
  std::string status;
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("voltage_ceiling.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({tables::edition_index(csv.text(i, "since")), csv.text(i, "place"),
                     units::volts(csv.number(i, "volts").value_or(0)), csv.text(i, "status")});
    return all;
  }();
  return rows;
}

}  // namespace

Looked<units::Voltage> Edition::voltage_ceiling(bool on_building, bool dwelling) const {
  const std::string_view place = !on_building ? "elsewhere" : dwelling ? "dwelling" : "building";
  Looked<units::Voltage> looked;
  looked.source = cite("voltage.ceiling");
  looked.where = !on_building ? "not on or in a building, listed equipment"
                 : dwelling   ? "on or in a one- or two-family dwelling"
                              : "on or in a building that is no dwelling";
  const Row* row =
      tables::newest(all_rows(), index_, [&](const Row& r) { return r.place == place; });
  if (row == nullptr) {
    looked.why = std::string(name()) + " has no ceiling";
    return looked;
  }
  looked.value = row->limit;
  if (looked.source.status == "verified") looked.source.status = row->status;
  return looked;
}

}  // namespace stringwright::codebook
