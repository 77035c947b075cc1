#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_circuit || f.subject == Subject::output_circuit;
}

/// Circuit conductors have a least size whatever they carry: A_w ≥ A_min.
///
/// Source: NFPA 70, 310.3(A) (2014, 2017: 310.106(A)). Not here: 16 and 18 AWG between modules.
/// Proved: cases/rules/conductor_minimum_size.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.wire.known()) return cannot_tell("cannot tell: the conductor is not known.");
  const auto smallest = edition.smallest_size("circuit", f.wire->metal);
  if (!smallest.value) return cannot_tell("cannot tell: " + smallest.why + ".");
  const auto a_w =
      trail.given("A_w", "conductor", Fact<units::Area>(f.wire->size.area(), f.wire.from));
  const auto a_min = read_table(
      trail, "A_min", "smallest size",
      Looked<units::Area>{smallest.value->area(), smallest.value->print(), smallest.source, ""});
  const auto holds = trail.require(a_w >= a_min, smallest.source);
  const std::string own = f.wire->size.print();
  return {trail::verdict_of(holds),
          holds && *holds ? own + " is not smaller than " + smallest.value->print() + ": passes."
                          : own + " is smaller than " + smallest.value->print() + ": fails.",
          {},
          {}};
}

}  // namespace

extern const Rule conductor_minimum_size{
    .id = "conductor.minimum-size",
    .title = "Smallest conductor size",
    .aliases = "I16",
    .asks = "Is the conductor at least as large as the code asks of any circuit conductor?",
    .applies = applies,
    .check = check,
    .cites = "conductor.minimum",
    .family = Asked::both};

}  // namespace stringwright::codebook
