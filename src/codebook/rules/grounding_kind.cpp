#include "codebook/methods/ground_fault.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::array; }

Outcome pass(std::string so) { return {Verdict::pass, std::move(so), {}, {}}; }
Outcome fail(std::string so) { return {Verdict::fail, std::move(so), {}, {}}; }

/// A pole joined straight to earth asks for equipment whose input is apart from its output.
Outcome by_iec(const Facts& f, const std::string& scheme) {
  if (scheme == "ungrounded") return pass("Neither pole is earthed: one of the permitted kinds.");
  if (scheme == "functional")
    return pass("One pole is earthed for function: one of the permitted kinds.");
  if (!f.isolated.known())
    return cannot_tell(
        "cannot tell: one pole is earthed directly, which asks for equipment with simple "
        "separation "
        "(equipment.isolated), and nothing is said of it.");
  return *f.isolated ? pass("One pole is earthed directly, behind equipment with separation.")
                     : fail(
                           "One pole is earthed directly, and the equipment does not separate its "
                           "input from its output: fails.");
}

/// Solid grounding is a kind of its own only where the array may do without ground-fault protection.
Outcome solid(const Facts& f, const Edition& edition) {
  if (edition.year() < 2017) return pass("One pole is grounded: a permitted kind.");
  const Answer without = may_do_without_ground_fault(f, edition);
  if (!without.holds)
    return cannot_tell(
        "cannot tell: solid grounding is permitted only where ground-fault protection "
        "may be left out; not known is " +
        without.why + ".");
  if (*without.holds) return pass("Solidly grounded, as permitted here: " + without.why + ".");
  Outcome o = fail(
      "Solidly grounded, which is permitted only where ground-fault protection may be "
      "left out: fails, since " +
      without.why + ".");
  o.also = {
      "The way out: take the pole to ground through the equipment's ground-fault device, so "
      "that it is functionally grounded, and remove every other bond."};
  return o;
}

/// The array is grounded in one of the ways that the code knows.
///
/// Source: NFPA 70, 690.41(A) (2014: 690.41 and 690.35); IEC 62548-1, earthing configurations, from memory.
/// Proved: cases/rules/grounding_kind.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.scheme.known())
    return cannot_tell("cannot tell: the job says nothing of grounding (grounding.scheme).");
  trail.note("Scheme: " + *f.scheme + ".", edition.cite("grounding.kind"));
  if (of_iec(edition)) return by_iec(f, *f.scheme);
  if (*f.scheme == "solid") return solid(f, edition);
  if (*f.scheme == "functional") {
    Outcome o = pass(edition.year() < 2017
                         ? "One pole is grounded through the ground-fault device: a permitted kind."
                         : "One pole is functionally grounded: a permitted kind.");
    o.also = {"After a ground-fault trip that pole floats: treat it as live."};
    return o;
  }
  if (edition.year() < 2017)
    return {Verdict::pass,
            "Neither pole is grounded: permitted where both poles are switched and protected, the "
            "single conductors are PV wire and the warning is up.",
            {"Those conditions have findings of their own."},
            {}};
  return pass("Neither pole is grounded: a permitted kind.");
}

}  // namespace

extern const Rule grounding_kind{
    .id = "grounding.kind",
    .title = "Kind of system grounding",
    .aliases = "G1",
    .asks = "Is the array grounded in one of the ways that the code knows?",
    .applies = applies,
    .check = check,
    .cites = "grounding.kind",
    .family = Asked::both};

}  // namespace stringwright::codebook
