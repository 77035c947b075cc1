#include <algorithm>

#include "base/text.hpp"
#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"
#include "events/table.hpp"
#include "units/print.hpp"

namespace stringwright::events {
namespace {

/// "S1.2": a place in a string; "OUT-": a pole of an output where it leaves its box.
struct Touch {
  int terminal_node = -1;
  int metal = -1;
  std::string words;
};

Result<Touch> touch_at(const Site& s, std::string_view place, const circuit::Built* b) {
  if (place.ends_with('+') || place.ends_with('-')) {
    const auto box = output_at(s, place.substr(0, place.size() - 1));
    if (!box) return box.failure();
    const bool plus = place.ends_with('+');
    const int from =
        s.w.conductors[plus ? s.w.boxes[*box].out_plus : s.w.boxes[*box].out_minus].from;
    return Touch{b ? b->node[from] : -1, s.metal_near(s.w.boxes[*box].id),
                 std::string(place.substr(0, place.size() - 1)) + (plus ? "+" : "−") +
                     " touches metal at box " + s.w.boxes[*box].id};
  }
  const auto spot = spot_at(s, place);
  if (!spot) return spot.failure();
  const int module = s.w.strings[spot->string].modules[std::max(spot->module - 1, 0)];
  return Touch{b ? node_at(s, *b, *spot) : -1, s.metal_near(s.w.devices[module].owner),
               spot_words(s, *spot) + " touches metal"};
}

std::vector<Place> places(const Site& s) {
  std::vector<Place> all;
  for (const auto& like : s.likes) {
    const int n = static_cast<int>(s.w.strings[like.first].modules.size());
    std::vector<int> spots{0};
    if (n > 1) spots.push_back((n + 1) / 2);
    spots.push_back(n);
    spots.erase(std::unique(spots.begin(), spots.end()), spots.end());
    for (const int k : spots) {
      Place p{spot_text(s, {like.first, k}), {}};
      for (const int x : like.strings) p.like.push_back(spot_text(s, {x, k}));
      all.push_back(std::move(p));
    }
  }
  for (const auto& out : each_output(s))
    for (const char* pole : {"+", "-"}) all.push_back({out.place + pole, {out.place + pole}});
  return all;
}

Result<std::string> says(const Site& s, std::string_view place) {
  const auto touch = touch_at(s, place, nullptr);
  if (!touch) return touch.failure();
  if (touch->metal < 0)
    return Failure{"events.no-metal", "no bonded metal is known near " + std::string(place)};
  return touch->words;
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto touch = touch_at(s, place, &b);
  if (!touch) return touch.failure();
  Applied a;
  a.fault = circuit::faults::bridge(b, b.node[touch->metal], touch->terminal_node);
  return a;
}

/// What the ground-fault device makes of it, as the last word of a verdict.
std::string detector_verdict(const Site& s, const DetectorSees& d) {
  const std::string name = detector_words(*s.detector());
  const std::string sees = amps(d.least) + " at 1000 W/m²";
  switch (d.seen) {
    case Seen::seen:
      return (d.ends ? "the " + name + " opens" : "the " + name + " reacts") +
             (!d.above            ? std::string(" in full sun")
              : d.above->si() > 0 ? " above " + units::print(*d.above, 0)
                                  : std::string(" at any light"));
    case Seen::at_start:
      return "the " + name + " finds it before the next start, not before";
    case Seen::blind:
      return "BLIND SPOT: the " + name +
             (d.trip && s.bonded()
                  ? " sees " + amps(d.most) + " at 1000 W/m²; it waits for a second fault"
                  : " sees nothing: " + d.why);
    case Seen::unsure:
      return "cannot tell whether the " + name + " reacts to " + sees + ": " + d.why;
  }
  return {};
}

void tell(const Site& s, Row& r) {
  const bool opens = std::any_of(r.devices.begin(), r.devices.end(),
                                 [](const Sees& x) { return x.opens == Opens::opens; });
  const bool may = std::any_of(r.devices.begin(), r.devices.end(),
                               [](const Sees& x) { return x.opens == Opens::may; });
  const std::string detector =
      r.detector ? detector_verdict(s, *r.detector)
                 : std::string(
                       "whether a ground-fault device sees it can't be told, the job names "
                       "none");
  if (!s.bonded()) {
    r.verdict = text::fixed(r.fault.in(units::milliamps), 1) +
                " mA through the insulation, no overcurrent device opens; " + detector;
    r.danger = r.detector && r.detector->seen == Seen::at_start ? Danger::seen : Danger::silent;
    return;
  }
  if (!opens)
    r.verdict =
        amps(r.fault) + " over metal, " +
        (may ? "an overcurrent device may open and need not" : "no overcurrent device opens");
  r.verdict += "; " + detector;
  const bool ends = r.detector && r.detector->seen == Seen::seen && r.detector->ends;
  if (!opens) r.danger = ends ? Danger::late : Danger::silent;
  if (r.grounded_pole_after)
    r.notes.push_back("After that the grounded pole stands at up to " +
                      volts(*r.grounded_pole_after) + " against ground.");
  else if (!ends)
    r.notes.push_back("Only what opens the bond can end it; after that the grounded pole floats.");
}

}  // namespace

extern const Kind ground_fault{.id = "ground-fault",
                               .title = "Line to ground",
                               .cause = Cause::equipment,
                               .load = Load::working,
                               .places = places,
                               .says = says,
                               .apply = apply,
                               .to_ground = true,
                               .tell = tell};

}  // namespace stringwright::events
