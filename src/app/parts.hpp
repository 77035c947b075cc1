#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"
#include "base/result.hpp"
#include "parts/part.hpp"
#include "parts/store.hpp"

/// The parts library as commands use it. The file of a person's own parts is opened here, at a path that
/// the caller gives; everything upstream gets plain records.
namespace stringwright::app {

/// Records of a person's own library; a file that is not there has none.
Result<std::vector<parts::Row>> own_parts(const std::string& path);

/// Records with the mistakes of those that can't be read (they are left out).
struct LibraryOf {
  parts::Library library;
  Diagnostics diagnostics;
};

/// Every record there is: the defaults with a person's own over them.
LibraryOf whole_library(const std::vector<parts::Row>& own);

/// Only the records whose id stands somewhere in a job's text, which are all that reading it can need.
LibraryOf library_for(std::string_view job_text, const std::vector<parts::Row>& own);

/// One record for a list or a reply.
struct PartLine {
  std::string kind, id, title;
  bool own = false;  ///< from the person's own library, else a default
};
/// @param kind  "" = all, "module", or a kind of part
std::vector<PartLine> list_parts(const std::vector<parts::Row>& own, const std::string& kind);

/// Every kind of record, for help and messages.
std::vector<std::string> part_kinds();

/// The text of one record as in a job file. A failure names the nearest ids.
struct PartText {
  PartLine line;
  std::string text;
};
Result<PartText> show_part(const std::vector<parts::Row>& own, const std::string& id);

/// A file of parts, read and checked whole: rows to put into a library, or mistakes and no rows.
struct PartsReading {
  std::vector<parts::Row> rows;
  Diagnostics diagnostics;
};
/// @param file  name for messages
/// @param csv   a table, else TOML
PartsReading read_parts(std::string_view text, std::string_view file, bool csv);

/// Put rows into the library at `path`, all or none; the file is made where there is none.
Result<parts::Changes> put_parts(const std::string& path, const std::vector<parts::Row>& rows);

/// Take one record out of the library at `path`.
Result<bool> remove_part(const std::string& path, const std::string& id);

/// A library as one parts file or as a table.
/// @param own_only  leaves the defaults out
std::string export_parts(const std::vector<parts::Row>& own, bool own_only, bool csv);

std::string parts_list_json(const std::vector<PartLine>& lines);
std::string part_json(const PartText& part);
std::string parts_change_json(const std::string& path, const parts::Changes& changes);
std::string parts_mistakes_json(const std::string& file, const Diagnostics& diagnostics);

}  // namespace stringwright::app
