#include <set>
#include <string>
#include <vector>

#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::box; }

/// The first few, and how many more.
std::string shortened(std::vector<std::string> all) {
  constexpr std::size_t most = 4;
  const std::size_t more = all.size() > most ? all.size() - most : 0;
  all.resize(all.size() - more);
  if (more > 0) all.push_back(std::to_string(more) + " more");
  return words::list(all);
}

/// A terminal takes the sizes, the number of wires and the strands that its marking says, tightened as the
/// marking says.
///
/// Source: NFPA 70, 110.14, 690.31 (fine strands), 110.3(B). Proved: cases/rules/box_terminals.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("terminal.use");
  const auto fine = edition.cite("terminal.fine-strands");
  const auto torque = edition.cite("terminal.torque");
  std::vector<std::string> bad, open, torques;
  std::set<std::string> strands;
  for (const auto& h : f.box.holes) {
    if (!h.wire.known()) {
      open.push_back("the wire in " + h.id);
      continue;
    }
    const std::string size = h.wire->size.print();
    if (h.least.known() && h.wire->size < *h.least)
      bad.push_back(size + " in " + h.id + " is smaller than " + h.least->print());
    if (h.most.known() && h.wire->size > *h.most)
      bad.push_back(size + " in " + h.id + " is larger than " + h.most->print());
    if (!h.least.known() || !h.most.known()) open.push_back("the sizes that " + h.id + " takes");
    if (h.count.known() && *h.count > 1) {
      if (!h.may_hold.known())
        open.push_back("how many wires " + h.id + " may hold");
      else if (!units::at_most(*h.count, *h.may_hold))
        bad.push_back(words::plain(*h.count) + " wires in " + h.id + ", which may hold " +
                      words::plain(*h.may_hold));
    }
    if (!h.fine.known())
      strands.insert(h.wire->print());
    else if (*h.fine && h.fine_allowed.known() && !*h.fine_allowed)
      bad.push_back("fine strands in " + h.id + ", which is not marked for them");
    else if (*h.fine && !h.fine_allowed.known())
      open.push_back("whether " + h.id + " is marked for fine strands");
    if (!h.torque.value.value_or(false)) torques.push_back(h.id);
  }
  for (const auto& wire : strands)
    open.push_back("whether the strands of " + wire + " are finer than class C");
  trail.note(std::to_string(f.box.holes.size()) + " terminals with a wire of the job.", source);
  trail.note("Fine strands only where the terminal is marked for them.", fine);
  trail.note("Tightened with a torque tool, or by other means that the code takes, to the marking.",
             torque);
  if (f.box.holes.empty()) return cannot_tell("cannot tell: what lands in the box is not known.");
  Outcome o;
  if (!bad.empty()) {
    o = {Verdict::fail, sentence_case(shortened(bad)) + ": fails.", {}, {}};
    if (!open.empty()) o.also.push_back("Not known yet: " + shortened(open) + ".");
  } else if (!open.empty()) {
    o = cannot_tell("cannot tell: " + shortened(open) + (open.size() == 1 ? " is" : " are") +
                    " not known.");
    o.also.push_back("The marking at the terminal says so.");
  } else {
    o = {Verdict::pass, "Every wire fits its terminal: passes.", {}, {}};
  }
  if (!torques.empty()) {
    o.also.push_back("Torque not given for " + shortened(torques) +
                     ": read it on the marking before landing.");
    if (o.verdict == Verdict::pass) o.verdict = Verdict::caution;
  }
  return o;
}

}  // namespace

extern const Rule box_terminals{
    .id = "box.terminals",
    .title = "Terminals and what lands in them",
    .aliases = "B3",
    .asks =
        "Does every terminal take the wire that lands in it, as many of them, and strands as "
        "fine, and is its torque known?",
    .applies = applies,
    .check = check,
    .cites = "terminal.use terminal.fine-strands terminal.torque",
    .family = Asked::both};

}  // namespace stringwright::codebook
