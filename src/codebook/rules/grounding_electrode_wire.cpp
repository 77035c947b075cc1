#include "codebook/methods/building.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::array; }

/// Row of the smallest sizes by what the conductor goes to, where nothing else hangs on it; "" = none.
std::string cap_of(const std::string& electrode) {
  if (electrode == "rod" || electrode == "pipe" || electrode == "plate") return "electrode-rod";
  if (electrode == "concrete") return "electrode-concrete";
  return "";
}

/// A conductor joins a grounded d.c. system to an electrode, large enough.
///
///     A_el ≥ A_min
///
/// A_el   metal area of the grounding electrode conductor [mm²]
/// A_min  of the largest conductor that the system supplies, not under 8 AWG Cu (6 AWG Al); not over
///        6 AWG Cu (4 AWG Al) to a rod, pipe or plate alone, 4 AWG Cu to a concrete-encased electrode
///        alone, 3/0 AWG Cu (250 kcmil Al) to anything [mm²]
///
/// Source: NFPA 70, 250.166(A)-(E), 690.47. From 2017 on the equipment ground of the output suffices unless a
/// pole is solidly grounded. Proved: cases/rules/grounding_electrode_wire.toml.
/// Limits: a ring's own size is no fact, so it caps nothing; battery conductors stand outside the job.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.scheme.known())
    return cannot_tell("cannot tell: the job says nothing of grounding (grounding.scheme).");
  if (edition.year() >= 2017 && *f.scheme != "solid")
    return not_applicable(
        "No pole is solidly grounded: the equipment ground of the output is enough.");
  const auto& g = f.grounding;
  if (g.electrode.known() && *g.electrode == "none")
    return {Verdict::fail, "The system has no electrode: fails.", {}, {}};
  if (!g.electrode.known())
    return cannot_tell(
        "cannot tell: what electrode the d.c. system is joined to is not known "
        "(grounding.electrode).");
  const auto metal = g.electrode_wire.known() ? g.electrode_wire->metal : units::Metal::copper;
  const auto least = edition.smallest_size("electrode-least", metal);
  const auto most = edition.smallest_size("electrode-most", metal);
  if (!least.value || !most.value) return cannot_tell("cannot tell: " + least.why + ".");
  units::WireSize need = *least.value;
  std::string why = "not under " + least.value->print() + " " + std::string(units::print(metal));
  if (g.largest_wire.known() && need < g.largest_wire->size) {
    need = g.largest_wire->size;
    why = "as large as the largest conductor, " + need.print();
  }
  // Conductors of a battery belong to the same system and are not in the job.
  bool open = !g.largest_wire.known() || !f.battery.known() || *f.battery;
  auto cap = *most.value;
  const std::string row = cap_of(*g.electrode);
  if (!row.empty()) {
    const auto alone = edition.smallest_size(row, metal);
    if (alone.value && alone.value->known()) cap = *alone.value;
  }
  if (cap <= need) {
    need = cap;
    open = false;
    why = "never larger than " + cap.print() + " to this electrode alone";
  }
  trail.note("Needed: " + need.print() + " " + std::string(units::print(metal)) + ", " + why + ".",
             edition.cite("grounding.electrode-wire"));
  if (!g.electrode_wire.known())
    return cannot_tell(
        "cannot tell: the conductor to the electrode is not known "
        "(grounding.electrode_wire); at least " +
        need.print() + " " + std::string(units::print(metal)) + " is asked.");
  const auto a_el = trail.given("A_el", "wire to the electrode",
                                Fact<units::Area>(g.electrode_wire->size.area(), "grounding"));
  const auto a_min = trail.let(
      "A_need", "needed",
      trail::Traced<units::Area>{need.area(), need.print(), units::print(need.area()), 0, {}});
  const auto holds = trail.require(a_el >= a_min, edition.cite("grounding.electrode-wire"));
  const std::string own = g.electrode_wire->size.print();
  if (holds && !*holds)
    return {Verdict::fail, own + " is smaller than " + need.print() + ": fails.", {}, {}};
  if (open && g.electrode_wire->size < cap)
    return cannot_tell("cannot tell: " + own +
                       " carries what the job shows, but the battery's conductors belong to the "
                       "system too; " +
                       cap.print() + " is enough whatever they are.");
  return {Verdict::pass, own + " is not smaller than " + need.print() + ": passes.", {}, {}};
}

}  // namespace

extern const Rule grounding_electrode_wire{
    .id = "grounding.electrode-wire",
    .title = "Grounding electrode conductor",
    .aliases = "G7",
    .asks =
        "Where the edition asks for a grounding electrode conductor of the d.c. system, is there "
        "one, and is it large enough?",
    .applies = applies,
    .check = check,
    .cites = "grounding.electrode-wire electrode.size"};

}  // namespace stringwright::codebook
