#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_circuit || f.subject == Subject::output_circuit;
}

trail::Margin margin_line(const ConditionsOfUse& use, const Traced<units::Current>& i_max) {
  trail::Margin m{*i_max.value, words::plain(*i_max.value) + " most current", false, {}};
  for (std::size_t i = 0; i < use.stretches.size(); ++i)
    if (const auto& i_z = use.stretches[i].i_z.value)
      m.points.push_back({*i_z, use.stretches[i].label + ", " + words::plain(*i_z),
                          static_cast<int>(i) == use.worst ? trail::Margin::Mark::chosen
                                                           : trail::Margin::Mark::other});
  return m;
}

/// How the ambient factor of the deciding stretch was found, where the two permitted ways differ.
void say_table_or_equation(const Trail& trail, const Edition& edition, Outcome& outcome) {
  std::optional<double> k_t;
  std::optional<units::Temperature> ambient;
  std::optional<units::Temperature> column;
  for (const auto& step : trail.steps()) {
    if (!step.value) continue;
    if (step.symbol == "k_T") k_t = step.value->si;
    if (step.symbol == "T_a" || step.symbol == "T_c")
      ambient = units::Temperature::from_kelvin(step.value->si);
    if (step.symbol == "T_ins") column = units::Temperature::from_kelvin(step.value->si);
  }
  if (!k_t || !ambient || !column || *k_t == 1.0 || *column > units::celsius(90)) return;
  const auto equation = edition.ambient_factor_equation(*ambient, *column);
  if (equation.value)
    outcome.also.push_back("Ambient factor " + units::print(units::Ratio(*k_t)) +
                           " from the table; the equation gives " + units::print(*equation.value) +
                           ".");
}

/// Single conductors of the open-air table that touch run hotter than the table supposes.
void warn_of_touching(const Facts& f, const Edition& edition, const Traced<units::Current>& i_max,
                      Outcome& outcome) {
  Facts in_raceway = f;
  bool touching = false;
  for (auto& s : in_raceway.stretches) {
    if (!s.method.known() || *s.method != "free-air") continue;
    if (s.wires.known() && s.wires->in(units::plain) < 2) continue;
    s.method.value = "raceway";
    touching = true;
  }
  if (!touching) return;
  Trail aside;
  const auto cautious = conditions_of_use(in_raceway, edition, aside);
  if (!cautious.i_z.value || units::at_least(*cautious.i_z.value, *i_max.value)) return;
  outcome.verdict = Verdict::caution;
  outcome.also.push_back(
      "The open-air table supposes conductors that do not touch; tied together they carry about " +
      words::plain(*cautious.i_z.value) + ", less than " + words::plain(*i_max.value) + ".");
}

/// Along its whole way a PV conductor carries the circuit's maximum current, with the heat and the
/// company it meets there. The worst stretch decides.
///
///     I_z ≥ I_max,    I_z = I_i · k_T · k_N
///
/// Source: NFPA 70, 690.8(B)(2), 310.15. Not here: continuous duty, see conductor_terminal_ampacity.cpp.
/// Limits: every place is taken as wet. Eight wires together in a tray count as bundled (70 %).
/// Proved: cases/rules/conductor_conditions_of_use.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_max = max_current(f, edition, trail);
  const auto use = conditions_of_use(f, edition, trail);
  Outcome outcome = demand_at_least(trail, use.i_z, i_max, edition.cite("conductor.conditions"));
  const bool forbidden =
      use.worst >= 0 && !use.stretches[static_cast<std::size_t>(use.worst)].forbidden.empty();
  if (forbidden) {
    const auto& worst = use.stretches[static_cast<std::size_t>(use.worst)];
    outcome = {Verdict::fail, worst.label + ": " + worst.forbidden + ".", {}, {}};
  }
  if (outcome.verdict == Verdict::pass && !use.all_known) {
    std::vector<std::string> missing;
    for (const auto& s : use.stretches)
      if (!s.i_z.value) missing.insert(missing.end(), s.i_z.missing.begin(), s.i_z.missing.end());
    outcome = cannot_tell(words::unknown(trail, missing));
  }
  if (outcome.verdict == Verdict::pass) warn_of_touching(f, edition, i_max, outcome);
  if (use.stretches.size() > 1 && use.worst >= 0 && outcome.verdict != Verdict::cannot_tell)
    outcome.also.push_back("Of " + std::to_string(use.stretches.size()) + " stretches, " +
                           use.stretches[static_cast<std::size_t>(use.worst)].label + " decides.");
  if (!forbidden) say_table_or_equation(trail, edition, outcome);
  if (outcome.verdict == Verdict::fail && i_max.value) {
    const auto smallest = smallest_size_that(f, [&](const Facts& other) {
      Trail aside;
      const auto again = conditions_of_use(other, edition, aside);
      return again.all_known && again.i_z.value && units::at_least(*again.i_z.value, *i_max.value);
    });
    if (smallest)
      outcome.also.push_back(size_words(f, *smallest) +
                             " is the smallest size that carries it there.");
  }
  if (i_max.value && use.i_z.value) outcome.margin = margin_line(use, i_max);
  return outcome;
}

}  // namespace

extern const Rule conductor_conditions_of_use{
    .id = "conductor.conditions-of-use",
    .title = "Conductor ampacity along its way",
    .aliases = "I1 I2 I9 I14 I15 M10",
    .asks =
        "Does the conductor carry the circuit's maximum current in the hottest and most crowded "
        "stretch of its way?",
    .applies = applies,
    .check = check,
    .cites =
        "conductor.conditions current.string current.output table.ambient "
        "table.ambient-equation table.bundling table.rooftop table.raceway "
        "table.free-air table.hot-wire table.hot-ambient"};

}  // namespace stringwright::codebook
