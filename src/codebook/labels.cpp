#include "codebook/labels.hpp"

#include "base/text.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/methods/shutdown.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/tables/csv.hpp"
#include "codebook/tables/editions.hpp"

namespace stringwright::codebook {
namespace {

struct Row {
  std::string id;
  int since = -1;
  std::string title, lines, prescribed;
  std::optional<double> letters_mm;
  std::string colours, asks, cite, status;
};

const std::vector<Row>& all_rows() {
  static const std::vector<Row> rows = [] {
    const auto csv = tables::compiled_in("labels.csv");
    std::vector<Row> all;
    all.reserve(csv.size());
    for (std::size_t i = 0; i < csv.size(); ++i)
      all.push_back({csv.text(i, "id"), tables::edition_index(csv.text(i, "since")),
                     csv.text(i, "title"), csv.text(i, "lines"), csv.text(i, "prescribed"),
                     csv.number(i, "letters_mm"), csv.text(i, "colours"), csv.text(i, "asks"),
                     csv.text(i, "cite"), csv.text(i, "status")});
    return all;
  }();
  return rows;
}

/// Null where the edition has none, or no longer.
const Row* row_of(std::string_view id, const Edition& edition) {
  const Row* row = tables::newest(all_rows(), tables::edition_index(edition.id()),
                                  [&](const Row& r) { return r.id == id; });
  return row && row->lines != "-" ? row : nullptr;
}

constexpr const char* blank = "________";

template <class Q>
LabelValue value_of(std::string words, const Traced<Q>& t, bool nameplate = false) {
  LabelValue v{std::move(words), {}, blank, nameplate};
  if (t.value) {
    v.value = units::AnyQuantity(*t.value);
    v.printed = words::plain(*v.value);
  }
  return v;
}

/// The value behind a placeholder; nothing where it does not belong to this job.
std::optional<LabelValue> fill(const std::string& key, const Facts& f, const Edition& edition,
                               Trail& trail) {
  const auto& l = f.label;
  if (key == "V_max") return value_of("maximum voltage", maximum_voltage(f, edition, trail));
  if (key == "I_max") return value_of("maximum circuit current", max_current(f, edition, trail));
  if (key == "V_mp") return value_of("voltage at maximum power", stc_voltage(f, trail));
  if (key == "I_mp")
    return value_of("current at maximum power",
                    trail.given("ΣI_mp", "all strings' I_mp", f.i_mp_total));
  if (key == "I_out") {
    if (f.battery.known() && !*f.battery) return {};
    return value_of("highest output of the charge controller",
                    trail.given("I_out", "highest controller output", l.i_out_max), true);
  }
  if (key == "V_bat")
    return value_of("highest battery voltage",
                    trail.given("V_bat", "highest charge", f.v_battery_max));
  if (key == "I_ac")
    return value_of("rated a.c. current", trail.given("I_ac", "rated a.c. current", l.ac_current),
                    true);
  if (key == "V_ac")
    return value_of("a.c. voltage", trail.given("V_ac", "a.c. voltage", l.ac_voltage), true);
  if (key == "pole") {
    LabelValue v{"grounded pole", {}, blank, false};
    if (f.scheme.known() && *f.scheme == "ungrounded") v.printed = "NONE";
    if (f.grounding.pole.known()) v.printed = *f.grounding.pole == "plus" ? "POSITIVE" : "NEGATIVE";
    return v;
  }
  return LabelValue{key, {}, blank, false};
}

void fill_lines(const Row& row, const Facts& f, const Edition& edition, Trail& trail,
                Label& label) {
  for (const auto raw : text::split(row.lines, '|')) {
    std::string line(raw);
    const auto open = line.find('{'), close = line.find('}');
    if (open != std::string::npos && close != std::string::npos) {
      auto value = fill(line.substr(open + 1, close - open - 1), f, edition, trail);
      if (!value) continue;
      line.replace(open, close - open + 1, value->printed);
      label.values.push_back(std::move(*value));
    }
    label.lines.push_back(std::move(line));
  }
}

Answer grid_is(const Facts& f, bool wanted) {
  if (!f.label.grid.known())
    return {{}, "whether utility power comes to this place as well (site.grid)"};
  return {*f.label.grid == wanted, *f.label.grid ? "utility power comes to this place as well"
                                                 : "no utility power comes to this place"};
}

Answer shutdown_label(const std::string& id, const Facts& f, const Edition& edition) {
  const Answer asks = asks_rapid_shutdown(f, edition);
  if (!asks.holds || !*asks.holds) return asks;
  const auto& s = f.shutdown;
  if (s.fitted.known() && !*s.fitted) return {false, "rapid shutdown is not fitted"};
  if (edition.year() != 2017 || id == "shutdown-switch") return asks;
  // 2017 has two plaques, by whether the array itself is made safe.
  if (!s.inside.known())
    return {{},
            "how the array itself is made safe (rapid_shutdown.array), which decides its words"};
  const bool outside_only = *s.inside == "none";
  return {outside_only == (id == "shutdown-plaque-outside"),
          outside_only ? "the array itself stays live" : "the array itself is made safe"};
}

Answer due_of(const Facts& f, const Edition& edition) {
  const std::string& id = f.label.id;
  if (id == "raceway" || id == "iec-route") return on_a_building(f);
  if (id == "ac-values" || id == "directory") return grid_is(f, true);
  if (id == "stand-alone") return grid_is(f, false);
  if (text::starts_with(id, "shutdown-")) return shutdown_label(id, f, edition);
  if (id == "ground-fault" || id == "ungrounded") {
    if (!f.scheme.known()) return {{}, "the grounding scheme (grounding.scheme)"};
    const bool floats = *f.scheme == "ungrounded";
    return {floats == (id == "ungrounded"), floats ? "no pole is grounded" : "a pole is grounded"};
  }
  if (id == "bipolar") {
    if (!f.label.bipolar.known()) return {{}, "whether the array has two monopoles"};
    return {*f.label.bipolar, *f.label.bipolar ? "two monopoles" : "the array has two poles only"};
  }
  if (id == "holder") {
    if (!f.load_break.known()) return {{}, "whether it may be opened under load (part.load_break)"};
    return {!*f.load_break,
            *f.load_break ? "it may be opened under load" : "it may not be opened under load"};
  }
  return {true, ""};
}

}  // namespace

bool has_label(std::string_view id, const Edition& edition) {
  return row_of(id, edition) != nullptr;
}

bool is_label(const Facts& f, std::string_view ids) {
  if (f.subject != Subject::label) return false;
  for (const auto id : text::split(ids, ' '))
    if (id == f.label.id) return true;
  return false;
}

LabelAnswer label_of(const Facts& f, const Edition& edition, Trail& trail) {
  LabelAnswer a;
  a.label.id = f.label.id;
  a.label.thing = f.thing;
  a.label.place = f.label.place;
  const Row* row = row_of(f.label.id, edition);
  if (row == nullptr) {
    a.due = {false, "this edition asks for no such label"};
    return a;
  }
  a.label.title = row->title;
  a.label.prescribed = row->prescribed;
  a.label.colours = row->colours;
  a.label.asks = row->asks;
  if (row->letters_mm) a.label.letters = units::millimetres(*row->letters_mm);
  a.label.source = {std::string(edition.title()) + ", " + row->cite, row->status};
  a.due = due_of(f, edition);
  if (!a.due.holds || *a.due.holds) fill_lines(*row, f, edition, trail, a.label);
  return a;
}

Outcome judge_label(const Facts& f, const Edition& edition, Trail& trail) {
  const LabelAnswer a = label_of(f, edition, trail);
  if (a.due.holds && !*a.due.holds) return not_applicable("Not due: " + a.due.why + ".");
  const std::string what = a.label.title + ", " + f.label.place;
  if (!a.due.holds && text::starts_with(f.label.id, "shutdown-") && !f.shutdown.fitted.known() &&
      !f.shutdown.inside.known())
    return not_applicable("Told once rapid shutdown is: see rapid-shutdown.limits.");
  if (!a.due.holds)
    return cannot_tell("cannot tell: whether this label is due (" + what + ") depends on " +
                       a.due.why + ".");
  trail.note("“" + text::join(a.label.lines, " / ") + "”", a.label.source);
  std::vector<std::string> blanks, plates;
  for (const auto& v : a.label.values)
    if (v.printed == blank) (v.nameplate ? plates : blanks).push_back(v.words);
  if (!blanks.empty())
    return cannot_tell("cannot tell: due (" + what +
                       "), but a value on it is not known: " + words::list(blanks) + ".");
  const std::string write_in =
      plates.empty() ? "" : " Write in from its nameplate: " + words::list(plates) + ".";
  if (!f.label.fitted.known()) return on_site("Due: " + what + "." + write_in);
  return *f.label.fitted
             ? Outcome{Verdict::pass, "The job says that it is on: " + what + ".", {}, {}}
             : Outcome{Verdict::fail, "Due and not on: " + what + ".", {}, {}};
}

}  // namespace stringwright::codebook
