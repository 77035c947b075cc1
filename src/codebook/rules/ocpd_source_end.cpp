#include "codebook/methods/currents.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::output_circuit; }

/// A conductor is protected where the greater current can come from. Strings are at their box; an output
/// circuit that a battery or other boxes can feed is at the far end.
///
/// Source: NFPA 70, 690.9(A), 240.21. Not here: one end alone by length (2020 and later).
/// Proved: cases/rules/ocpd_source_end.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("ocpd.source-end");
  const auto others = trail.given("I_oth", "others' I_sc", f.i_sc_others);
  const bool others_feed = others.value && *others.value > units::Current{};
  const Behind back = behind(f);
  if (!others_feed && others.value && back == Behind::nothing)
    return not_applicable("Nothing can feed it from the far end.");
  trail.note("Its device belongs at the far end, where the larger source is.", source);
  if (f.fitted.known() && *f.fitted)
    return {Verdict::pass,
            "Its device stands at the far end, where the larger source is: passes.",
            {},
            {}};
  if (!others_feed && (!others.value || back == Behind::not_known))
    return cannot_tell("cannot tell: whether anything can feed it from the far end is not known.");
  if (!f.fitted.known())
    return cannot_tell("cannot tell: whether a device stands at the far end is not known.");
  return {Verdict::fail,
          std::string(others_feed ? "Other boxes" : "A battery") +
              " can feed it from the far end, and no device stands there: fails.",
          {},
          {}};
}

}  // namespace

extern const Rule ocpd_source_end{
    .id = "ocpd.source-end",
    .title = "Device at the end of the larger source",
    .aliases = "O8",
    .asks =
        "Where other strings or a battery can feed an output circuit from its far end, does its "
        "device stand there?",
    .applies = applies,
    .check = check,
    .cites = "ocpd.source-end"};

}  // namespace stringwright::codebook
