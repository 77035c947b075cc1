#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::box; }

/// Source: NFPA 70, 690.9(C) (2014: 690.9(E)). Proved: cases/rules/ocpd_access.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.box.holds.known() && f.box.holds->empty())
    return not_applicable("No device is in this box.");
  Demands demands(trail);
  demands.one_of(
      f.place.access, {"anyone", "qualified", "ladder"},
      {"its devices can be reached", "its devices can't be reached", "who can reach the box"},
      edition.cite("ocpd.access"));
  return demands.outcome("Say it as access: anyone, qualified, ladder or none.");
}

}  // namespace

extern const Rule ocpd_access{
    .id = "ocpd.access",
    .title = "Access to the string devices",
    .aliases = "O9",
    .asks = "Can people get at the string devices without taking the building apart?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.access",
    .family = Asked::both};

}  // namespace stringwright::codebook
