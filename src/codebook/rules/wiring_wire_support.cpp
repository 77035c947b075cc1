#include <algorithm>

#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::stretch && f.laid.method.known() &&
         (*f.laid.method == "free-air" || *f.laid.method == "tray");
}

/// Single conductors in the open are held at even distances: d_sup ≤ d_max.
///
/// d_max  24 in up to 8 AWG, 54 in above; in a tray 12 in. 2014 borrows 54 in for all [mm]
///
/// Source: NFPA 70, 690.31(C). In which edition the 24 in came is not certain: 2017 is the cautious year.
/// Proved: cases/rules/wiring_wire_support.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto small = std::any_of(f.laid.wires.begin(), f.laid.wires.end(), [](const auto& w) {
    return w.wire.known() && w.wire->size <= *units::WireSize::from_table("8");
  });
  const bool known = std::all_of(f.laid.wires.begin(), f.laid.wires.end(),
                                 [](const auto& w) { return w.wire.known(); });
  if (f.laid.wires.empty() || !known)
    return cannot_tell("cannot tell: the conductor is not known.");
  const bool tray = *f.laid.method == "tray";
  const auto most = edition.limit<units::dim::length>(tray    ? "single.support-tray"
                                                      : small ? "single.support-small"
                                                              : "single.support-large");
  const auto limit = use(trail, "d_max", "between supports", most);
  if (f.laid.support.known())
    return demand_at_most(trail, trail.given("d_sup", "between supports", f.laid.support), limit,
                          most.source);
  return on_site("Hold the wires every " + words::plain(*limit.value) + " (" +
                 words::plain(units::Ratio(limit.value->in(units::inches))) +
                 " in) at most, with clips or ties that stand the sun, nowhere under strain.");
}

}  // namespace

extern const Rule wiring_wire_support{
    .id = "wiring.wire-support",
    .title = "Support of single conductors",
    .aliases = "X3",
    .asks = "Are single conductors in the open held often enough?",
    .applies = applies,
    .check = check,
    .cites = "wiring.support wiring.tray-support"};

}  // namespace stringwright::codebook
