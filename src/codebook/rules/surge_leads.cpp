#include "codebook/methods/building.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::arrester; }

/// The leads of an arrester are short: each metre adds about a kilovolt in a stroke.
///
///     L_sa ≤ L_sal
///
/// L_sa   both leads of one path together [m]
/// L_sal  0.5 m
///
/// Source: IEC 60364-5-53, 534, from memory; NFPA 70 asks for leads no longer than needed.
/// Proved: cases/rules/surge_leads.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto limit = edition.limit<units::dim::length>("surge.leads");
  if (!f.arrester.leads.known()) {
    trail.note("Both leads of one path together: at most " + words::plain(*limit.value) + ".",
               edition.cite("surge.leads"));
    if (!f.arrester.fitted.known())
      return cannot_tell("cannot tell: whether there is an arrester is not known.");
    return on_site("Leads of the arrester: both of one path together at most " +
                   words::plain(*limit.value) + ", run side by side, no loops.");
  }
  const auto own = trail.given("L_sa", "leads of one path", f.arrester.leads);
  const auto most = use(trail, "L_sal", "at most", limit);
  Outcome o = demand_at_most(trail, own, most, edition.cite("surge.leads"));
  if (of_iec(edition) || o.verdict != Verdict::fail) return o;
  o.verdict = Verdict::caution;
  o.also = {"Each metre of lead adds about a kilovolt to what the arrester lets through."};
  return o;
}

}  // namespace

extern const Rule surge_leads{.id = "surge.leads",
                              .title = "Leads of the arrester",
                              .aliases = "S4",
                              .asks = "Are the leads of the arrester short?",
                              .applies = applies,
                              .check = check,
                              .cites = "surge.leads",
                              .family = Asked::both};

}  // namespace stringwright::codebook
