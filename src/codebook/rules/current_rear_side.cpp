#include "codebook/methods/rear.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// Light on the rear side of a bifacial module adds current, and every sizing has to carry it.
///
///     k_rear = 1 + φ · G_rear / 1000 W/m²
///
/// φ       bifaciality of the module [-]; G_rear 300 W/m² on the rear: the stress condition, cautious
///
/// Judges whether the current used holds the gain; `i_sc` everywhere is the one with it.
/// Source: IEC 62548-1:2023, Annex F; NFPA 70, 110.3(B). Proved: cases/rules/current_rear_side.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("current.rear");
  const auto i_sc = trail.given("I_sc", "I_sc of the string", f.i_sc);
  if (f.rear_gain.known()) {
    trail.given("g_rear", "gain of the rear side, as given", f.rear_gain);
    trail.note("The current above holds it.", source);
    if (!i_sc.value) return cannot_tell("cannot tell: I_sc of the string is not known.");
    if (f.bifaciality.known() &&
        f.rear_gain->in(units::plain) < f.bifaciality->in(units::plain)*rear_light_nameplate - 1e-9)
      return {Verdict::caution,
              units::print_percent(*f.rear_gain) + " for the rear side is less than the " +
                  units::print_percent(*f.bifaciality * rear_light_nameplate) +
                  " that bifaciality " + words::plain(*f.bifaciality) +
                  " gives in the light of the nameplate, 135 W/m² on the rear.",
              {},
              {}};
    return {Verdict::pass,
            f.rear_gain->si() == 0
                ? "The modules have no gain from the rear: passes."
                : units::print_percent(*f.rear_gain) + " for the rear side is in the " +
                      words::plain(*i_sc.value) + " that all sizes go by: passes.",
            {},
            {}};
  }
  if (f.bifaciality.known() && f.bifaciality->si() == 0)
    return {Verdict::pass, "The modules take no light on the rear: passes.", {}, {}};
  if (f.bifaciality.known())
    return cannot_tell(
        "cannot tell: bifaciality " + words::plain(*f.bifaciality) +
        ", and the light on the rear is not known. Give the surface's rear_sun: 135 W/m² "
        "on a nameplate, up to 300 W/m² over bright ground (" +
        units::print_percent(*f.bifaciality * rear_light) + " more current).");
  return cannot_tell(
      "cannot tell: do the modules take light on the rear? Give bifaciality = \"0\" "
      "where they don't, their bifaciality or rear_gain where they do.");
}

}  // namespace

extern const Rule current_rear_side{
    .id = "current.rear-side",
    .title = "Current of the rear side",
    .aliases = "I6",
    .asks = "Is the current of bifacial modules counted with the light on their rear side?",
    .applies = applies,
    .check = check,
    .cites = "current.rear"};

}  // namespace stringwright::codebook
