#include "app/bom.hpp"

#include <xlsxwriter.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include <unistd.h>

#include "app/json_common.hpp"
#include "base/csv.hpp"
#include "base/text.hpp"

namespace stringwright::app {
namespace {

constexpr std::array<const char*, 9> heads{"group", "quantity", "unit", "part", "what",
                                           "where", "torque",   "note", "price"};

std::array<std::string, 9> cells(const design::BomLine& l) {
  return {l.group, text::shortest(l.quantity),     l.unit, l.part, l.what, l.where, l.torque,
          l.note,  l.price ? l.price->print() : ""};
}

/// A fixed moment, so that the same job gives the same bytes: the job's own date, or the first of 2000.
lxw_datetime date_of(const Evaluation& e) {
  lxw_datetime d{2000, 1, 1, 0, 0, 0};
  const std::string date = e.wiring.job.job.date.value_or("");
  int year = 0, month = 0, day = 0;
  if (std::sscanf(date.c_str(), "%4d-%2d-%2d", &year, &month, &day) == 3 && year >= 1980) {
    d.year = year;
    d.month = month;
    d.day = day;
  }
  return d;
}

}  // namespace

design::Bom bom(const Evaluation& e, const parts::Library& library) {
  return design::bill_of_materials(e.wiring, design::cut_plan(e.wiring, library), library);
}

std::string quantity(const design::BomLine& line) {
  return text::shortest(line.quantity) + (line.unit.empty() ? "" : " " + line.unit);
}

std::string bom_csv(const design::Bom& bom) {
  std::string csv;
  for (std::size_t i = 0; i < heads.size(); ++i) csv += (i ? "," : "") + std::string(heads[i]);
  csv += "\n";
  for (const auto& l : bom.lines) {
    const auto row = cells(l);
    for (std::size_t i = 0; i < row.size(); ++i) csv += (i ? "," : "") + csv_cell(row[i]);
    csv += "\n";
  }
  return csv;
}

Result<std::string> bom_xlsx(const Evaluation& e, const design::Bom& bom) {
  // The library writes files only.
  std::error_code error;
  std::string name = (std::filesystem::temp_directory_path(error) / "stringwright-XXXXXX").string();
  const int made = error ? -1 : ::mkstemp(name.data());
  if (made < 0)
    return Failure{"app.no-temporary", "no temporary file can be made for the workbook"};
  ::close(made);
  lxw_workbook* book = workbook_new(name.c_str());
  lxw_doc_properties properties{};
  const std::string title = e.wiring.job.job.name.value_or("");
  properties.title = const_cast<char*>(title.c_str());
  const lxw_datetime date = date_of(e);
  std::tm moment{};
  moment.tm_year = date.year - 1900;
  moment.tm_mon = date.month - 1;
  moment.tm_mday = date.day;
  properties.created = ::timegm(&moment);
  workbook_set_properties(book, &properties);
  lxw_worksheet* sheet = workbook_add_worksheet(book, "To buy");
  lxw_format* bold = workbook_add_format(book);
  format_set_bold(bold);
  for (std::size_t c = 0; c < heads.size(); ++c)
    worksheet_write_string(sheet, 0, static_cast<lxw_col_t>(c), heads[c], bold);
  lxw_row_t row = 1;
  for (const auto& l : bom.lines) {
    const auto all = cells(l);
    for (std::size_t c = 0; c < all.size(); ++c) {
      const auto column = static_cast<lxw_col_t>(c);
      if (c == 1)
        worksheet_write_number(sheet, row, column, l.quantity, nullptr);
      else if (!all[c].empty())
        worksheet_write_string(sheet, row, column, all[c].c_str(), nullptr);
    }
    ++row;
  }
  ++row;
  for (const auto& r : bom.remarks) worksheet_write_string(sheet, row++, 0, r.c_str(), nullptr);
  constexpr std::array<double, 9> widths{18, 9, 6, 26, 44, 26, 12, 50, 14};
  for (std::size_t c = 0; c < widths.size(); ++c)
    worksheet_set_column(sheet, static_cast<lxw_col_t>(c), static_cast<lxw_col_t>(c), widths[c],
                         nullptr);
  worksheet_freeze_panes(sheet, 1, 0);
  const lxw_error closed = workbook_close(book);
  std::string bytes;
  {
    std::ifstream in(name, std::ios::binary);
    bytes.assign(std::istreambuf_iterator<char>(in), {});
  }
  std::filesystem::remove(name, error);
  if (closed != LXW_NO_ERROR || bytes.empty())
    return Failure{"app.no-workbook",
                   "the workbook could not be written: " + std::string(lxw_strerror(closed))};
  return bytes;
}

std::string bom_json(const Evaluation& e, const design::Bom* bom) {
  Json j = {{"kind", "bom"},
            {"file", e.file},
            {"usable", e.usable},
            {"diagnostics", diagnostics_json(e.diagnostics)}};
  if (!bom) return text_of(j);
  j["lines"] = Json::array();
  for (const auto& l : bom->lines)
    j["lines"].push_back({{"group", l.group},
                          {"quantity", l.quantity},
                          {"unit", l.unit},
                          {"part", l.part},
                          {"what", l.what},
                          {"where", l.where},
                          {"torque", l.torque},
                          {"note", l.note},
                          {"price", l.price ? Json(l.price->print()) : Json(nullptr)}});
  j["remarks"] = bom->remarks;
  return text_of(j);
}

}  // namespace stringwright::app
