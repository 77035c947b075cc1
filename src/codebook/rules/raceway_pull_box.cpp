#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::pull_box; }

/// A box that conductors of 4 AWG and larger are pulled through is long enough to bend them.
///
///     L_box ≥ k_box · d_trade,    k_box = 8 straight, 6 at an angle
///
/// d_trade  trade size of the largest raceway, in inches by its name. At an angle the other raceways of
///          the same wall add to it: one raceway a wall is supposed.
///
/// Source: NFPA 70, 314.28(A). Proved: cases/rules/raceway_pull_box.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto& p = f.pull;
  if (!p.wire.known()) return cannot_tell("cannot tell: the conductor is not known.");
  if (p.wire->size < *units::WireSize::from_table("4"))
    return {Verdict::pass,
            p.wire->size.print() +
                " is smaller than 4 AWG: the box is counted by volume, not by "
                "length.",
            {},
            {}};
  if (!p.largest.known())
    return cannot_tell("cannot tell: the trade size of its raceways is not known.");
  const bool angle = !p.pull.known() || *p.pull == "angle";
  const bool both = !p.pull.known();  // straight asks more
  const auto k = use(trail, "k_box", angle && !both ? "angle pull" : "straight pull",
                     edition.factor(angle && !both ? "pull-box.angle" : "pull-box.straight"));
  const auto d =
      trail.given("d_trade", "largest raceway, by its name",
                  Fact<units::Length>(units::inches(p.largest->nominal_inches()), p.largest.from));
  const auto least = trail.let("L_need", "needed", k * d, edition.cite("pull-box.size"));
  const std::string bushing =
      "Bushings that protect conductors of 4 AWG and larger at every entry.";
  trail.note(bushing, edition.cite("pull-box.bushing"));
  if (!p.smallest.known())
    return cannot_tell("cannot tell: the size of the box is not known (box_size); " +
                       words::plain(*least.value) + " between the entries are needed" +
                       (both ? " for a straight pull." : "."));
  Outcome outcome = demand_at_least(trail, trail.given("L_box", "its smaller side", p.smallest),
                                    least, edition.cite("pull-box.size"));
  outcome.also.push_back(bushing);
  if (both && outcome.verdict == Verdict::fail) {
    outcome = cannot_tell(
        "cannot tell: as a straight pull the box is too short; say whether the pull "
        "is straight or at an angle (pull).");
  }
  return outcome;
}

}  // namespace

extern const Rule raceway_pull_box{
    .id = "raceway.pull-box",
    .title = "Size of the pull box",
    .aliases = "X10",
    .asks = "Is a box that conductors of 4 AWG and larger are pulled through long enough?",
    .applies = applies,
    .check = check,
    .cites = "pull-box.size pull-box.bushing"};

}  // namespace stringwright::codebook
