#include <algorithm>
#include <array>
#include <string_view>

#include "codebook/methods/building.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment; }

constexpr std::array<std::string_view, 5> metal{"EMT", "RMC", "IMC", "FMC", "LFMC"};

/// A way on which an arc of an output circuit does no harm, by the edition.
bool protected_way(const WayFacts& way, const Edition& edition) {
  if (!way.method.known()) return false;
  if (std::find(metal.begin(), metal.end(), *way.method) != metal.end()) return true;
  if (*way.method == "buried") return true;
  if (edition.year() < 2020) return false;
  return *way.method == "MC" || (way.underground.known() && *way.underground);
}

/// What is said of the circuits between boxes and equipment, which some editions let off.
std::string outputs(const Facts& f, const Edition& edition) {
  if (f.arc_fault.ways.empty()) return "";
  if (edition.year() < 2017) return "No circuit is let off in this edition.";
  const Answer apart = apart_from_buildings(f);
  if (!apart.holds || !*apart.holds) return "";
  for (const auto& way : f.arc_fault.ways)
    if (!protected_way(way, edition))
      return "Circuits from box to equipment would be let off here, if they lay in metal raceway" +
             std::string(edition.year() < 2020 ? " or were buried cable" : " or below ground") +
             " all along.";
  return "Circuits from box to equipment are let off here; the strings, whose leads lie in the "
         "open, "
         "are not.";
}

/// Strings of 80 V or more have listed arc-fault protection; the volts are those of a cold dawn, not the
/// battery's.
///
///     V_max < V_arc: not asked
///
/// Source: NFPA 70, 690.11, from memory. IEC 63027 devices: asked by some countries only.
/// The exception of 2017 (output circuits in metal raceway, metal tray or direct burial, away from
/// buildings) and its wider form of 2020 are read as leaving string circuits in, which is the cautious
/// reading. Proved: cases/rules/arc_fault_protection.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (of_iec(edition)) {
    trail.note("No general demand.", edition.cite("arc-fault.protection"));
    return not_applicable("The standard leaves it to the country: ask what yours says.");
  }
  const auto v = maximum_voltage(f, edition, trail);
  const auto v_arc =
      use(trail, "V_arc", "asked from", edition.limit<units::dim::voltage>("arc-fault.volts"));
  if (!v.value) return cannot_tell(words::unknown(trail, v.missing));
  if (!units::at_least(*v.value, *v_arc.value))
    return not_applicable(words::plain(*v.value) + " in the cold is below " +
                          words::plain(*v_arc.value) + ": not asked.");
  Outcome o;
  const std::string volts = words::plain(*v.value) + " in the cold";
  if (!f.arc_fault.fitted.known())
    o = cannot_tell("cannot tell: " + volts + " asks for arc-fault protection; whether " + f.thing +
                    " has it is not known. Its manual says so (equipment.arc_fault).");
  else if (*f.arc_fault.fitted)
    o = {Verdict::pass, volts + ", with arc-fault protection: passes.", {}, {}};
  else
    o = {Verdict::fail, volts + ", without arc-fault protection: fails.", {}, {}};
  if (auto more = outputs(f, edition); !more.empty()) o.also.push_back(more);
  if (f.strings.known() && f.strings->in(units::plain) > 2 && o.verdict == Verdict::pass)
    o.also.push_back("Its documents say for how many strings on one input it is listed.");
  return o;
}

}  // namespace

extern const Rule arc_fault_protection{
    .id = "arc-fault.protection",
    .title = "Arc-fault protection",
    .aliases = "G10",
    .asks =
        "Do strings of 80 V or more, by their voltage in the cold, have listed arc-fault "
        "protection?",
    .applies = applies,
    .check = check,
    .cites = "arc-fault.protection",
    .family = Asked::both};

}  // namespace stringwright::codebook
