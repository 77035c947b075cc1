#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::enclosure; }

/// A metal box, its door and its bushings are bonded; where metal raceway comes into a plastic box, a
/// jumper bonds it to the ground bar.
///
/// Source: NFPA 70, 250.96, 250.148, 314.3. Proved: cases/rules/box_bond.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("Metal parts of the box are bonded.", edition.cite("box.bond"));
  const auto& h = f.hull;
  if (!h.metal.known())
    return cannot_tell("cannot tell: is the box of metal or of plastic (material)?");
  if (*h.metal)
    return on_site(
        "Bond the box and its door to the ground bar; a bonding bushing on metal raceway "
        "where knockouts are eccentric or reduced.");
  if (!h.metal_raceway.known())
    return cannot_tell("cannot tell: whether metal raceway comes in is not known.");
  if (!*h.metal_raceway)
    return {Verdict::pass, "A plastic box without metal raceway: nothing to bond.", {}, {}};
  if (!h.jumper.known())
    return on_site(
        "Metal raceway comes into a plastic box: a bonding bushing and a jumper to the "
        "ground bar.");
  return *h.jumper ? Outcome{Verdict::pass, "A jumper bonds the metal raceway: passes.", {}, {}}
                   : Outcome{Verdict::fail,
                             "Metal raceway comes into a plastic box without a jumper: fails.",
                             {},
                             {}};
}

}  // namespace

extern const Rule box_bond{.id = "box.bond",
                           .title = "Bond of box, door and raceway",
                           .aliases = "M4",
                           .asks =
                               "Are the metal parts of the box, and metal raceway that comes "
                               "into it, bonded?",
                           .applies = applies,
                           .check = check,
                           .cites = "box.bond"};

}  // namespace stringwright::codebook
