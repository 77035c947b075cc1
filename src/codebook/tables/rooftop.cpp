#include <cstddef>
#include <string>

#include "base/text.hpp"
#include "codebook/edition.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"
#include "codebook/tables/insulation.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  int since = -1;
  double from;               ///< inch above the roof
  std::optional<double> to;  ///< absent: and above
  bool to_inclusive;
  double adder_c, adder_f;
  std::string status;
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("rooftop_adder.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({tables::edition_index(csv.text(i, "since")),
                     csv.number(i, "above_in_from").value_or(0), csv.number(i, "above_in_to"),
                     csv.text(i, "to_inclusive") == "yes", csv.number(i, "adder_c").value_or(0),
                     csv.number(i, "adder_f").value_or(0), csv.text(i, "status")});
    return all;
  }();
  return rows;
}

Looked<units::TemperatureDifference> look(const Edition& edition, int index,
                                          units::Length above_roof, std::string_view insulation,
                                          bool fahrenheit) {
  Looked<units::TemperatureDifference> looked;
  looked.source = edition.cite("table.rooftop");
  if (tables::exempt_from_rooftop_adder(insulation, index)) {
    looked.value = units::kelvins(0);
    looked.where = "does not apply to " + std::string(insulation);
    return looked;
  }
  const double inches = above_roof.in(units::inches);
  for (const auto& row : tables::as_of(all_rows(), index)) {
    const double noise = 1e-9;  // of a conversion from metres
    const bool below =
        !row.to || (row.to_inclusive ? inches <= *row.to + noise : inches < *row.to - noise);
    if (!below) continue;
    const auto shown = [](double number) { return text::shortest(number) + " in"; };
    looked.where = text::shortest(above_roof.in(units::millimetres), 4) + " mm above the roof: " +
                   (row.to ? (row.to_inclusive ? "up to " : "less than ") + shown(*row.to)
                           : shown(row.from) + " or more");
    if (looked.source.status == "verified") looked.source.status = row.status;
    looked.value =
        fahrenheit ? units::fahrenheit_degrees(row.adder_f) : units::kelvins(row.adder_c);
    return looked;
  }
  looked.why = std::string(edition.name()) + " has no rooftop adder";
  return looked;
}

}  // namespace

Looked<units::TemperatureDifference> Edition::rooftop_adder(units::Length above_roof,
                                                            std::string_view insulation) const {
  return look(*this, index_, above_roof, insulation, false);
}

Looked<units::TemperatureDifference> Edition::rooftop_adder_fahrenheit(
    units::Length above_roof, std::string_view insulation) const {
  return look(*this, index_, above_roof, insulation, true);
}

}  // namespace stringwright::codebook
