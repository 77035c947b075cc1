#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::array; }

/// A grounded array has exactly one bond, one that is not grounded has none. A bond of the battery
/// counts wherever the equipment does not isolate its input from its output.
///
///     n_b = 1, or 0 where no pole is grounded
///
/// n_b  bonds of a pole to ground on the array's side, the battery's own included [-]
///
/// Source: NFPA 70, 690.41, 250.164, from memory; a second bond carries current on frames and hides a fault
/// from the ground-fault device (circuit theory: two paths in parallel).
/// Proved: cases/rules/grounding_one_bond.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.scheme.known())
    return cannot_tell("cannot tell: the job says nothing of grounding (grounding.scheme).");
  const bool grounded = *f.scheme != "ungrounded";
  const auto drawn = trail.given("n_b", "bonds in the job", f.grounding.bonds);
  if (!drawn.value) return cannot_tell(words::unknown(trail, drawn.missing));
  double bonds = drawn.value->in(units::plain);
  const auto& own = f.grounding.battery_bonded;
  const bool apart = f.isolated.known() && *f.isolated;
  const bool battery = !f.battery.known() || *f.battery;
  bool open = false;
  if (battery && !apart) {
    if (own.known() && *own) {
      if (!f.isolated.known()) {
        open = true;
      } else {
        bonds += 1;
        trail.note(
            "The battery has a bond of its own, and nothing isolates it from the array: it "
            "counts.",
            edition.cite("grounding.one-bond"));
      }
    } else if (!own.known()) {
      open = true;
    }
  }
  const double allowed = grounded ? 1 : 0;
  if (bonds > allowed) {
    Outcome o{Verdict::fail, "", {}, {}};
    o.so = grounded ? "More than one bond to ground: fails."
                    : "No pole is said to be grounded, but one is bonded to ground: fails.";
    o.also = {
        "Two bonds share the current of a fault: frames carry current in service, and the "
        "ground-fault device sees only its part."};
    if (!grounded)
      o.also = {"The array follows that bond: name the scheme and the pole, or remove the bond."};
    return o;
  }
  if (open)
    return cannot_tell(
        own.known() ? "cannot tell: the battery has a bond of its own; whether the equipment "
                      "isolates it from the array is not known (equipment.isolated)."
                    : "cannot tell: whether the battery or its load centre has a bond to "
                      "ground of its own is not known. Look there for a strap or a green "
                      "screw from one pole to the ground bar.");
  if (bonds < allowed)
    return {Verdict::fail,
            "A pole is said to be grounded, but nothing bonds it to ground: fails.",
            {"Name what owns the bond (grounding.bond)."},
            {}};
  return {Verdict::pass,
          grounded ? "Exactly one bond to ground" +
                         (f.grounding.bond_in.known() ? ", in " + *f.grounding.bond_in : "") +
                         ": passes."
                   : "No pole is bonded to ground: passes.",
          {},
          {}};
}

}  // namespace

extern const Rule grounding_one_bond{
    .id = "grounding.one-bond",
    .title = "One bond to ground",
    .aliases = "K8",
    .asks =
        "Has a grounded array exactly one bond to ground, counting a battery's own, and an "
        "ungrounded one none?",
    .applies = applies,
    .check = check,
    .cites = "grounding.one-bond"};

}  // namespace stringwright::codebook
