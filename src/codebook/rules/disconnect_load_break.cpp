#include "codebook/methods/currents.hpp"
#include "codebook/methods/disconnects.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::disconnect &&
         (f.disconnect.of == "box" || f.disconnect.of == "input") && f.disconnect.given.known() &&
         *f.disconnect.given;
}

/// Up to 30 A plugs, touch-safe fuse holders or a switch without load-break may isolate; above it a
/// load-break disconnect does. Not asked so in 2014, which groups and marks them.
///
///     I_max > I_iso    asks for load break
///
/// Source: NFPA 70, 690.15(C) (2017, 2023: 690.15). Proved: cases/rules/disconnect_load_break.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("disconnect.load-break");
  const auto i_max = max_current(f, edition, trail);
  const auto i_iso = use(trail, "I_iso", "isolating device up to",
                         edition.limit<units::dim::current>("disconnect.load-break-above"));
  const auto breaks = breaks_load(f);
  if (breaks && *breaks) {
    trail.note("It breaks load.", source);
    return {Verdict::pass, "It breaks load: passes.", {}, {}};
  }
  const auto claim = i_max <= i_iso;
  const auto small = trail.require(claim, source);
  if (!small) return cannot_tell(words::unknown(trail, claim.missing));
  if (*small)
    return {Verdict::pass,
            words::plain(*i_max.value) + " ≤ " + words::plain(*i_iso.value) +
                ": an isolating device is enough: passes.",
            {"Never open it under load: stop the current first."},
            {}};
  if (!breaks) return cannot_tell("cannot tell: whether it breaks load is not known.");
  return {Verdict::fail,
          words::plain(*i_max.value) + " > " + words::plain(*i_iso.value) +
              ", and it does not break load: fails.",
          {"It needs a switch or breaker that opens under load, in it or within reach."},
          {}};
}

}  // namespace

extern const Rule disconnect_load_break{
    .id = "disconnect.load-break",
    .title = "Load-break disconnect",
    .aliases = "D4",
    .asks = "Where the circuit can carry more than 30 A, does its disconnect break load?",
    .applies = applies,
    .check = check,
    .cites = "disconnect.load-break current.output"};

}  // namespace stringwright::codebook
