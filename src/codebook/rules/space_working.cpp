#include "codebook/methods/demands.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::box ||
         (f.subject == Subject::disconnect && f.disconnect.own.known() && *f.disconnect.own);
}

///     L_deep ≥ L_110,    L_wide ≥ max(30 in, own width),    L_high ≥ 6.5 ft
///
/// L_110  by the voltage to ground and by what stands opposite [m]. A circuit without a solidly grounded
///        conductor counts with its voltage between poles.
///
/// Source: NFPA 70, 110.26(A). Proved: cases/rules/space_working.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v_max = maximum_voltage(f, edition, trail);
  const auto free = edition.limit<units::dim::voltage>("space.none-up-to");
  if (v_max.value && units::at_most(*v_max.value, *free.value))
    return not_applicable("Its live parts stand at 60 V or less.");
  const auto& p = f.place;
  if (!p.depth.known() && !p.width.known() && !p.height.known() && !p.opposite.known()) {
    Outcome o = cannot_tell("cannot tell: the clear space in front of it is not known.");
    o.also.push_back(
        "Asked: 30 in (0.76 m) wide, 6.5 ft (2 m) high, and 3 ft (0.9 m) deep or more. "
        "Measure it, and say what stands opposite.");
    return o;
  }
  if (!p.opposite.known()) return cannot_tell("cannot tell: what stands opposite is not known.");
  if (!v_max.value) return cannot_tell("cannot tell: the maximum voltage is not known.");
  const auto looked = edition.working_depth(*v_max.value, *p.opposite);
  Demands demands(trail);
  const auto deep = trail.given("L_deep", "clear depth", p.depth);
  const auto need = read_table(trail, "L_110", "depth asked", looked);
  demands.add(demand_at_least(trail, deep, need, looked.source));
  const auto wide = trail.given("L_wide", "clear width", p.width);
  const auto least =
      use(trail, "L_w", "least width", edition.limit<units::dim::length>("space.width"));
  const Traced<units::Length> width =
      p.own_width.known()
          ? trail.let("L_w2", "width asked",
                      trail::greater(least, trail.given("L_own", "own width", p.own_width)))
          : least;
  demands.add(demand_at_least(trail, wide, width, edition.cite("space.clear")));
  const auto high = trail.given("L_high", "clear height", p.height);
  const auto height =
      use(trail, "L_h", "least height", edition.limit<units::dim::length>("space.height"));
  demands.add(demand_at_least(trail, high, height, edition.cite("space.clear")));
  return demands.outcome("Measure it in front of the thing.");
}

}  // namespace

extern const Rule space_working{
    .id = "space.working",
    .title = "Working space",
    .aliases = "W1",
    .asks = "Is there room to work in front of what may be opened while it is live?",
    .applies = applies,
    .check = check,
    .cites = "table.working-space space.clear space.low-voltage"};

}  // namespace stringwright::codebook
