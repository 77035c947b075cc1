#include <cstddef>
#include <string>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

using Sizes = units::WireSize[2];  ///< [copper, aluminium]

struct ByDevice {
  units::Current device;  ///< not above
  Sizes sizes;
  std::string status;
};

struct Smallest {
  std::string id;
  int since = -1;
  Sizes sizes;
  std::string cite, status;
};

units::WireSize size_of(std::string_view cell) {
  return units::WireSize::from_table(cell).value_or(units::WireSize{});
}

const std::vector<ByDevice>& by_device() {
  static const std::vector<ByDevice> rows = [] {
    const auto csv = tables::compiled_in("equipment_ground.csv");
    std::vector<ByDevice> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({units::amps(csv.number(i, "device_max_a").value_or(0)),
                     {size_of(csv.text(i, "cu")), size_of(csv.text(i, "al"))},
                     csv.text(i, "status")});
    return all;
  }();
  return rows;
}

const std::vector<Smallest>& smallest() {
  static const std::vector<Smallest> rows = [] {
    const auto csv = tables::compiled_in("smallest_sizes.csv");
    std::vector<Smallest> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.text(i, "id"),
                     tables::edition_index(csv.text(i, "since")),
                     {size_of(csv.text(i, "cu")), size_of(csv.text(i, "al"))},
                     csv.text(i, "cite"),
                     csv.text(i, "status")});
    return all;
  }();
  return rows;
}

const units::WireSize& pick(const Sizes& sizes, units::Metal metal) {
  return sizes[metal == units::Metal::copper ? 0 : 1];
}

}  // namespace

Looked<units::WireSize> Edition::equipment_ground(units::Current device, units::Metal metal) const {
  Looked<units::WireSize> looked;
  looked.source = cite("table.egc");
  for (const auto& row : by_device()) {
    if (!units::at_least(row.device, device)) continue;
    looked.value = pick(row.sizes, metal);
    looked.where =
        "device not above " + units::print(row.device, 0) + ", " + std::string(units::print(metal));
    looked.source.status = row.status;
    return looked;
  }
  looked.why = "the table ends below a device of " + units::print(device);
  return looked;
}

Looked<units::WireSize> Edition::smallest_size(std::string_view purpose, units::Metal metal) const {
  Looked<units::WireSize> looked;
  looked.where = std::string(purpose) + ", " + std::string(units::print(metal));
  const auto* row =
      tables::newest(smallest(), index_, [&](const Smallest& r) { return r.id == purpose; });
  if (row == nullptr) {
    looked.why = "no smallest size for " + looked.where;
    return looked;
  }
  if (!pick(row->sizes, metal).known()) {
    looked.why = "the smallest size of " + looked.where + " is not held here";
    return looked;
  }
  looked.value = pick(row->sizes, metal);
  looked.source = table_source(row->cite, row->status);
  return looked;
}

}  // namespace stringwright::codebook
