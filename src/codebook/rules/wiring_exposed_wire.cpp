#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool open_way(const Facts& f) {
  return f.laid.method.known() && (*f.laid.method == "free-air" || *f.laid.method == "tray");
}

bool applies(const Facts& f) { return f.subject == Subject::stretch && open_way(f); }

/// Single conductors in the open are of a type made for it: PV wire; USE-2 or RHW-2 marked sunlight
/// resistant, within the array. An ungrounded array asks for PV wire in 2014. In a tray other types may lie
/// from 1/0 AWG up, where they are so marked.
///
/// Source: NFPA 70, 690.31(C)(1), 392.10(B), 690.35(D) of 2014. Proved: cases/rules/wiring_exposed_wire.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("In the open: PV wire, or USE-2 and RHW-2 marked sunlight resistant within the array.",
             edition.cite("wiring.exposed"));
  if (f.laid.wires.empty()) return cannot_tell("cannot tell: what lies there is not known.");
  for (const auto& w : f.laid.wires) {
    if (w.ground.known() && *w.ground) continue;
    if (!w.wire.known() || w.wire->insulation.empty())
      return cannot_tell("cannot tell: the insulation type is not known.");
    const std::string& type = w.wire->insulation;
    if (type == "PV") continue;
    const bool tray = *f.laid.method == "tray";
    const bool large = tray && w.wire->size >= *units::WireSize::from_table("1/0");
    if (type != "USE-2" && type != "RHW-2" && tray && !large)
      return {Verdict::fail,
              type +
                  " smaller than 1/0 AWG may not lie in a tray as a single conductor: fails. PV "
                  "wire may.",
              {},
              {}};
    if (type != "USE-2" && type != "RHW-2" && !large)
      return {Verdict::fail,
              type + " is not made for the open as a single conductor: fails. PV wire is.",
              {},
              {}};
    if (edition.year() < 2017 && !large) {
      if (!f.scheme.known())
        return cannot_tell(
            "cannot tell: the grounding scheme is not known; an ungrounded array "
            "asks for PV wire.");
      if (*f.scheme == "ungrounded")
        return {Verdict::fail,
                type + " in an ungrounded array: " + std::string(edition.name()) +
                    " asks for PV wire, fails.",
                {},
                {}};
      if (type == "USE-2") continue;
    }
    if (!w.sunlight.known())
      return cannot_tell("cannot tell: read on the cable whether " + type +
                         " is marked sunlight resistant (sunlight_resistant).");
    if (!*w.sunlight)
      return {Verdict::fail, type + " is not marked sunlight resistant: fails.", {}, {}};
  }
  Outcome outcome{Verdict::pass, "Its type is made for the open: passes.", {}, {}};
  if (f.laid.circuit.known() && *f.laid.circuit == "output" && *f.laid.method == "free-air")
    outcome = {
        Verdict::caution,
        "Single conductors in the open belong within the array; this is the output of a box.",
        {"Where it leaves the array it takes a raceway or a cable."},
        {}};
  return outcome;
}

}  // namespace

extern const Rule wiring_exposed_wire{
    .id = "wiring.exposed-wire",
    .title = "Single conductors in the open",
    .aliases = "X1",
    .asks = "Are the single conductors in the open of a type that sun and weather don't harm?",
    .applies = applies,
    .check = check,
    .cites = "wiring.exposed"};

}  // namespace stringwright::codebook
