#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::equipment; }

/// Lead batteries of dwellings stay below 50 V nominal unless nobody can touch live parts. A battery whose
/// leads run more than 5 ft or through a wall has an overcurrent device and a disconnect at its own end.
/// The battery itself is not judged.
///
///     V_nom < V_bare
///
/// Source: NFPA 70, 690.71 (2014), 706, 480. Proved: cases/rules/battery_rules.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.battery.known() && !*f.battery) return not_applicable("No battery stands behind it.");
  if (!f.battery.known())
    return cannot_tell("cannot tell: whether a battery stands behind it is not known.");
  const auto source = edition.cite("battery.rules");
  const auto& b = f.behind;
  Demands demands(trail);
  if (!f.dwelling.known() || *f.dwelling) {
    const auto limit = edition.limit<units::dim::voltage>("battery.bare-below");
    std::optional<bool> low;
    if (b.v_nominal.known()) low = !units::at_least(*b.v_nominal, *limit.value);
    std::optional<bool> safe = low;
    if (!(low && *low)) safe = b.guarded.value;
    if (!low && !(safe && *safe)) safe.reset();
    if (!f.dwelling.known() && safe && !*safe) safe.reset();
    demands.ask(
        safe,
        {"it is below " + words::plain(*limit.value) + " nominal or guarded",
         "at " + (b.v_nominal.known() ? words::plain(*b.v_nominal) : std::string("its voltage")) +
             " nominal its live parts must be guarded in a dwelling",
         "whether it is below " + words::plain(*limit.value) + " nominal or guarded"},
        source);
  }
  if (b.leaves.known() && !*b.leaves) {
    trail.note("Its leads stay within 5 ft and the room.", source);
  } else {
    std::optional<bool> device = b.device.value, open = b.disconnect.value;
    if (!b.leaves.known() && device && !*device) device.reset();
    if (!b.leaves.known() && open && !*open) open.reset();
    demands.ask(device,
                {"it has an overcurrent device at its own end",
                 "it has no overcurrent device at its own end",
                 "whether it has an overcurrent device at its own end"},
                source);
    demands.ask(open,
                {"it has a disconnect of its own", "it has no disconnect of its own",
                 "whether it has a disconnect of its own"},
                source);
  }
  Outcome o = demands.outcome("Say it in the record of the battery.");
  if (o.so.empty()) o = {Verdict::pass, "Its leads stay within 5 ft and the room: passes.", {}, {}};
  const auto volts = edition.limit<units::dim::voltage>("battery.storage-above-volts");
  const auto energy = edition.limit<units::dim::energy>("battery.storage-above-energy");
  if (volts.value->si() > 0 && f.v_battery_max.known())
    o.also.push_back(!units::at_most(*f.v_battery_max, *volts.value)
                         ? "Above " + words::plain(*volts.value) + ": article 706 is in force."
                         : "Not above " + words::plain(*volts.value) +
                               ": article 480 is in force, not 706.");
  if (energy.value->si() > 0) {
    if (b.energy.known())
      o.also.push_back(
          !units::at_most(*b.energy, *energy.value)
              ? "Above 1 kWh: article 706 is in force where it is an energy storage system."
              : "Not above 1 kWh: article 480 is in force, not 706.");
    else
      o.also.push_back("Above 1 kWh article 706 is in force; what it stores is not known.");
  }
  return o;
}

}  // namespace

extern const Rule battery_rules{
    .id = "battery.rules",
    .title = "Battery",
    .aliases = "K2",
    .asks = "Which rules are in force for the battery, and are their first demands met?",
    .applies = applies,
    .check = check,
    .cites = "battery.rules"};

}  // namespace stringwright::codebook
