#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"
#include "events/table.hpp"

namespace stringwright::events {
namespace {

/// A box with a ground bar and no bond yet.
bool may_get_one(const Site& s, int box) {
  const auto& x = s.w.boxes[box];
  return x.bar_ground >= 0 && s.w.find_device(x.id + ".bond") < 0;
}

std::vector<Place> places(const Site& s) {
  std::vector<Place> all;
  if (!s.bonded()) return all;
  for (std::size_t b = 0; b < s.w.boxes.size(); ++b)
    if (may_get_one(s, static_cast<int>(b))) all.push_back({s.w.boxes[b].id, {s.w.boxes[b].id}});
  return all;
}

Result<std::string> says(const Site& s, std::string_view place) {
  const auto box = box_at(s, place);
  if (!box) return box.failure();
  if (!s.bonded())
    return Failure{"events.no-place", "there is no first bond here, so there is no second"};
  if (!may_get_one(s, *box))
    return Failure{"events.no-place", "box " + s.w.boxes[*box].id +
                                          " has a bond already, or no ground bar to bond to"};
  return "second bond in box " + s.w.boxes[*box].id + ": the ground wire shares the return current";
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto box = box_at(s, place);
  if (!box) return box.failure();
  if (!may_get_one(s, *box)) return no_place("box without a bond", place);
  const auto& x = s.w.boxes[*box];
  const int bar = s.plus_grounded() ? x.bus_plus : x.bus_minus;
  Applied a;
  a.fault = circuit::faults::bridge(b, b.node[s.w.devices[bar].terminals.front()],
                                    b.node[s.w.devices[x.bar_ground].terminals.front()]);
  return a;
}

void tell(const Site& s, Row& r) {
  r.verdict = amps(r.fault) + " of return current on the ground wire";
  r.danger = Danger::silent;
  if (r.detector && r.detector->seen == Seen::seen) {
    r.verdict +=
        "; the " + detector_words(*s.detector()) +
        (r.detector->ends
             ? " opens, and the second bond keeps tying the array to ground, watched by nothing"
             : " reacts to it whenever the array works");
    return;
  }
  r.verdict += "; what watches the first bond sees only a share of any ground fault";
}

}  // namespace

extern const Kind two_bonds{.id = "two-bonds",
                            .title = "Two bonds",
                            .cause = Cause::work,
                            .load = Load::working,
                            .places = places,
                            .says = says,
                            .apply = apply,
                            .overcurrent = false,
                            .to_ground = true,
                            .gate =
                                "the one bond lifted, both poles open to ground: no "
                                "continuity, before the array is joined",
                            .tell = tell};

}  // namespace stringwright::events
