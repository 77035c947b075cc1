#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::box; }

/// Source: NFPA 70, 110.12(A), 408.7. Proved: cases/rules/box_openings.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("Unused openings closed, fingers of spare slots covered.",
             edition.cite("box.openings"));
  const bool spare = f.box.spare.known() && *f.box.spare > 0;
  const std::string fingers =
      spare ? words::plain(*f.box.spare) +
                  (*f.box.spare > 1 ? " spare slots have" : " spare slot has") +
                  " a bare finger: it becomes live with the bus."
            : "";
  if (f.box.closed.known() && *f.box.closed)
    return {Verdict::pass, "Unused openings are closed and bare fingers covered: passes.", {}, {}};
  Outcome o;
  if (f.box.closed.known())
    o = {Verdict::fail, "Unused openings or bare fingers stand open: fails.", {}, {}};
  else if (!f.box.spare.known())
    return cannot_tell("cannot tell: which slots are spare is not known.");
  else
    o = on_site(
        "Close unused openings with plugs made for the box, and cover the fingers of spare "
        "slots with filler plates.");
  if (spare) o.also.push_back(fingers);
  return o;
}

}  // namespace

extern const Rule box_openings{
    .id = "box.openings",
    .title = "Unused openings and bare fingers",
    .aliases = "M3",
    .asks = "Are unused openings of the box closed, and the bare fingers of spare slots covered?",
    .applies = applies,
    .check = check,
    .cites = "box.openings"};

}  // namespace stringwright::codebook
