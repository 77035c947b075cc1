#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::array; }

bool all_of(const Fact<units::Ratio>& some, const Fact<units::Ratio>& all) {
  return some.known() && all.known() && some->in(units::plain) >= all->in(units::plain);
}

/// All exposed metal of the array is joined to the equipment ground: frames to the rack, rails across
/// their joints, the rack to a ground bar, every box to the ground that leaves it.
///
/// Source: NFPA 70, 690.43; IEC 62548-1, bonding, from memory. Proved: cases/rules/bonding_metal.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto& g = f.grounding;
  std::vector<std::string> wrong, open, work;
  const auto note = [&](const std::string& sentence) {
    trail.note(sentence, edition.cite("bonding.metal"));
  };

  if (!g.frames.known())
    work.push_back("every frame is bonded to the rack by parts listed for it, or by lugs and wire");
  else if (*g.frames == "none")
    wrong.push_back("frames are not bonded to the rack");
  else
    note("Frames are bonded by " +
         std::string(*g.frames == "listed-clamps" ? "listed clamps" : *g.frames) + ".");
  if (!g.rail_joints.known())
    work.push_back("a jumper or a listed splice bonds every joint of the rails");
  else if (*g.rail_joints == "none")
    wrong.push_back("nothing bonds the rails across their joints");
  else
    note("Joints of the rails: " + *g.rail_joints + ".");
  if (g.racks.known() && g.racks->in(units::plain) > 0) {
    if (!g.racks_bonded.known())
      open.push_back("whether the rack is joined to a ground bar (box.rack_bond)");
    else if (!all_of(g.racks_bonded, g.racks))
      wrong.push_back("a rack has no conductor to a ground bar");
    else
      note("A conductor joins the rack to a ground bar.");
  }
  if (g.boxes.known() && g.boxes->in(units::plain) > 0 && !all_of(g.boxes_grounded, g.boxes))
    wrong.push_back("no equipment ground leaves a box with its output");

  if (!wrong.empty()) {
    Outcome o{Verdict::fail, "", {}, {}};
    o.so = words::list(wrong) + ": fails.";
    o.so[0] = static_cast<char>(o.so[0] >= 'a' && o.so[0] <= 'z' ? o.so[0] - 'a' + 'A' : o.so[0]);
    if (!open.empty()) o.also.push_back("Not known either: " + words::list(open) + ".");
    return o;
  }
  if (!open.empty()) return cannot_tell("cannot tell: not known is " + words::list(open) + ".");
  if (!work.empty())
    return on_site("Bond of the array's metal: " + words::list(work) +
                   "; under 1 Ω from the farthest frame to the ground bar, before any string is "
                   "landed.");
  return {Verdict::pass,
          "Frames, rails, rack and boxes are joined to the equipment ground: passes.",
          {"Measure it before any string is landed: under 1 Ω from the farthest frame."},
          {}};
}

}  // namespace

extern const Rule bonding_metal{
    .id = "bonding.metal",
    .title = "Bond of frames, rails, rack and boxes",
    .aliases = "G4",
    .asks = "Is all exposed metal of the array joined to the equipment ground?",
    .applies = applies,
    .check = check,
    .cites = "bonding.metal",
    .family = Asked::both};

}  // namespace stringwright::codebook
