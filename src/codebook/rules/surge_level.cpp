#include "codebook/methods/building.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::arrester; }

/// What an arrester lets through stays a fifth below what the equipment bears.
///
///     U_p ≤ k_s · U_w
///
/// U_p  voltage protection level of the arrester [V]
/// k_s  0.8 [-]
/// U_w  rated impulse withstand of the equipment [V]
///
/// Source: IEC 61643-12 and -32, IEC 62305-4; the NEC asks nothing of it, so there it is advice.
/// Proved: cases/rules/surge_level.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto u_p = trail.given("U_p", "protection level", f.arrester.v_protect);
  const auto k_s = use(trail, "k_s", "margin", edition.factor("surge.margin"));
  const auto u_w = trail.given("U_w", "equipment bears", f.arrester.v_withstand);
  Outcome o = demand_at_most(trail, u_p, k_s * u_w, edition.cite("surge.level"));
  if (of_iec(edition) || o.verdict == Verdict::pass) return o;
  if (o.verdict == Verdict::cannot_tell)
    o.so =
        "What it lets through, or what the equipment bears, is not known; the lesser decides "
        "whether "
        "the equipment lives.";
  o.verdict = Verdict::caution;
  o.also.push_back("The code asks nothing of it.");
  return o;
}

}  // namespace

extern const Rule surge_level{.id = "surge.level",
                              .title = "What the arrester lets through",
                              .aliases = "S2",
                              .asks =
                                  "Is what the arrester lets through a fifth below what the "
                                  "equipment bears?",
                              .applies = applies,
                              .check = check,
                              .cites = "surge.level",
                              .family = Asked::both};

}  // namespace stringwright::codebook
