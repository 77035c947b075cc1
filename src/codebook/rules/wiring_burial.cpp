#include "codebook/methods/words.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::stretch && f.laid.method.known() &&
         (f.laid.buried.known() || *f.laid.method == "buried");
}

std::string depth(units::Length l) {
  return units::print(l) + " (" + words::plain(units::Ratio(l.in(units::inches))) + " in)";
}

/// Cable that lies straight in earth is made for it: USE-2 is, PV wire where it says so, THWN-2 and
/// XHHW-2 are not. Empty: it may.
std::optional<Outcome> unfit(const Facts& f) {
  if (*f.laid.method != "buried") return std::nullopt;
  for (const auto& w : f.laid.wires) {
    if (w.ground.known() && *w.ground) continue;
    if (!w.wire.known() || w.wire->insulation.empty())
      return cannot_tell("cannot tell: the insulation type is not known.");
    const std::string& type = w.wire->insulation;
    if (type == "USE" || type == "USE-2" || (w.burial.known() && *w.burial)) continue;
    if (w.burial.known() || (type != "PV" && type != "RHW-2"))
      return Outcome{Verdict::fail,
                     type + " is not made to lie straight in earth: fails. A raceway carries it.",
                     {},
                     {}};
    return cannot_tell("cannot tell: read on the cable whether " + type +
                       " is marked for direct burial (direct_burial).");
  }
  return std::nullopt;
}

/// What is buried lies deep enough for what is on top: d_cov ≥ d_min.
///
/// Source: NFPA 70, Table 300.5; for cable straight in earth 310.10(F). Proved: cases/rules/wiring_burial.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (auto wrong = unfit(f)) {
    trail.note("Straight in earth lies only what is made for it.", edition.cite("wiring.burial"));
    return *wrong;
  }
  const auto cover = trail.given("d_cov", "cover", f.laid.buried);
  if (!cover.value) return cannot_tell("cannot tell: how deep it lies is not known (buried).");
  if (f.laid.under.known()) {
    const auto least = burial_depth(edition, *f.laid.method, *f.laid.under);
    const auto d_min = read_table(trail, "d_min", "least cover", least);
    if (!least.value) return cannot_tell("cannot tell: " + least.why + ".");
    Outcome outcome = demand_at_least(trail, cover, d_min, least.source);
    outcome.so = depth(*cover.value) +
                 (outcome.verdict == Verdict::pass ? " of cover, " : " of cover is less than ") +
                 depth(*d_min.value) +
                 (outcome.verdict == Verdict::pass ? " needed: passes." : ": fails.");
    return outcome;
  }
  const auto soil = burial_depth(edition, *f.laid.method, "soil");
  const auto road = burial_depth(edition, *f.laid.method, "road");
  if (!soil.value || !road.value) return cannot_tell("cannot tell: " + soil.why + ".");
  const auto d_road = read_table(trail, "d_road", "least cover anywhere", road);
  if (units::at_least(*cover.value, *road.value)) {
    trail.require(cover >= d_road, road.source);
    return {
        Verdict::pass, depth(*cover.value) + " of cover is enough under anything: passes.", {}, {}};
  }
  if (!units::at_least(*cover.value, *soil.value) && *f.laid.method == "buried")
    return {Verdict::fail,
            depth(*cover.value) + " of cover is less than " + depth(*soil.value) + ": fails.",
            {},
            {}};
  return cannot_tell(
      "cannot tell: what lies on top (under = \"soil\", \"slab\", \"drive\" or "
      "\"road\")? Under soil " +
      depth(*soil.value) + " of cover are due, under a road " + depth(*road.value) + "; it has " +
      depth(*cover.value) + ".");
}

}  // namespace

extern const Rule wiring_burial{.id = "wiring.burial",
                                .title = "Depth of burial",
                                .aliases = "X14",
                                .asks =
                                    "Does what is buried lie deep enough, and is it made to lie "
                                    "in earth?",
                                .applies = applies,
                                .check = check,
                                .cites = "table.burial wiring.burial"};

}  // namespace stringwright::codebook
