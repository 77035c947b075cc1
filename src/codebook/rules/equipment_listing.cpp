#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::part && f.part_kind.known() &&
         (*f.part_kind == "box" || *f.part_kind == "disconnect" || *f.part_kind == "equipment");
}

/// Source: NFPA 70, 690.4(B). Proved: cases/rules/equipment_listing.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  Demands demands(trail);
  demands.one_of(f.listed, {"pv"},
                 {"it is listed or field labelled for PV", "it is not listed for PV",
                  "whether it is listed or field labelled for PV"},
                 edition.cite("equipment.listed"));
  Outcome o = demands.outcome("Its label says so, or a field label of a testing laboratory.");
  if (o.verdict == Verdict::fail && *f.part_kind == "box")
    o.also.push_back("A box put together from single parts needs a field label.");
  return o;
}

}  // namespace

extern const Rule equipment_listing{
    .id = "equipment.listing",
    .title = "Equipment listed for PV",
    .aliases = "B1",
    .asks =
        "Is the box, the switch, the controller or the inverter listed or field labelled for "
        "photovoltaic use?",
    .applies = applies,
    .check = check,
    .cites = "equipment.listed",
    .family = Asked::both};

}  // namespace stringwright::codebook
