#include "codebook/methods/voltages.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::connector && f.connector.described.known() && *f.connector.described;
}

///     V_max > V_tool and readily reached    asks for a tool
///
/// Source: NFPA 70, 690.33(C). Proved: cases/rules/connector_lock.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("connector.lock");
  if (!f.connector.lock.known())
    return cannot_tell(
        "cannot tell: what it takes to part it is not known; its data sheet says so.");
  const std::string lock = *f.connector.lock;
  trail.note("It is parted by " + std::string(lock == "tool"    ? "a tool."
                                              : lock == "latch" ? "a latch, by hand."
                                                                : "a pull."),
             source);
  if (lock == "tool") return {Verdict::pass, "It latches, and a tool parts it: passes.", {}, {}};
  if (lock == "none") return {Verdict::fail, "It neither latches nor locks: fails.", {}, {}};
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto v_tool = use(trail, "V_tool", "by hand up to",
                          edition.limit<units::dim::voltage>("connector.tool-above"));
  const auto claim = v_max <= v_tool;
  const auto low = trail.require(claim, source);
  if (!low) return cannot_tell(words::unknown(trail, claim.missing));
  if (*low) return {Verdict::pass, "It latches, and its voltage is low: passes.", {}, {}};
  if (!f.place.access.known())
    return cannot_tell(
        "cannot tell: the bare hand parts it, and who reaches the array's plugs is not known.");
  if (*f.place.access == "ladder" || *f.place.access == "none")
    return {Verdict::pass, "It latches, and nobody reaches it without a ladder: passes.", {}, {}};
  return {Verdict::fail,
          "The bare hand parts it at " + words::plain(*v_max.value) +
              ", and it is readily reached: fails.",
          {"It needs a type that a tool parts, or the maker's locking clip."},
          {}};
}

}  // namespace

extern const Rule connector_lock{
    .id = "connector.lock",
    .title = "Connectors that lock",
    .aliases = "C2",
    .asks =
        "Do the connectors latch or lock, and does it take a tool to part them where anyone "
        "reaches them above 30 V?",
    .applies = applies,
    .check = check,
    .cites = "connector.lock"};

}  // namespace stringwright::codebook
