#include "codebook/methods/demands.hpp"
#include "codebook/methods/disconnects.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::disconnect && f.disconnect.given.known() && *f.disconnect.given;
}

/// No disconnect stands in a bathroom. In 2014 a box on a roof has a load-break disconnect, worked by hand,
/// in it or within 6 ft; from 2017 on that is asked above 30 A, within 10 ft (disconnect.load-break,
/// disconnect.equipment).
///
///     L_dis ≤ L_roof
///
/// Source: NFPA 70, 690.4(E), 690.15(C) of 2014. Proved: cases/rules/disconnect_place.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  Demands demands(trail);
  const bool plugs = f.disconnect.means.known() && *f.disconnect.means == "plugs";
  if (!plugs)
    demands.one_of(f.place.stands, {"outdoors", "roof", "indoors"},
                   {"it is not in a bathroom", "it stands in a bathroom", "where it stands"},
                   edition.cite("disconnect.bathroom"));
  const auto l_roof = edition.limit<units::dim::length>("disconnect.roof-reach");
  const bool asks_roof = l_roof.value && l_roof.value->si() > 0 && f.disconnect.of == "box";
  if (asks_roof && !f.disconnect.box_stands.known()) {
    demands.ask(std::nullopt, {"", "", "whether the box hangs on a roof"},
                edition.cite("disconnect.roof"));
  } else if (asks_roof && *f.disconnect.box_stands == "roof") {
    const auto source = edition.cite("disconnect.roof");
    demands.ask(breaks_load(f),
                {"it breaks load", "the box on the roof has no load-break disconnect",
                 "whether it breaks load"},
                source);
    demands.ask(f.disconnect.by_hand,
                {"it is worked by hand from outside", "it is not worked by hand from outside",
                 "whether it is worked by hand from outside"},
                source);
    const auto l = trail.given("L_dis", "way to the disconnect", f.disconnect.distance);
    const auto reach = use(trail, "L_roof", "within reach on a roof", l_roof);
    const auto near = trail.require(l <= reach, source);
    const std::string far = f.disconnect.distance.known()
                                ? words::plain(*f.disconnect.distance) + " from the box"
                                : std::string("near the box");
    demands.ask(
        near,
        {"it is " + far, "it is " + far + ", and " + words::plain(*reach.value) + " are allowed",
         "how far it is from the box"},
        source);
  } else if (plugs) {
    return not_applicable("Plugs of the strings stand where the array stands.");
  }
  return demands.outcome("Say it in the record of the disconnect, and of the box.");
}

}  // namespace

extern const Rule disconnect_place{
    .id = "disconnect.place",
    .title = "Where a disconnect stands",
    .aliases = "D8",
    .asks =
        "Is no disconnect in a bathroom, and has a box on a roof its load-break disconnect where "
        "the edition wants it?",
    .applies = applies,
    .check = check,
    .cites = "disconnect.bathroom"};

}  // namespace stringwright::codebook
