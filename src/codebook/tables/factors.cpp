#include <array>
#include <cassert>

#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  std::string id;
  int since = -1;
  std::optional<units::AnyQuantity> value;
  std::string cite, status;
};

/// The number in its unit as a quantity; empty for a unit that is not known here.
std::optional<units::AnyQuantity> with_unit(double number, std::string_view unit) {
  if (unit == "-") return units::AnyQuantity(units::Ratio(number));
  if (unit == "%") return units::AnyQuantity(units::percent(number));
  if (unit == "A") return units::AnyQuantity(units::amps(number));
  if (unit == "V") return units::AnyQuantity(units::volts(number));
  if (unit == "Wh") return units::AnyQuantity(units::watt_hours(number));
  if (unit == "K") return units::AnyQuantity(units::kelvins(number));
  if (unit == "°C") return units::AnyQuantity(units::celsius(number));
  if (unit == "mm²") return units::AnyQuantity(units::square_millimetres(number));
  if (unit == "in") return units::AnyQuantity(units::inches(number));
  if (unit == "ft") return units::AnyQuantity(units::feet(number));
  if (unit == "m") return units::AnyQuantity(units::metres(number));
  if (unit == "s") return units::AnyQuantity(units::seconds(number));
  if (unit == "W") return units::AnyQuantity(units::watts(number));
  if (unit == "°") return units::AnyQuantity(units::degrees(number));
  if (unit == "1/K") return units::AnyQuantity(units::per_kelvin(number));
  if (unit == "Ω·mm²/m")
    return units::AnyQuantity(units::ohms(number) * units::square_millimetres(1) /
                              units::metres(1));
  return std::nullopt;
}

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("factors.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i) {
      all.push_back({csv.text(i, "id"), tables::edition_index(csv.text(i, "since")),
                     with_unit(csv.number(i, "value").value_or(0), csv.text(i, "unit")),
                     csv.text(i, "cite"), csv.text(i, "status")});
      assert(all.back().since >= 0 && all.back().value);
    }
    return all;
  }();
  return rows;
}

}  // namespace

bool Edition::has_factor(std::string_view id) const {
  return tables::newest(all_rows(), index_, [&](const Row& r) { return r.id == id; }) != nullptr;
}

Looked<units::AnyQuantity> Edition::any_limit(std::string_view id) const {
  Looked<units::AnyQuantity> looked;
  looked.where = std::string(id);
  const Row* found = tables::newest(all_rows(), index_, [&](const Row& r) { return r.id == id; });
  if (found == nullptr) {
    looked.why = std::string(name()) + " has no factor " + std::string(id);
    return looked;
  }
  looked.value = found->value;
  looked.source = cite(found->cite);
  if (looked.source.status == "verified" || found->status == "common practice, no source")
    looked.source.status = found->status;
  return looked;
}

Looked<units::Ratio> Edition::factor(std::string_view id) const {
  return limit<units::dim::one>(id);
}

Looked<units::Temperature> Edition::temperature(std::string_view id) const {
  const auto any = any_limit(id);
  Looked<units::Temperature> looked{{}, any.where, any.source, any.why};
  if (any.value && any.value->point) looked.value = units::Temperature::from_kelvin(any.value->si);
  return looked;
}

}  // namespace stringwright::codebook
