#include "codebook/methods/shutdown.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::array; }

/// What starts rapid shutdown: reached at once, for a dwelling outside it.
///
/// Source: NFPA 70, 690.12(C); 2014 names no place, the label of 690.56(C) sends the fire service to it.
/// Proved: cases/rules/rapid_shutdown_switch.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const Answer asks = asks_rapid_shutdown(f, edition);
  const auto& s = f.shutdown;
  if (asks.holds && !*asks.holds)
    return not_applicable("Rapid shutdown is not asked: " + asks.why + ".");
  if (!asks.holds || (s.fitted.known() && !*s.fitted) ||
      (!s.fitted.known() && !s.switch_is.known()))
    return not_applicable("Asked once there is rapid shutdown: see rapid-shutdown.limits.");
  trail.note("One switch position off is shutdown.", edition.cite("shutdown.switch"));
  std::vector<std::string> open;
  if (s.switch_is.known() && *s.switch_is == "none")
    return {Verdict::fail, "Nothing starts rapid shutdown: fails.", {}, {}};
  const bool dwelling = f.dwelling.known() && *f.dwelling && edition.year() >= 2017;
  if (s.switch_reachable.known() && !*s.switch_reachable)
    return {Verdict::fail, "What starts rapid shutdown is not reached at once: fails.", {}, {}};
  if (dwelling && s.switch_outside.known() && !*s.switch_outside)
    return {
        Verdict::fail, "What starts rapid shutdown of a dwelling stands inside it: fails.", {}, {}};
  if (!s.switch_is.known()) open.push_back("what starts it (rapid_shutdown.switch)");
  if (!s.switch_reachable.known())
    open.push_back("whether it is reached at once (rapid_shutdown.switch_reachable)");
  if (edition.year() >= 2017 && !(f.dwelling.known() && !*f.dwelling) && !s.switch_outside.known())
    open.push_back("whether it stands outside (rapid_shutdown.switch_outside)");
  if (!open.empty()) return cannot_tell("cannot tell: not known is " + words::list(open) + ".");
  return {Verdict::pass, "Started by the " + *s.switch_is + ", reached at once: passes.", {}, {}};
}

}  // namespace

extern const Rule rapid_shutdown_switch{
    .id = "rapid-shutdown.switch",
    .title = "Switch that starts rapid shutdown",
    .aliases = "G14",
    .asks =
        "Is what starts rapid shutdown reached at once, and outside where it serves a dwelling?",
    .applies = applies,
    .check = check,
    .cites = "shutdown.switch"};

}  // namespace stringwright::codebook
