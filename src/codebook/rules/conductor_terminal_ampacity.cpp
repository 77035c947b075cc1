#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_circuit || f.subject == Subject::output_circuit;
}

std::optional<units::Current> ampacity_of(const Facts& f, const Edition& edition,
                                          const Traced<units::Current>& i_req) {
  Trail aside;
  return terminal_ampacity(f, edition, aside, i_req).i_t.value;
}

/// The size itself, its neighbours, the smallest that holds and the largest that does not, on one scale.
trail::Margin margin_line(const Facts& f, const Edition& edition,
                          const Traced<units::Current>& i_req,
                          const std::optional<units::WireSize>& smallest) {
  using Mark = trail::Margin::Mark;
  trail::Margin m{*i_req.value, words::plain(*i_req.value) + " must carry", false, {}};
  const auto& sizes = units::WireSize::american();
  Facts other = f;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    const auto is = [&](std::size_t k, const units::WireSize& size) {
      return k < sizes.size() && sizes[k] == size;
    };
    const bool own = is(i, f.wire->size);
    const bool neighbour = is(i + 1, f.wire->size) || (i > 0 && is(i - 1, f.wire->size));
    const bool bound = smallest && (is(i, *smallest) || is(i + 1, *smallest));
    if (!own && !neighbour && !bound) continue;
    other.wire.value->size = sizes[i];
    const auto i_t = ampacity_of(other, edition, i_req);
    if (!i_t) continue;
    const bool holds = units::at_least(*i_t, *i_req.value);
    m.points.push_back({*i_t, size_words(f, sizes[i]) + ", " + words::plain(*i_t),
                        own     ? Mark::chosen
                        : holds ? Mark::other
                                : Mark::refused});
  }
  return m;
}

/// At its terminals a PV conductor carries the circuit's current, continuous duty included, before any
/// factor for heat or bundling.
///
///     I_t ≥ I_req,    I_req = k_dty · k_sun · I_sc
///
/// I_t  ampacity in the column of the coolest terminal at either end [A]
///
/// Source: NFPA 70, 690.8(B)(1), 110.14(C)(1). Not here: heat and bundling, see
/// conductor_conditions_of_use.cpp. Proved: cases/rules/conductor_terminal_ampacity.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto i_req = conductor_current(f, edition, trail);
  const auto found = terminal_ampacity(f, edition, trail, i_req);
  Outcome outcome = demand_at_least(trail, found.i_t, i_req, edition.cite("conductor.continuous"));
  if (found.assumed && found.column)
    outcome.also.push_back("The terminals' rating is not known: the " +
                           units::print(*found.column) + " column counts.");
  if (f.terminals.known() && f.terminals->celsius() > 75)
    outcome.also.push_back(
        "A mark above 75 °C on a terminal counts only where the equipment it sits in is identified "
        "for it.");
  if (!i_req.value || !f.wire.known()) return outcome;
  const auto smallest = smallest_size_that(f, [&](const Facts& other) {
    const auto i_t = ampacity_of(other, edition, i_req);
    return i_t && units::at_least(*i_t, *i_req.value);
  });
  if (smallest)
    outcome.also.push_back(size_words(f, *smallest) +
                           " is the smallest size that carries it at the terminals.");
  if (found.i_t.value) outcome.margin = margin_line(f, edition, i_req, smallest);
  return outcome;
}

}  // namespace

extern const Rule conductor_terminal_ampacity{
    .id = "conductor.terminal-ampacity",
    .title = "Conductor ampacity at the terminals",
    .aliases = "I1 I2 I7 I8 I12",
    .asks =
        "Does the conductor carry 1.25 times the circuit's maximum current in the column of its "
        "coolest terminal, with no factors?",
    .applies = applies,
    .check = check,
    .cites =
        "conductor.continuous current.string current.output terminal.temperature "
        "table.raceway"};

}  // namespace stringwright::codebook
