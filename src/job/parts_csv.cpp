#include "job/parts_csv.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "base/csv.hpp"
#include "base/text.hpp"
#include "job/fields.hpp"
#include "job/kinds.hpp"
#include "job/messages.hpp"
#include "job/parts_file.hpp"

namespace stringwright::job {
namespace {

/// The fields of a record in order, by their keys; those of a record inside with a dot.
class Columns {
 public:
  template <class R>
  static std::vector<std::pair<std::string, Kind>> of() {
    Columns columns("");
    R record;
    describe(columns, record);
    return columns.all_;
  }
  template <class T>
  void operator()(std::string_view key, Given<T>&, const About&) {
    all_.emplace_back(path_ + std::string(key), kind_of_value(static_cast<const T*>(nullptr)));
  }
  template <Record R>
  void operator()(std::string_view key, R& member, const About&) {
    Columns inner(path_ + std::string(key) + ".");
    describe(inner, member);
    all_.insert(all_.end(), inner.all_.begin(), inner.all_.end());
  }
  /// A table within a record does not fit into a cell.
  template <Record R>
  void operator()(std::string_view, std::vector<R>&, const About&) {}

 private:
  explicit Columns(std::string path) : path_(std::move(path)) {}
  std::string path_;
  std::vector<std::pair<std::string, Kind>> all_;
};

std::string quoted_toml(std::string_view s) {
  std::string all = "\"";
  for (const char c : s) {
    if (c == '"' || c == '\\') all += '\\';
    if (c == '\n')
      all += "\\n";
    else if (c == '\r')
      all += "\\r";
    else if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f)
      all += ' ';
    else
      all += c;
  }
  return all + "\"";
}

/// A cell as a value of the job file. What does not suit the kind is left in quotes: the reader says so.
std::string value_of(const std::string& cell, const Kind& kind) {
  if (kind.list) {
    std::vector<std::string> items;
    for (const auto item : text::split(cell, ';')) items.push_back(quoted_toml(text::trim(item)));
    return "[" + text::join(items, ", ") + "]";
  }
  const bool whole = cell.size() < 10 &&
                     cell.find_first_not_of("0123456789") == std::string::npos &&
                     (cell.size() == 1 || cell[0] != '0');
  if (kind.shape == Shape::integer && whole) return cell;
  if (kind.shape == Shape::boolean && (cell == "true" || cell == "false")) return cell;
  return quoted_toml(cell);
}

class Import {
 public:
  Import(std::string_view text, std::string_view file) : text_(text), file_(file) {}

  LibraryReading read() {
    const CsvTable table = read_csv(text_, file_, found_);
    if (table.rows.empty()) {
      error("job.csv-header", {1, 1, 1, 1}, "the file is empty",
            "the first line names the columns: kind,id,...");
      return finish({});
    }
    heads(table.rows.front());
    if (any_error(found_)) return finish({});
    for (std::size_t r = 1; r < table.rows.size(); ++r) row(table.rows[r]);
    if (any_error(found_)) return finish({});
    auto reading = read_library(toml_, file_);
    for (auto& d : reading.diagnostics) {
      const auto at = static_cast<std::size_t>(d.span.line);
      if (d.span.known() && at <= origin_.size()) d.span = origin_[at - 1];
    }
    found_ = std::move(reading.diagnostics);
    return finish(std::move(reading.library));
  }

 private:
  void heads(const std::vector<CsvCell>& row) {
    std::vector<std::string> names{"kind", "id"};
    for (const auto& [key, kind] : part_) names.push_back(key);
    for (const auto& [key, kind] : module_) names.push_back(key);
    std::set<std::string> seen;
    for (const auto& cell : row) {
      if (!cell.text.empty() && std::find(names.begin(), names.end(), cell.text) == names.end()) {
        const auto near = text::nearest(cell.text, names);
        error("job.unknown-key", cell.span, "no record has a field " + text::quoted(cell.text),
              near ? "did you mean '" + *near + "'?" : "the fields are those of docs/jobfile.md");
      }
      if (!cell.text.empty() && !seen.insert(cell.text).second)
        error("job.duplicate", cell.span,
              "the column " + text::quoted(cell.text) + " stands twice");
      head_.push_back(cell.text);
    }
    for (const char* needed : {"kind", "id"})
      if (!seen.count(needed))
        error("job.csv-header", row.front().span,
              std::string("there is no column '") + needed + "'",
              "the first line names the columns: kind,id,...");
  }

  const CsvCell* cell_of(const std::vector<CsvCell>& row, std::string_view column) const {
    for (std::size_t i = 0; i < row.size() && i < head_.size(); ++i)
      if (head_[i] == column) return &row[i];
    return nullptr;
  }

  void row(const std::vector<CsvCell>& row) {
    if (row.size() > head_.size() &&
        std::any_of(row.begin() + static_cast<std::ptrdiff_t>(head_.size()), row.end(),
                    [](const CsvCell& c) { return !c.text.empty(); }))
      error("job.csv-row", row[head_.size()].span,
            "this row has " + std::to_string(row.size()) + " cells, the first line names " +
                std::to_string(head_.size()) + " columns",
            "a comma inside a cell needs the cell in quotes");
    const bool blank =
        std::all_of(row.begin(), row.end(), [](const CsvCell& c) { return c.text.empty(); });
    if (blank) return;
    const CsvCell* id = cell_of(row, "id");
    const CsvCell* kind = cell_of(row, "kind");
    if (!id || id->text.empty())
      return error("job.missing", id ? id->span : row.front().span, "this row has no id");
    if (!kind || kind->text.empty())
      return error("job.missing", kind ? kind->span : row.front().span, "this row has no kind",
                   "module, or a kind of part such as breaker");
    const bool module = kind->text == "module";
    const auto [first, is_new] =
        lines_.emplace((module ? "module " : "part ") + id->text, id->span.line);
    if (!is_new)
      return error(
          "job.duplicate", id->span,
          text::quoted(id->text) + " stands twice; first at line " + std::to_string(first->second));
    emit("[" + std::string(module ? "module." : "part.") + quoted_toml(id->text) + "]", id->span);
    if (!module) emit("kind = " + quoted_toml(kind->text), kind->span);
    const auto& fields = module ? module_ : part_;
    for (std::size_t i = 0; i < row.size() && i < head_.size(); ++i) {
      if (row[i].text.empty() || head_[i] == "kind" || head_[i] == "id") continue;
      if (head_[i].empty()) {
        error("job.csv-row", row[i].span, "this cell stands in a column without a name");
        continue;
      }
      const auto field = std::find_if(fields.begin(), fields.end(),
                                      [&](const auto& f) { return f.first == head_[i]; });
      if (field == fields.end())
        error("job.unknown-key", row[i].span,
              "a " + std::string(module ? "module" : "part") + " has no field " +
                  text::quoted(head_[i]));
      else
        emit(head_[i] + " = " + value_of(row[i].text, field->second), row[i].span);
    }
  }

  /// One line of the job file's form, and the cell it stands for.
  void emit(const std::string& line, Span cell) {
    toml_ += line + "\n";
    origin_.push_back(cell);
  }

  void error(std::string id, Span span, std::string message, std::string help = {}) {
    found_.push_back({Severity::error, std::move(id), std::move(message), std::move(help),
                      std::string(file_), span});
  }

  LibraryReading finish(parts::Library library) {
    std::sort(found_.begin(), found_.end(), [](const Diagnostic& x, const Diagnostic& y) {
      return std::pair(x.span.line, x.span.column) < std::pair(y.span.line, y.span.column);
    });
    if (any_error(found_)) library = {};
    return {std::move(library), std::move(found_)};
  }

  std::string_view text_, file_;
  const std::vector<std::pair<std::string, Kind>> part_ = Columns::of<parts::Part>(),
                                                  module_ = Columns::of<parts::Module>();
  std::vector<std::string> head_;
  std::string toml_;
  std::vector<Span> origin_;
  std::map<std::string, int> lines_;
  Diagnostics found_;
};

/// Cells of one record by column, taken from its own TOML, so that both forms say the same.
void cells_of(const toml::table& table, const std::string& path,
              std::map<std::string, std::string>& cells) {
  for (const auto& [key, node] : table) {
    const std::string name = path + std::string(key.str());
    if (const auto* inner = node.as_table()) {
      cells_of(*inner, name + ".", cells);
    } else if (node.is_array_of_tables()) {
      continue;
    } else if (const auto* list = node.as_array()) {
      std::vector<std::string> items;
      for (const auto& item : *list) items.push_back(item.value_or(std::string{}));
      cells[name] = text::join(items, "; ");
    } else if (node.is_boolean()) {
      cells[name] = node.value_or(false) ? "true" : "false";
    } else if (node.is_integer()) {
      cells[name] = std::to_string(node.value_or(std::int64_t{0}));
    } else if (node.is_floating_point()) {
      cells[name] = fmt::format("{}", node.value_or(0.0));
    } else {
      cells[name] = node.value_or(std::string{});
    }
  }
}

}  // namespace

LibraryReading read_library_csv(std::string_view text, std::string_view file) {
  return Import(text, file).read();
}

std::string write_library_csv(const parts::Library& library) {
  const std::string toml = write_library(library);
  Messages ignored(toml, "");
  const auto table = parse_toml(toml, ignored);  // our own text: it has no mistake
  std::vector<std::string> columns{"kind", "id"};
  std::vector<std::map<std::string, std::string>> rows;
  std::set<std::string> used;
  const auto take = [&](const char* section, const std::string& id) {
    std::map<std::string, std::string> cells;
    if (table)
      if (const auto* record = (*table)[section][id].as_table()) cells_of(*record, "", cells);
    if (std::string_view(section) == "module") cells["kind"] = "module";
    cells["id"] = id;
    for (const auto& [name, cell] : cells) used.insert(name);
    rows.push_back(std::move(cells));
  };
  for (const auto& m : library.modules) take("module", m.id);
  for (const auto& p : library.parts) take("part", p.id);
  const auto add = [&](const auto& fields) {
    for (const auto& [key, kind] : fields)
      if (used.count(key) && std::find(columns.begin(), columns.end(), key) == columns.end())
        columns.push_back(key);
  };
  add(Columns::of<parts::Module>());
  add(Columns::of<parts::Part>());

  std::string csv = text::join(columns, ",") + "\n";
  for (auto& row : rows) {
    std::vector<std::string> cells;
    cells.reserve(columns.size());
    for (const auto& column : columns) cells.push_back(csv_cell(row[column]));
    csv += text::join(cells, ",") + "\n";
  }
  return csv;
}

}  // namespace stringwright::job
