#include "app/parts.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "job/parts_csv.hpp"
#include "job/read.hpp"

namespace stringwright::app {
namespace {

LibraryOf read_rows(const std::vector<parts::Row>& rows) {
  // All at once: one parse of one text is what makes a large library quick.
  std::string text;
  for (const auto& row : rows) text += row.text;
  auto whole = job::read_library(text, "the parts library");
  LibraryOf all;
  if (!any_error(whole.diagnostics)) {
    all.library = std::move(whole.library);
    return all;
  }
  for (const auto& row : rows) {
    auto one = job::read_library(row.text, "the parts library, " + row.id);
    if (any_error(one.diagnostics)) {
      for (auto& d : one.diagnostics) all.diagnostics.push_back(std::move(d));
      continue;
    }
    for (auto& m : one.library.modules) all.library.modules.push_back(std::move(m));
    for (auto& p : one.library.parts) all.library.parts.push_back(std::move(p));
  }
  return all;
}

std::string_view kind_of(const parts::Part& part) {
  for (int i = 0; !names(static_cast<parts::PartKind*>(nullptr), i).first.empty(); ++i)
    if (part.kind && names(static_cast<parts::PartKind*>(nullptr), i).second == *part.kind)
      return names(static_cast<parts::PartKind*>(nullptr), i).first;
  return "";
}

parts::Row row_of(const parts::Module& m) {
  parts::Library one;
  one.modules.push_back(m);
  return {"module", m.id, "module", "", job::write_library(one)};
}
parts::Row row_of(const parts::Part& p) {
  parts::Library one;
  one.parts.push_back(p);
  return {"part", p.id, std::string(kind_of(p)), p.title.value_or(""), job::write_library(one)};
}

bool is_in(const std::vector<parts::Row>& rows, const parts::Row& row) {
  return std::any_of(rows.begin(), rows.end(), [&](const parts::Row& r) {
    return r.section == row.section && r.id == row.id;
  });
}

PartLine line_of(const parts::Row& row, const std::vector<parts::Row>& own) {
  return {row.kind, row.id, row.title, is_in(own, row)};
}

}  // namespace

Result<std::vector<parts::Row>> own_parts(const std::string& path) {
  return parts::Store::read(path);
}

LibraryOf whole_library(const std::vector<parts::Row>& own) {
  return read_rows(parts::over(parts::default_rows(), own));
}

LibraryOf library_for(std::string_view job_text, const std::vector<parts::Row>& own) {
  auto rows = parts::over(parts::default_rows(), own);
  rows.erase(std::remove_if(rows.begin(), rows.end(),
                            [&](const parts::Row& row) {
                              return job_text.find("\"" + row.id + "\"") == std::string_view::npos;
                            }),
             rows.end());
  return read_rows(rows);
}

std::vector<std::string> part_kinds() {
  std::vector<std::string> all{"module"};
  for (int i = 0; !names(static_cast<parts::PartKind*>(nullptr), i).first.empty(); ++i)
    all.emplace_back(names(static_cast<parts::PartKind*>(nullptr), i).first);
  return all;
}

std::vector<PartLine> list_parts(const std::vector<parts::Row>& own, const std::string& kind) {
  std::vector<PartLine> lines;
  for (const auto& k : part_kinds()) {
    if (!kind.empty() && k != kind) continue;
    for (const auto& row : parts::over(parts::default_rows(), own))
      if (row.kind == k) lines.push_back(line_of(row, own));
  }
  return lines;
}

Result<PartText> show_part(const std::vector<parts::Row>& own, const std::string& id) {
  std::vector<std::string> ids;
  for (const auto& row : parts::over(parts::default_rows(), own)) {
    if (row.id == id) return PartText{line_of(row, own), std::string(text::trim(row.text)) + "\n"};
    ids.push_back(row.id);
  }
  const auto near = text::nearest(id, ids);
  return Failure{"parts.unknown", "the parts library has no " + text::quoted(id) +
                                      (near ? "; did you mean '" + *near + "'?" : "")};
}

PartsReading read_parts(std::string_view text, std::string_view file, bool csv) {
  auto found = csv ? job::read_library_csv(text, file) : job::read_library(text, file);
  PartsReading reading;
  reading.diagnostics = std::move(found.diagnostics);
  if (any_error(reading.diagnostics)) return reading;
  for (const auto& m : found.library.modules) reading.rows.push_back(row_of(m));
  for (const auto& p : found.library.parts) reading.rows.push_back(row_of(p));
  return reading;
}

Result<parts::Changes> put_parts(const std::string& path, const std::vector<parts::Row>& rows) {
  auto store = parts::Store::open(path);
  if (!store) return store.failure();
  return store->put(rows);
}

Result<bool> remove_part(const std::string& path, const std::string& id) {
  const auto own = parts::Store::read(path);
  if (!own) return own.failure();
  const auto found =
      std::find_if(own->begin(), own->end(), [&](const parts::Row& row) { return row.id == id; });
  if (found == own->end()) return false;
  auto store = parts::Store::open(path);
  if (!store) return store.failure();
  return store->remove(found->section, id);
}

std::string export_parts(const std::vector<parts::Row>& own, bool own_only, bool csv) {
  const auto all = own_only ? read_rows(own) : whole_library(own);
  return csv ? job::write_library_csv(all.library) : job::write_library(all.library);
}

}  // namespace stringwright::app
