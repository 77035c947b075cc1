#include <algorithm>

#include "events/table.hpp"
#include "units/print.hpp"

namespace stringwright::events {
namespace {

bool beyond_volts(const Sees& x) {
  return x.after && x.after->recovery && x.v_opens && *x.after->recovery > 1.000001 * *x.v_opens;
}

/// "A1.Q1" or "each of 7 devices".
std::string who(const Sees& x) {
  return x.like.size() > 1 ? "each of " + std::to_string(x.like.size()) + " devices" : x.name;
}

void add(Row& r, const std::string& note) {
  if (std::find(r.notes.begin(), r.notes.end(), note) == r.notes.end()) r.notes.push_back(note);
}

/// Both poles of a string opening on the same volts say it once.
std::string both_poles(const Row& r, const Sees& x) {
  if (x.like.size() > 1 || (!x.name.ends_with('+') && !x.name.ends_with('-'))) return x.name;
  const std::string device = x.name.substr(0, x.name.size() - 1);
  const bool other = std::any_of(r.devices.begin(), r.devices.end(), [&](const Sees& o) {
    return o.name != x.name && o.like.size() == 1 && o.after && x.after && o.after->recovery &&
           o.name.substr(0, o.name.size() - 1) == device &&
           units::print(*o.after->recovery, 0) == units::print(*x.after->recovery, 0);
  });
  return other ? "either pole of " + device : x.name;
}

void note_device(const Sees& x, Row& r) {
  if (x.after && x.after->recovery) {
    const std::string times = x.after->in_voc && x.after->in_voc->si() > 1.5
                                  ? units::print(*x.after->in_voc, 1) + " × Voc"
                                  : std::string();
    if (beyond_volts(x)) {
      add(r, "Whatever opens " + both_poles(r, x) + " must clear " + volts(*x.after->recovery) +
                 (times.empty() ? "" : ", " + times) + "; it may open only " + volts(*x.v_opens) +
                 ".");
      r.danger = Danger::breaks;
    } else if (!times.empty()) {
      add(r, "Whatever opens " + both_poles(r, x) + " must clear " + volts(*x.after->recovery) +
                 ", " + times + ".");
    }
    if (x.opens == Opens::opens && !x.after->still.empty() && x.like.size() == 1)
      add(r, "Opened alone, " + x.name + " leaves its string tied to the bus by " +
                 x.after->still.front() + ".");
  }
  if (x.wrong_way) {
    add(r, x.name + " opens in one direction only, and " + amps(x.worst) + " flow the other way.");
    r.danger = Danger::breaks;
  }
  if (x.beyond_interrupt) {
    add(r, x.name + " meets " + amps(x.worst) + ", more than it may interrupt.");
    r.danger = Danger::breaks;
  }
  if (x.opens_in && x.opens == Opens::opens)
    add(r, "By its printed curve " + who(x) + " opens within " + units::print(*x.opens_in) +
               " under " + amps(x.worst) + ".");
  if (x.opens == Opens::opens && x.above_by_bound && x.above)
    add(r, "By (N−1)·Isc the light would be " + units::print(*x.above_by_bound, 0) + ".");
}

void note_bears(const std::vector<Sky>& skies, const Bears& b, bool opens, Row& r) {
  const auto sky_words = [&](int k) {
    const Sky& sky = skies[static_cast<std::size_t>(k)];
    return units::print(sky.sun, 0) + ", cells " + units::print(sky.cell);
  };
  const char* what = b.what == Bears::What::module_reverse ? "Modules of "
                     : b.what == Bears::What::bypass_diode ? "Bypass diodes of "
                     : b.what == Bears::What::connector    ? "Connectors of "
                                                           : "Conductors of ";
  if (!b.limit && b.what != Bears::What::conductor)
    add(r, what + b.thing + " carry " + amps(b.i) +
               (b.what == Bears::What::module_reverse ? " backwards" : "") + "; " +
               (b.what == Bears::What::module_reverse ? "their maximum series fuse rating"
                                                      : "their rating") +
               " is not known.");
  if (b.holds().value_or(true)) return;
  const auto [i, limit] = units::print_pair(b.i, *b.limit);
  add(r, what + b.thing + " carry " + i +
             (b.what == Bears::What::module_reverse ? " backwards" : "") + " at " +
             sky_words(b.sky) + ", beyond " + limit + " (" + b.limit_words + ").");
  // A device that opens ends it in time for wires and modules, which are tested for longer; no test says so
  // of diodes.
  if (!opens || b.what == Bears::What::bypass_diode) r.danger = Danger::breaks;
}

}  // namespace

void add_notes(const Site& s, const std::vector<Sky>& skies, Row& r) {
  const bool opens = std::any_of(r.devices.begin(), r.devices.end(),
                                 [](const Sees& x) { return x.opens == Opens::opens; });
  for (const Sees& x : r.devices) note_device(x, r);
  if (r.while_working && !r.devices.empty()) {
    const Sees& x = r.devices.front();
    const DevicePole& pole = s.poles[static_cast<std::size_t>(x.pole)];
    const auto does = response(s, pole, *r.while_working, Season::hot);
    if (x.opens == Opens::opens && does && *does != Opens::opens)
      add(r, "Only while nothing is taken: as the equipment works " + x.name + " carries " +
                 amps(*r.while_working) + " " + direction(s, pole, *r.while_working) + " and " +
                 (*does == Opens::may ? "may open or not." : "holds."));
  }
  for (const Bears& b : r.bears) note_bears(skies, b, opens, r);
}

}  // namespace stringwright::events
