#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::part && f.part_kind.known() &&
         (*f.part_kind == "breaker" || *f.part_kind == "fuse");
}

/// Overcurrent devices of PV circuits are listed for them. A rating for alternating current says nothing of
/// direct current; a supplementary protector is no overcurrent device of a circuit.
///
/// Source: NFPA 70, 690.9(B) (2014: 690.9(C), (D)). Proved: cases/rules/ocpd_listing.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("ocpd.listed");
  Demands demands(trail);
  const bool supplementary = f.listed.known() && *f.listed == "supplementary";
  demands.one_of(f.listed, {"pv"},
                 {"it is listed for PV direct current",
                  supplementary ? "it is a supplementary protector, not listed for PV circuits"
                                : "it is not listed for PV direct current",
                  "whether it is listed for PV direct current"},
                 source);
  demands.ask(f.v_dc_pole.known() ? std::optional(true) : std::nullopt,
              {"its d.c. volts are marked", "", "what d.c. volts it is marked for"}, source);
  demands.ask(f.interrupt.known() ? std::optional(true) : std::nullopt,
              {"its d.c. interrupting rating is marked", "", "its d.c. interrupting rating"},
              source);
  return demands.outcome("All three stand on the device itself.");
}

}  // namespace

extern const Rule ocpd_listing{
    .id = "ocpd.listing",
    .title = "Devices made for PV direct current",
    .aliases = "O5",
    .asks =
        "Is the overcurrent device listed for photovoltaic direct current, with its d.c. volts "
        "and interrupting rating?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.listed",
    .family = Asked::both};

}  // namespace stringwright::codebook
