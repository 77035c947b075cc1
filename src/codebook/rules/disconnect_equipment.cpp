#include "codebook/methods/demands.hpp"
#include "codebook/methods/disconnects.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::disconnect &&
         (f.disconnect.of == "box" || f.disconnect.of == "input");
}

///     L_dis ≤ L_reach
///
/// L_dis    way from the equipment to what isolates it; 0 where it is inside [m]
/// L_reach  10 ft from 2017 on; before that in sight as the code defines it, 50 ft [m]
///
/// Source: NFPA 70, 690.15(A) (2014: 690.15, article 100; 2023: 690.15(D)).
/// Proved: cases/rules/disconnect_equipment.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("disconnect.equipment");
  const auto must = must_open(f, edition);
  const std::string want =
      must ? conductors(*must) : "every conductor that is not solidly grounded";
  if (!f.disconnect.given.known() || !*f.disconnect.given) {
    Outcome o = cannot_tell("cannot tell: what isolates it for work is not described.");
    o.also.push_back("It needs something in it, or in sight and within reach, that opens " + want +
                     ": a switch, a breaker, or plugs up to 30 A. Say it as disconnect.");
    return o;
  }
  Demands demands(trail);
  const bool one_stroke = !f.disconnect.means.known() || *f.disconnect.means == "device";
  demands.ask(opens_enough(f, edition),
              {"it opens " + (f.disconnect.opens.known() ? conductors(*f.disconnect.opens) : want),
               "it opens " + (f.disconnect.opens.known() ? conductors(*f.disconnect.opens) : want) +
                   " and has to open " + want,
               "whether it opens " + want + (one_stroke ? " at one stroke" : "")},
              source);
  const auto l = trail.given("L_dis", "way to the disconnect", f.disconnect.distance);
  const auto reach =
      use(trail, "L_reach", "within reach", edition.limit<units::dim::length>("disconnect.reach"));
  const auto near = trail.require(l <= reach, source);
  const std::string far = f.disconnect.distance.known()
                              ? words::plain(*f.disconnect.distance) + " away"
                              : "within " + words::plain(*reach.value);
  demands.ask(
      near,
      {"it is " + far, "it is " + far + ", and " + words::plain(*reach.value) + " are allowed",
       "how far away it is"},
      source);
  if (!f.disconnect.distance.known() || *f.disconnect.distance > units::Length{})
    demands.ask(f.disconnect.in_sight,
                {"it is in sight", "it is out of sight", "whether it is in sight"}, source);
  return demands.outcome("Say it in the record of the disconnect.");
}

}  // namespace

extern const Rule disconnect_equipment{
    .id = "disconnect.equipment",
    .title = "Disconnect within reach of the equipment",
    .aliases = "D3",
    .asks =
        "Can the box or the equipment be isolated from every source by something in it, or in "
        "sight and within reach?",
    .applies = applies,
    .check = check,
    .cites = "disconnect.equipment"};

}  // namespace stringwright::codebook
