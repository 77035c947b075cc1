#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  if (f.subject == Subject::surface)
    return !f.marks.place.known() ||
           (*f.marks.place != "roof" && *f.marks.place != "open-structure");
  return f.subject == Subject::stretch && f.laid.method.known() &&
         (*f.laid.method == "free-air" || *f.laid.method == "tray");
}

/// Above 30 V, conductors that people can reach are guarded, or lie in a raceway or metal-clad cable.
///
/// Asked of every stretch in the open, and of the leads behind modules that do not stand on a roof.
/// Source: NFPA 70, 690.31(A). Proved: cases/rules/wiring_guarded.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto v = maximum_voltage(f, edition, trail);
  const auto least =
      use(trail, "V_guard", "asked above", edition.limit<units::dim::voltage>("guard.volts"));
  if (!v.value) return cannot_tell(words::unknown(trail, v.missing));
  if (units::at_most(*v.value, *least.value))
    return {Verdict::pass, words::at_most(*v.value, *least.value), {}, {}};
  const bool leads = f.subject == Subject::surface;
  const auto& guarded = leads ? f.marks.guarded : f.laid.guarded;
  const std::string what = leads ? "The leads behind the modules" : "These wires";
  trail.note("Fence, mesh, cover or height; or a raceway.", edition.cite("wiring.guarded"));
  if (!guarded.known())
    return cannot_tell("cannot tell: can people touch " +
                       std::string(leads ? "the leads behind the modules" : "these wires") +
                       "? Say guarded = true where a fence, mesh, cover or height keeps them off.");
  if (*guarded) return {Verdict::pass, what + " are out of reach or guarded: passes.", {}, {}};
  return {Verdict::fail,
          what + " carry up to " + words::plain(*v.value) + " and can be touched: fails.",
          {"A fence, mesh or cover keeps people off; or take a raceway."},
          {}};
}

}  // namespace

extern const Rule wiring_guarded{
    .id = "wiring.guarded",
    .title = "Wires within reach",
    .aliases = "X2 M7",
    .asks = "Are conductors above 30 V that people could reach guarded or in a raceway?",
    .applies = applies,
    .check = check,
    .cites = "wiring.guarded"};

}  // namespace stringwright::codebook
