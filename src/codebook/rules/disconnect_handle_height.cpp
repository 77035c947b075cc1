#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::disconnect && f.disconnect.given.known() && *f.disconnect.given &&
         f.disconnect.means.known() && *f.disconnect.means == "device";
}

///     L_grip ≤ L_hand,    L_hand = 6 ft 7 in
///
/// Source: NFPA 70, 404.8(A), 240.24(A). Proved: cases/rules/disconnect_handle_height.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.place.access.known() && *f.place.access == "ladder")
    return not_applicable("It stands beside what it serves, reached with a ladder.");
  const auto l = trail.given("L_grip", "height of the grip", f.place.handle);
  const auto most =
      use(trail, "L_hand", "highest", edition.limit<units::dim::length>("handle.highest"));
  Outcome o = demand_at_most(trail, l, most, edition.cite("handle.height"));
  if (o.verdict == Verdict::cannot_tell)
    o.also.push_back("Measure from the floor to the middle of the grip when it is highest.");
  return o;
}

}  // namespace

extern const Rule disconnect_handle_height{
    .id = "disconnect.handle-height",
    .title = "Height of handles",
    .aliases = "M8",
    .asks = "Is the grip of a switch or breaker handle, in its highest position, not above 2 m?",
    .applies = applies,
    .check = check,
    .cites = "handle.height"};

}  // namespace stringwright::codebook
