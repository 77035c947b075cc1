#include <algorithm>
#include <cmath>

#include "events/table.hpp"
#include "units/print.hpp"

namespace stringwright::events {
namespace {

std::string at_light(units::Irradiance sun) {
  return sun.si() <= 0 ? "even in the dark" : "above " + units::print(sun, 0);
}

/// What the device that sees most does, and the light from which on it does it.
std::string opening_words(const Row& r) {
  const Sees* first = nullptr;
  for (const Sees& x : r.devices) {
    if (x.opens != Opens::opens || !x.above) continue;
    if (!first || *x.above < *first->above) first = &x;
  }
  if (!first) {
    for (const Sees& x : r.devices)
      if (x.opens == Opens::opens && (x.above_cold || x.above_hot))
        return x.name + (x.above_hot ? " opens only with hot cells, " + at_light(*x.above_hot)
                                     : " opens only with cold cells, " + at_light(*x.above_cold));
    return {};
  }
  return (first->like.size() > 1 ? "each of " + std::to_string(first->like.size()) + " devices"
                                 : first->name) +
         " opens " + at_light(*first->above);
}

}  // namespace

std::string amps(units::Current i) {
  return units::print(units::abs(i), units::abs(i).si() < 100 ? 1 : 0);
}
std::string volts(units::Voltage v) {
  return units::print(units::abs(v), units::abs(v).si() < 1000 ? 1 : 0);
}

std::string direction(const Site& s, const DevicePole& p, units::Current i) {
  const bool forward = i.si() >= 0;
  switch (p.role) {
    case DevicePole::Role::string:
      return forward ? "out of the string" : "into the string";
    case DevicePole::Role::input:
      return forward ? "to the equipment" : "from the equipment";
    case DevicePole::Role::feeder: {
      const int c = p.of < 0 ? -1 : s.w.boxes[static_cast<std::size_t>(p.of)].out_plus;
      const std::string run =
          c < 0 ? "the feeder" : s.w.conductors[static_cast<std::size_t>(c)].run;
      return (forward ? "out of " : "into ") + run;
    }
  }
  return {};
}

void judge(const Site& s, const std::vector<Sky>& skies, Row& r) {
  const Kind* kind = find_kind(r.event.kind);
  const bool overcurrent = kind && kind->overcurrent;
  if (r.failure) {
    r.danger = Danger::breaks;
    r.verdict = "NOT SOLVED: " + r.failure->message + " [" + r.failure->id + "]";
    return;
  }
  // What opens, and from which light on.
  bool opens = false, late = false, may = false, unknown = false, more_than_service = false;
  for (const Sees& x : r.devices) {
    opens = opens || x.opens == Opens::opens;
    late = late || (x.opens == Opens::opens && (!x.above || x.above->si() > 0));
    may = may || x.opens == Opens::may;
    unknown = unknown || !x.opens;
    more_than_service = more_than_service || x.worst.si() < 0;
  }
  const bool flows = r.fault.si() > 0.05 || more_than_service;
  if (opens) {
    r.verdict = opening_words(r);
    r.danger = late ? Danger::late : Danger::seen;
    if (!r.opened.empty() && r.left.si() > 0.05) {
      r.verdict += "; " + amps(r.left) + " stay in the fault until dark";
      r.danger = Danger::late;
    }
  } else if (may) {
    r.verdict = "a device may open and need not; count on nothing until dark";
    r.danger = Danger::silent;
  } else if (unknown && !r.devices.empty()) {
    r.verdict = "cannot tell: the rating of a device is not known";
    r.danger = Danger::silent;
  } else if (overcurrent && flows) {
    r.verdict = "nothing trips until dark";
    r.danger = Danger::silent;
  } else if (overcurrent) {
    r.verdict = "nothing flows that the devices should end";
    r.danger = Danger::none;
  }

  if (kind && kind->tell) kind->tell(s, r);

  add_notes(s, skies, r);
  if (r.verdict.empty()) r.verdict = "nothing flows that should not";
}

}  // namespace stringwright::events
