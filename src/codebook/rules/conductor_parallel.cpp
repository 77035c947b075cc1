#include <cmath>

#include "base/text.hpp"
#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return (f.subject == Subject::string_circuit || f.subject == Subject::output_circuit) &&
         side_by_side(f);
}

/// Wires may be joined side by side only from a size on, and every raceway holds a whole share of them.
///
///     A_w ≥ A_min
///
/// Source: NFPA 70, 310.10(G) (2014, 2017: 310.10(H)), 300.3(B)(1).
/// Not here: that they are alike in length, metal, insulation and ends, which no plan can show.
/// Proved: cases/rules/conductor_parallel.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.wire.known()) return cannot_tell("cannot tell: the conductor is not known.");
  const auto smallest = edition.smallest_size("parallel", f.wire->metal);
  if (!smallest.value) return cannot_tell("cannot tell: " + smallest.why + ".");
  const auto a_w =
      trail.given("A_w", "conductor", Fact<units::Area>(f.wire->size.area(), f.wire.from));
  const auto a_min = read_table(
      trail, "A_min", "smallest to be joined",
      Looked<units::Area>{smallest.value->area(), smallest.value->print(), smallest.source, ""});
  const auto holds = trail.require(a_w >= a_min, smallest.source);
  const std::string own = f.wire->size.print();
  Outcome outcome{trail::verdict_of(holds),
                  holds && *holds
                      ? own + " is not smaller than " + smallest.value->print() + ": passes."
                      : own + " is smaller than " + smallest.value->print() + ": fails.",
                  {},
                  {}};
  const int n = static_cast<int>(std::lround(f.wires_per_pole->in(units::plain)));
  for (const auto& s : f.stretches) {
    if (!s.raceways.known()) continue;
    const int raceways = static_cast<int>(std::lround(s.raceways->in(units::plain)));
    if (raceways < 2 || n % raceways == 0) continue;
    outcome.verdict = Verdict::fail;
    outcome.so = std::to_string(n) + " wires in each pole can't be shared evenly by " +
                 std::to_string(raceways) + " raceways: fails.";
  }
  outcome.also.push_back(
      "They share the current only if alike in length, metal, size, insulation and ends.");
  return outcome;
}

}  // namespace

extern const Rule conductor_parallel{
    .id = "conductor.parallel",
    .title = "Conductors side by side",
    .aliases = "I16",
    .asks =
        "Are wires that are joined side by side large enough for it, and shared evenly by their "
        "raceways?",
    .applies = applies,
    .check = check,
    .cites = "conductor.parallel"};

}  // namespace stringwright::codebook
