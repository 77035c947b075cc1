#include "codebook/device_response.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/methods/ground_fault.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment; }

bool in_the_bond(const std::string& by) { return by == "fuse" || by == "breaker"; }

/// Small circuits that the edition lets off: below both limits.
std::optional<Outcome> too_small(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_gf = edition.limit<units::dim::voltage>("ground-fault.volts");
  const auto i_gf = edition.limit<units::dim::current>("ground-fault.amps");
  if (v_gf.value->si() <= 0) return {};
  Trail aside;
  const auto v = maximum_voltage(f, edition, aside);
  const auto i = max_current(f, edition, aside);
  if (!v.value || !i.value) return {};  // asked as if it were large
  if (!units::at_most(*v.value, *v_gf.value) || !units::at_most(*i.value, *i_gf.value)) return {};
  trail.note("Not above " + words::plain(*v_gf.value) + " and " + words::plain(*i_gf.value) + ".",
             v_gf.source);
  return not_applicable("Its circuits are not above " + words::plain(*v_gf.value) + " and " +
                        words::plain(*i_gf.value) + ": none is asked.");
}

/// A fuse or breaker in the bond, the larger the blinder.
Outcome rated(const Facts& f, const Edition& edition, Trail& trail) {
  const auto& g = f.ground_fault;
  const auto rating = trail.given("I_gfd", "ground-fault device", g.rating);
  const auto power = trail.given("P_stc", "array at STC", g.power);
  if (!rating.value || !power.value) {
    auto missing = rating.missing;
    missing.insert(missing.end(), power.missing.begin(), power.missing.end());
    return cannot_tell(words::unknown(trail, missing));
  }
  const auto most = trail.table(
      "I_gfl", "largest allowed", std::optional(largest_ground_fault_fuse(*power.value)),
      "array of " + words::plain(*power.value),
      trail::Source{"UL 1741, largest ground-fault fuse by power", "memory"});
  return demand_at_most(trail, rating, most, edition.cite("ground-fault.protection"));
}

/// Something watches for ground faults, sees one of any conductor, and isolates the array then.
///
///     I_gfd ≤ I_gfl   for a fuse or breaker in the bond
///
/// I_gfd  its rating [A]
/// I_gfl  largest by the power behind it [A]
///
/// Source: NFPA 70, 690.5 (2014), 690.41(B); IEC 62548-1, 6.3, from memory. A bare fuse in the bond is blind
/// to faults of the grounded pole below its rating (Ball et al., 2013).
/// Proved: cases/rules/ground_fault_protection.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto& g = f.ground_fault;
  const auto source = edition.cite("ground-fault.protection");
  if (auto small = too_small(f, edition, trail)) return *small;
  const Answer without = may_do_without_ground_fault(f, edition);
  if (without.holds && *without.holds) {
    trail.note("It may be left out: " + without.why + ".", edition.cite("ground-fault.exempt"));
    return not_applicable("May be left out here: " + without.why + ".");
  }
  if (!of_iec(edition))
    trail.note("It may not be left out" +
                   std::string(without.holds ? ": " + without.why : " unless shown otherwise") +
                   ".",
               edition.cite("ground-fault.exempt"));
  if (!g.by.known())
    return cannot_tell("cannot tell: what in " + f.thing +
                       " watches for ground faults is not known. Its manual says so: how it "
                       "detects, whether it sees a fault of the grounded pole too, and its listing "
                       "(equipment.ground_fault).");
  trail.note("Detection by " + *g.by + ".", source);
  if (*g.by == "none") {
    if (!without.holds)
      return cannot_tell(
          "cannot tell: nothing watches for ground faults; whether it may be left out "
          "depends on " +
          without.why + ".");
    return {Verdict::fail, "Nothing watches for ground faults: fails.", {}, {}};
  }
  if (g.listed.known() && !*g.listed)
    return {Verdict::fail, "What watches for ground faults is not listed for it: fails.", {}, {}};
  const bool grounded = !f.scheme.known() || *f.scheme != "ungrounded";
  if (grounded && g.sees_grounded.known() && !*g.sees_grounded)
    return {Verdict::fail,
            "It does not see a fault of the grounded pole: fails.",
            {"Such a fault stays for years, and the next one burns."},
            {}};
  if (grounded && in_the_bond(*g.by) && !g.sees_grounded.known())
    return cannot_tell("cannot tell: a " + *g.by +
                       " in the bond alone is blind to faults of the grounded pole; whether its "
                       "listing shows that this one sees them is not known.");
  if (!g.listed.known())
    return cannot_tell("cannot tell: whether it is listed for it is not known.");
  if (of_iec(edition) && *g.by == "insulation" && !(f.isolated.known() && *f.isolated))
    return cannot_tell(
        "cannot tell: it measures before start; whether anything watches in service, "
        "as equipment without isolation has to, is not known.");
  Outcome o;
  if (in_the_bond(*g.by)) {
    o = rated(f, edition, trail);
    if (o.verdict != Verdict::pass) return o;
  } else {
    o = {Verdict::pass, "Detection by " + *g.by + ", listed: passes.", {}, {}};
  }
  if (grounded)
    o.also.push_back("After a trip the grounded pole floats: treat both poles as live.");
  return o;
}

}  // namespace

extern const Rule ground_fault_protection{
    .id = "ground-fault.protection",
    .title = "Ground-fault protection",
    .aliases = "G2 G3",
    .asks =
        "Does something watch for ground faults of every conductor, the grounded one too, and "
        "isolate the array; or may it be left out?",
    .applies = applies,
    .check = check,
    .cites = "ground-fault.protection ground-fault.exempt",
    .family = Asked::both};

}  // namespace stringwright::codebook
