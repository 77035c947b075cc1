#include <algorithm>
#include <string>
#include <utility>
#include <vector>

#include "base/text.hpp"
#include "job/fields.hpp"
#include "job/kinds.hpp"
#include "job/read.hpp"
#include "job/records.hpp"

namespace stringwright::job {
namespace {

constexpr std::string_view preface =
    R"md(<!-- Generated from the field lists of src/job and src/parts; do not edit. -->

# The job file

A job file is TOML text: `key = value`, tables `[kind.id]`, comments after `#`. It is read in one pass;
every mistake gets one message with its line, and what can be read but is hardly meant is asked back.

- **Quantities** are texts with their unit: `"36.5 m"`, `"120 ft"`, `"-31 °C"`, `"3/4 in"`. A temperature is a
  point (`°C`, `°F`), a difference is in `K` (or `Δ°F`). `-` and `−` both mean minus; the decimal sign is a point.
- **Conductors** are size, metal and insulation: `"10 AWG Cu PV"`, `"500 kcmil Al XHHW-2"`, `"6 AWG bare Cu"`.
- **Ids**: a thing has a short id of its own, and everything refers to it by that id. An id has letters, digits,
  `_` and `-`, and does not end in `-`. Boxes, equipment, runs and strings share one set of names.
- **Left out** is unknown: what depends on it ends as cannot-tell. **`"choose"`** leaves a choice to the design
  search, where the table below allows it.
- **Walks**: `R1.3` is the third module of row R1. A walk goes from the minus end of a string to its plus end, in
  ranges up or down: `"R1.3-R1.1"`, `"X.1-X.4, X.6-X.9"`. Module 1 of a string is at its minus end.
- **Landings**: `A1.3` is slot 3 of box A1, `CC1.PV1` the input PV1 of CC1, `BA.minus.7` and `BA.earth.2` are
  holes of a box's minus and ground bar. A string or a box lands on a slot or on an input.
- **Runs**: a box leaves by the run in its `out` and lands where `lands` says; the run's `from` and `to` say the
  same, and one of the two is enough.
- **Many alike**: `rows.RN` stands for the rows RN1, RN2 and so on, `strings.A` for the strings A1, A2 and so on.
  In its walk and landing `{i}` counts the strings from 1.
- **Parts and modules** may stand in the job or in the parts library; the job's own record wins.

`stringwright new` writes a commented example to start from.
)md";

constexpr std::string_view messages = R"md(
## Messages

| id | what is wrong |
|---|---|
| `job.syntax` | The text is not valid TOML; only the first such place is reported. |
| `job.unknown-key` | A key that the table does not have. |
| `job.missing` | A key that the table needs. |
| `job.wrong-type` | A text where a number is needed, a table where a list is needed and the like. |
| `job.wrong-unit` | A quantity without a unit, with an unknown unit or with one of another kind. |
| `job.bad-size` | A conductor or trade size that does not exist or is not written in full. |
| `job.bad-price` | A price without an amount or without a currency. |
| `job.bad-form` | A text that has a form, such as a date or a string's end, and does not keep to it. |
| `job.bad-id` | An id with characters that walks and landings can't hold. |
| `job.bad-walk` | A walk that can't be read, or that leaves its row. |
| `job.bad-landing` | A landing that can't be read, or that is of the wrong kind. |
| `job.unknown-choice` | A word that is not in the list of choices. |
| `job.out-of-range` | A number outside what is allowed, or a slot that the part does not have. |
| `job.duplicate` | A key or an id written twice, a module in two strings, two things on one slot. |
| `job.dangling` | A reference to something that does not exist. |
| `job.part-kind` | A field or a reference that does not suit the kind of the part. |
| `job.edition` | A code edition that is not known or not offered. |
| `job.contradiction` | Two places of the file that say different things. |
| `job.cycle` | Boxes that land on each other in a circle. |
| `job.implausible` | A question: the value can be read, but is it meant? |
)md";

struct Section {
  std::string name;
  std::string heading;
  std::string doc;
  std::vector<std::string> lines;  ///< rows of its table
};

std::string in_cell(std::string s) { return text::replace_all(std::move(s), "|", "\\|"); }

/// Fills one section; sections of records within come after it.
class ReferenceVisitor {
 public:
  ReferenceVisitor(std::vector<Section>& sections, std::size_t own, std::string path)
      : sections_(sections), own_(own), path_(std::move(path)) {}

  template <class T>
  void operator()(std::string_view key, Given<T>&, const About& about) {
    const Kind kind = kind_of_value(static_cast<const T*>(nullptr));
    std::string value = kind.words;
    if (kind.list)
      value = (about.items > 0 ? std::to_string(about.items) + " × " : "list of ") + value;
    if (kind.or_pattern) value += ", or { first, step }";
    if (kind.has_range) {
      const std::string range = print_range(about, kind.dimension, kind.point);
      if (!range.empty()) value += "; " + range;
    }
    if (about.may_choose) value += "; or \"choose\"";
    line(key, value, about, example_of(key, about));
    if (kind.or_pattern) section<LengthPattern>("{ first, step }", "");
  }

  template <Record R>
  void operator()(std::string_view key, R&, const About& about) {
    table(key, "table", about);
    section<R>("[" + child(key) + "]", about.doc);
  }
  template <Record R>
  void operator()(std::string_view key, std::optional<R>&, const About& about) {
    table(key, "table", about);
    section<R>("[" + child(key) + "]", about.doc);
  }
  template <RecordById R>
  void operator()(std::string_view key, std::vector<R>&, const About& about) {
    const std::string id = std::is_same_v<R, StringException> ? ".N" : ".ID";
    table(key, "tables by " + std::string(id == ".N" ? "number" : "id"), about);
    section<R>("[" + child(key) + id + "]", about.doc, child(key) + id);
  }
  template <class R>
    requires(Record<R> && !RecordById<R>)
  void operator()(std::string_view key, std::vector<R>&, const About& about) {
    table(key, "list of tables", about);
    section<R>(child(key) + " = [ { ... } ]", about.doc);
  }

 private:
  std::string child(std::string_view key) const {
    return path_.empty() ? std::string(key) : path_ + "." + std::string(key);
  }

  void table(std::string_view key, const std::string& value, const About& about) {
    line(key, value, about, about.example.empty() ? "" : "`" + std::string(about.example) + "`");
  }

  static std::string example_of(std::string_view key, const About& about) {
    return about.example.empty() ? "" : "`" + std::string(key) + " = " + print_example(about) + "`";
  }

  void line(std::string_view key, const std::string& value, const About& about,
            const std::string& example) {
    std::string doc(about.doc);
    if (about.required) doc = "**Needed.** " + doc;
    if (!about.only.empty())
      doc += " (" + text::replace_all(std::string(about.only), " ", ", ") + ")";
    sections_[own_].lines.push_back("| `" + std::string(key) + "` | " + in_cell(value) + " | " +
                                    in_cell(doc) + " | " + in_cell(example) + " |");
  }

  template <class R>
  void section(const std::string& heading, std::string_view doc, std::string path = {}) {
    const auto info = info_of(static_cast<const R*>(nullptr));
    const auto known = std::find_if(sections_.begin(), sections_.end(),
                                    [&](const Section& s) { return s.name == info.name; });
    if (known != sections_.end()) {
      if (known->heading.find("`" + heading + "`") == std::string::npos)
        known->heading += ", `" + heading + "`";
      return;
    }
    const std::size_t at = sections_.size();
    sections_.push_back({std::string(info.name),
                         std::string(info.title) + ": `" + heading + "`",
                         std::string(doc),
                         {}});
    if (path.empty()) path = heading.substr(1, heading.find(']') - 1);
    ReferenceVisitor inner(sections_, at, heading.front() == '[' ? path : "");
    R record;
    describe(inner, record);
  }

  std::vector<Section>& sections_;
  std::size_t own_;
  std::string path_;
};

}  // namespace

std::string reference_markdown() {
  std::vector<Section> sections;
  sections.push_back({"file", "The file", "At the top of the file:", {}});
  ReferenceVisitor visit(sections, 0, "");
  JobFile file;
  describe(visit, file);

  std::string page(preface);
  for (const auto& section : sections) {
    page += "\n## " + section.heading + "\n\n";
    const bool says_more =
        !text::starts_with(section.heading + ".", section.doc.substr(0, section.doc.size() - 1));
    if (!section.doc.empty() && says_more) page += section.doc + "\n\n";
    page += "| key | value | meaning | example |\n|---|---|---|---|\n";
    page += text::join(section.lines, "\n") + "\n";
  }
  page += messages;
  page += "\n## A whole job\n\n```toml\n" + starter() + "```\n";
  return page;
}

}  // namespace stringwright::job
