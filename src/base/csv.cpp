#include "base/csv.hpp"

#include "base/text.hpp"

namespace stringwright {
namespace {

class Reader {
 public:
  Reader(std::string_view text, std::string_view file, Diagnostics& out)
      : rest_(text), file_(file), out_(out) {}

  CsvTable read() {
    if (text::starts_with(rest_, "\xEF\xBB\xBF")) rest_.remove_prefix(3);
    CsvTable table;
    while (!rest_.empty()) {
      auto row = line();
      if (row.size() > 1 || !row.front().text.empty()) table.rows.push_back(std::move(row));
    }
    return table;
  }

 private:
  bool at_end_of_line() const { return rest_.empty() || rest_[0] == '\n' || rest_[0] == '\r'; }

  /// The next code point, onto `to`; keeps line and column.
  void step(std::string* to) {
    const std::size_t bytes = text::code_point_bytes(rest_);
    const std::string_view point = rest_.substr(0, bytes);
    if (to) *to += point;
    rest_.remove_prefix(bytes);
    if (point == "\n") {
      ++line_;
      column_ = 1;
    } else {
      ++column_;
    }
  }

  std::vector<CsvCell> line() {
    std::vector<CsvCell> row;
    for (;;) {
      row.push_back(cell());
      if (rest_.empty() || rest_[0] != ',') break;
      step(nullptr);
    }
    if (!rest_.empty() && rest_[0] == '\r') step(nullptr);
    if (!rest_.empty() && rest_[0] == '\n') step(nullptr);
    return row;
  }

  CsvCell cell() {
    CsvCell c;
    c.span = {line_, column_, line_, column_};
    if (!rest_.empty() && rest_[0] == '"') {
      in_quotes(c);
    } else {
      while (!at_end_of_line() && rest_[0] != ',') step(&c.text);
      c.text = text::trim(c.text);
    }
    c.span.end_line = line_;
    c.span.end_column = column_;
    return c;
  }

  void in_quotes(CsvCell& c) {
    step(nullptr);
    for (;;) {
      if (rest_.empty())
        return error(c.span, "csv.open-quote", "a quote opens here and never closes");
      if (rest_[0] != '"') {
        step(&c.text);
        continue;
      }
      step(nullptr);
      if (rest_.empty() || rest_[0] != '"') break;
      step(&c.text);
    }
    if (at_end_of_line() || rest_[0] == ',') return;
    const Span here{line_, column_, line_, column_ + 1};
    std::string behind;
    while (!at_end_of_line() && rest_[0] != ',') step(&behind);
    if (!text::trim(behind).empty())
      error(here, "csv.behind-quote",
            "text " + text::quoted(behind) +
                " stands behind a closing quote; a quote inside a cell "
                "is written twice");
  }

  void error(Span span, const char* id, std::string message) {
    Diagnostic d;
    d.id = id;
    d.message = std::move(message);
    d.file = file_;
    d.span = span;
    out_.push_back(std::move(d));
  }

  std::string_view rest_;
  std::string file_;
  Diagnostics& out_;
  int line_ = 1, column_ = 1;
};

}  // namespace

CsvTable read_csv(std::string_view text, std::string_view file, Diagnostics& out) {
  return Reader(text, file, out).read();
}

std::string csv_cell(std::string_view text) {
  const bool plain =
      text.find_first_of(",\"\n\r") == std::string_view::npos && text == text::trim(text);
  return plain ? std::string(text)
               : "\"" + text::replace_all(std::string(text), "\"", "\"\"") + "\"";
}

}  // namespace stringwright
