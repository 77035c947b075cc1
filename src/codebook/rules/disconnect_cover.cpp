#include "codebook/methods/demands.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return (f.subject == Subject::box || f.subject == Subject::disconnect) &&
         (f.subject == Subject::box || (f.disconnect.own.known() && *f.disconnect.own));
}

///     V_max ≤ V_open    or cover locked, or opened with a tool
///
/// Source: NFPA 70, 690.13(A), 690.15(A), from 2020 on. Proved: cases/rules/disconnect_cover.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("disconnect.cover");
  if (f.place.access.known() && *f.place.access != "anyone")
    return not_applicable("Nobody but qualified people gets at it.");
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto v_open = use(trail, "V_open30", "may be bare",
                          edition.limit<units::dim::voltage>("disconnect.cover-above"));
  if (v_max.value && units::at_most(*v_max.value, *v_open.value))
    return not_applicable("Its voltage may be reached by anyone.");
  Demands demands(trail);
  demands.one_of(
      f.place.cover, {"tool", "lock"},
      {"a tool or a key opens its cover", "the bare hand opens its cover", "what opens its cover"},
      source);
  Outcome o =
      demands.outcome("Look at its door: a screw or a lock will do. Say it as cover of the part.");
  if (!f.place.access.known() && o.verdict == Verdict::fail)
    return cannot_tell(
        "cannot tell: the bare hand opens its cover, and who reaches it is not known.");
  return o;
}

}  // namespace

extern const Rule disconnect_cover{
    .id = "disconnect.cover",
    .title = "Cover over live parts",
    .aliases = "D2",
    .asks = "Does a tool or a key open the cover over live parts above 30 V that anyone can reach?",
    .applies = applies,
    .check = check,
    .cites = "disconnect.cover"};

}  // namespace stringwright::codebook
