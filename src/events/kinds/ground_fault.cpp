#include <algorithm>

#include "base/text.hpp"
#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"
#include "events/table.hpp"

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

void tell(const Site& s, Row& r) {
  const bool opens = std::any_of(r.devices.begin(), r.devices.end(),
                                 [](const Sees& x) { return x.opens == Opens::opens; });
  const bool may = std::any_of(r.devices.begin(), r.devices.end(),
                               [](const Sees& x) { return x.opens == Opens::may; });
  if (!s.bonded()) {
    r.verdict = text::fixed(r.fault.in(units::milliamps), 1) +
                " mA through the insulation; no overcurrent device opens";
    r.danger = Danger::seen;
    return;
  }
  if (!opens)
    r.verdict = amps(r.fault) + " over metal; " +
                (may ? "a device may open and need not" : "no overcurrent device opens");
  r.notes.push_back(
      "Only the ground-fault device in the bond can end it; after that the grounded pole floats.");
  if (!opens) r.danger = Danger::silent;
}

}  // namespace

extern const Kind ground_fault{.id = "ground-fault",
                               .title = "Line to ground",
                               .cause = Cause::equipment,
                               .load = Load::working,
                               .places = places,
                               .says = says,
                               .apply = apply,
                               .tell = tell};

}  // namespace stringwright::events
