#include "codebook/methods/events.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input && !f.events.empty(); }

/// Names the faults that no overcurrent device of the array ends, whatever the light: people have to know
/// them before they open the box. A caution, no demand of the code.
///
/// Source: solutions of the faulted circuits. Proved: cases/rules/event_fault_persists.toml.
Outcome check(const Facts& f, const Edition&, Trail& trail) {
  std::vector<std::string> stay, unsolved;
  int asked = 0;
  for (const auto& e : f.events) {
    if (e.gf_sees.known() && !e.cleared.known()) continue;  // to ground, and drives no current
    if (!e.cleared.known()) {
      unsolved.push_back(e.id);
      continue;
    }
    ++asked;
    if (!*e.cleared) stay.push_back(e.id);
  }
  if (!unsolved.empty())
    return cannot_tell("cannot tell: " + words::list(unsolved) + " could not be solved.");
  if (asked == 0) return not_applicable("No event drives a fault current.");
  trail.note(std::to_string(stay.size()) + " of " + std::to_string(asked) +
                 " events with a fault current are ended by no overcurrent device in full sun and "
                 "a quarter more.",
             {"solution of each faulted circuit", "computed"});
  if (stay.empty())
    return {Verdict::pass,
            "In the strongest light a device opens in every fault that drives current.",
            {},
            {}};
  return {
      Verdict::caution,
      std::to_string(stay.size()) + " of " + std::to_string(asked) +
          " faults and mistakes trip nothing until dark.",
      {words::list(stay) + ".",
       "No breaker or fuse of the array will tell or end them: read before closing, never open a "
       "plug or a bare fuse holder under current."},
      {}};
}

}  // namespace

extern const Rule event_fault_persists{.id = "event.fault-persists",
                                       .title = "Faults that trip nothing",
                                       .aliases = "",
                                       .asks =
                                           "Which faults and mistakes does no overcurrent device "
                                           "of the array end, whatever the light?",
                                       .applies = applies,
                                       .check = check,
                                       .cites = "ocpd.needed",
                                       .family = Asked::both};

}  // namespace stringwright::codebook
