#include "codebook/methods/disconnects.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return (f.subject == Subject::disconnect && f.disconnect.given.known() && *f.disconnect.given) ||
         f.subject == Subject::array;
}

/// A switch alone in a grounded conductor takes its ground away and leaves it live. From 2017 on a
/// disconnect may open it together with the others. In 2014 only ground-fault gear may, or a switch for
/// upkeep that nobody but qualified people reaches.
///
/// Source: NFPA 70, 240.22, 690.13 (2014: 690.13, 690.17(D)). Proved: cases/rules/disconnect_grounded_conductor.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("disconnect.grounded");
  const auto grounded = grounded_conductor(f, edition);
  if (!grounded) return cannot_tell("cannot tell: which conductor is grounded is not known.");
  if (grounded->empty()) return not_applicable("No conductor is solidly grounded.");
  const bool array = f.subject == Subject::array;
  if (array && f.fitted.known() && !*f.fitted) return not_applicable("No string has a device.");
  const Fact<std::string>& opens = array ? f.devices_in : f.disconnect.opens;
  if (!opens.known())
    return cannot_tell(array ? "cannot tell: which pole carries the string devices is not known."
                             : "cannot tell: which conductors it opens is not known.");
  const std::string who = array ? "String devices stand in" : "It opens";
  trail.note("The " + *grounded + " conductor is grounded.", source);
  if (*opens != "both" && *opens != *grounded)
    return {Verdict::pass,
            who + " " + conductors(*opens) + " alone; the grounded one stays whole: passes.",
            {},
            {}};
  const std::string ungrounded_live =
      "The " + *grounded + " conductor would lose its ground and stay live: fails.";
  if (*opens == *grounded || array)
    return {Verdict::fail, who + " " + conductors(*opens) + ". " + ungrounded_live, {}, {}};
  if (edition.factor("disconnect.grounded-together").value.value_or(0) > 0)
    return {Verdict::pass, "It opens plus and minus at one stroke: passes.", {}, {}};
  if (!f.place.access.known())
    return cannot_tell(
        "cannot tell: it opens the grounded conductor too, which this edition allows only to a "
        "switch "
        "for upkeep; who reaches it is not known.");
  if (*f.place.access == "qualified")
    return {Verdict::pass,
            "It opens plus and minus, for upkeep by qualified people alone: passes.",
            {},
            {}};
  return {Verdict::fail, "It opens plus and minus. " + ungrounded_live, {}, {}};
}

}  // namespace

extern const Rule disconnect_grounded_conductor{
    .id = "disconnect.grounded-conductor",
    .title = "Grounded conductor left whole",
    .aliases = "D6",
    .asks =
        "Is a grounded conductor opened by nothing but a disconnect that opens all conductors at "
        "one stroke?",
    .applies = applies,
    .check = check,
    .cites = "disconnect.grounded"};

}  // namespace stringwright::codebook
