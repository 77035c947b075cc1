#include "codebook/methods/disconnects.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::box; }

/// A grounded conductor has a terminal of its own whatever the bar may hold. Equipment grounds may share
/// one where the marking says so.
///
/// Source: NFPA 70, 408.41, 110.14(A). Proved: cases/rules/box_one_per_hole.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto grounded = grounded_conductor(f, edition);
  if (!grounded) return cannot_tell("cannot tell: which pole is grounded is not known.");
  std::vector<std::string> bad, open;
  int looked = 0;
  for (const auto& h : f.box.holes) {
    if (h.kind != "earth" && (grounded->empty() || h.kind != *grounded)) continue;
    ++looked;
    const double n = h.count.known() ? h.count->in(units::plain) : 1.0;
    if (n <= 1) continue;
    if (h.kind != "earth")
      bad.push_back(h.id + " holds " + words::plain(*h.count) + " grounded conductors");
    else if (!h.may_hold.known())
      open.push_back("how many " + h.id + " may hold");
    else if (!units::at_most(*h.count, *h.may_hold))
      bad.push_back(h.id + " holds " + words::plain(*h.count) +
                    " equipment grounds and is marked for " + words::plain(*h.may_hold));
  }
  if (looked == 0)
    return not_applicable("No grounded conductor and no equipment ground lands in it.");
  trail.note("One grounded conductor a hole; equipment grounds as the bar is marked.",
             edition.cite("box.one-per-hole"));
  if (!bad.empty()) return {Verdict::fail, words::list(bad) + ": fails.", {}, {}};
  if (!open.empty())
    return cannot_tell("cannot tell: " + words::list(open) + (open.size() == 1 ? " is" : " are") +
                       " not known.");
  return {Verdict::pass, "One wire a hole: passes.", {}, {}};
}

}  // namespace

extern const Rule box_one_per_hole{
    .id = "box.one-per-hole",
    .title = "One wire a hole",
    .aliases = "M13",
    .asks =
        "Does each grounded conductor have a hole of its own, and do two equipment grounds share "
        "one only where the bar is marked for it?",
    .applies = applies,
    .check = check,
    .cites = "box.one-per-hole"};

}  // namespace stringwright::codebook
