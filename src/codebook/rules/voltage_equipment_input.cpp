#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

std::string at(const Fact<units::Temperature>& t) { return units::print(*t); }

/// What else the reader has to know beside the verdict: the other method, the record low, the nearest
/// change that would flip it.
void explain(const Facts& f, ColdMethod method, const Traced<units::Voltage>& judged,
             const Traced<units::Voltage>& other, const Traced<units::Voltage>& record,
             units::Voltage limit, Outcome& outcome) {
  const ColdMethod other_method =
      method == ColdMethod::coefficient ? ColdMethod::table : ColdMethod::coefficient;
  const std::string name(print(other_method));
  if (other.value)
    outcome.also.push_back("By the other method, the " + name + ": " +
                           words::at_most(*other.value, limit));
  else
    outcome.also.push_back("By the other method, the " + name + ": not known.");
  if (record.value)
    outcome.also.push_back("At the record low of " + at(f.t_record) + ": " +
                           words::at_most(*record.value, limit));
  if (const auto t = ambient_at_limit(f, limit);
      t && method == ColdMethod::coefficient && t->celsius() > -90)
    outcome.also.push_back("The coefficient meets the limit at " + units::print(*t, 1) + ".");
  if (const auto v = with_one_more(f, *judged.value))
    outcome.also.push_back("One module more: " + words::at_most(*v, limit));
}

trail::Margin margin_line(const Facts& f, ColdMethod method,
                          const Traced<units::Voltage>& coefficient,
                          const Traced<units::Voltage>& table, const Traced<units::Voltage>& record,
                          units::Voltage limit) {
  using Mark = trail::Margin::Mark;
  trail::Margin m{limit, words::plain(limit) + " limit of the input", true, {}};
  const auto add = [&](const Traced<units::Voltage>& v, const std::string& label, Mark mark) {
    if (v.value) m.points.push_back({*v.value, units::print(*v.value) + " " + label, mark});
  };
  const auto mark = [&](ColdMethod which, const Traced<units::Voltage>& v) {
    if (which == method) return Mark::chosen;
    return v.value && !units::at_most(*v.value, limit) ? Mark::refused : Mark::other;
  };
  const std::string t = f.t_min.known() ? ", " + at(f.t_min) : "";
  add(coefficient, "coefficient" + t, mark(ColdMethod::coefficient, coefficient));
  add(table, "table" + t, mark(ColdMethod::table, table));
  add(record, "record low" + (f.t_record.known() ? ", " + at(f.t_record) : ""), Mark::record);
  return m;
}

/// On the coldest morning the string's open-circuit voltage stays at or below what the input bears: the
/// maker's limit, with no tolerance, and none may be rounded away.
///
///     V_cold ≤ V_in    (by coefficient),    V_table ≤ V_in    (by table)
///
/// Both are computed and shown; the job's method judges (before 2017: the coefficient where the maker
/// gives one). The record low is shown as a third value and is a caution where it passes the limit: no
/// rule asks it, and it destroys equipment all the same.
///
/// Source: NFPA 70, 690.7(A), 110.3(B). Proved: cases/rules/voltage_equipment_input.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto coefficient = cold_by_coefficient(f, edition, trail);
  const auto table = cold_by_table(f, edition, trail);
  const auto record = f.t_record.known() ? cold_at_record(f, edition, trail)
                                         : not_known<units::Voltage>("V_rec", {});
  const auto limit = trail.given("V_in", "input limit", f.v_max_input);
  const auto source = edition.cite("voltage.equipment");

  const auto method = chosen_method(f, edition);
  if (!method) {
    // Either method may be chosen: only what both say is said.
    const auto by_coefficient = demand_at_most(trail, coefficient, limit, source);
    const auto by_table = demand_at_most(trail, table, limit, source);
    Outcome outcome = by_coefficient;
    if (by_coefficient.verdict != by_table.verdict)
      outcome = cannot_tell("cannot tell: which method judges is not chosen, and they differ.");
    outcome.also = {"By the coefficient: " + by_coefficient.so, "By the table: " + by_table.so};
    return outcome;
  }
  const bool use_table = *method == ColdMethod::table;
  const auto& judged = use_table ? table : coefficient;
  Outcome outcome = demand_at_most(trail, judged, limit, source);
  if (!limit.value) return outcome;
  outcome.margin = margin_line(f, *method, coefficient, table, record, *limit.value);
  if (!judged.value) {
    const auto& other = use_table ? coefficient : table;
    if (other.value)
      outcome.also.push_back(
          "By the other method, the " +
          std::string(print(use_table ? ColdMethod::coefficient : ColdMethod::table)) + ": " +
          words::at_most(*other.value, *limit.value));
    return outcome;
  }
  explain(f, *method, judged, use_table ? coefficient : table, record, *limit.value, outcome);
  if (outcome.verdict == Verdict::pass && record.value &&
      !units::at_most(*record.value, *limit.value)) {
    outcome.verdict = Verdict::caution;
    outcome.also.push_back("A dawn as cold as the record would destroy the input.");
  }
  return outcome;
}

}  // namespace

extern const Rule voltage_equipment_input{
    .id = "voltage.equipment-input",
    .title = "Cold voltage at the equipment input",
    .aliases = "V1 V2 V4 V7",
    .asks =
        "On the coldest morning, does the string's open-circuit voltage stay below the absolute "
        "maximum of the "
        "input? Asked by the modules' coefficient and by the table for silicon; the job says which "
        "judges.",
    .applies = applies,
    .check = check,
    .cites = "voltage.equipment voltage.coefficient voltage.table",
    .family = Asked::both};

}  // namespace stringwright::codebook
