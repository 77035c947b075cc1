#include "codebook/methods/currents.hpp"
#include "codebook/methods/demands.hpp"
#include "codebook/methods/disconnects.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::box && f.box.holds.known() && *f.box.holds == "fuse";
}

/// A fuse beside other strings is live from both sides. Its holder isolates, but is never opened under load:
/// the circuit needs a disconnect that breaks load, and the holder a mark.
///
/// Source: NFPA 70, 690.15 (2014: 690.16). Proved: cases/rules/ocpd_fuse_service.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const bool alone = f.strings.known() && f.strings->in(units::plain) < 2;
  if (alone && behind(f) == Behind::nothing)
    return not_applicable("The fuse is live from one side only.");
  const auto source = edition.cite("ocpd.fuse-service");
  Demands demands(trail);
  std::optional<bool> breaks = breaks_load(f);
  if (f.disconnect.given.known() && !*f.disconnect.given) breaks.reset();
  demands.ask(breaks,
              {"a disconnect that breaks load serves the fuses",
               "no disconnect that breaks load serves the fuses",
               "whether a disconnect that breaks load serves the fuses"},
              source);
  demands.ask(f.box.holders_marked,
              {"their holders are marked not to be opened under load",
               "their holders are not marked against opening under load",
               "whether their holders are marked not to be opened under load"},
              source);
  Outcome o = demands.outcome("Say it as disconnect of the box; the mark stands on the holder.");
  o.also.push_back(
      "A fuse holder under load draws an arc in the face: open the disconnect first, "
      "prove that no current flows, then the holder.");
  return o;
}

}  // namespace

extern const Rule ocpd_fuse_service{
    .id = "ocpd.fuse-service",
    .title = "Changing a fuse",
    .aliases = "O10",
    .asks =
        "Can every fuse that is live from both sides be made dead, by something that breaks load, "
        "before its holder is opened?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.fuse-service",
    .family = Asked::both};

}  // namespace stringwright::codebook
