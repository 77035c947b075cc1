#include <algorithm>

#include "circuit/faults/faults.hpp"
#include "events/kinds/places.hpp"
#include "events/table.hpp"

namespace stringwright::events {
namespace {

/// A string's end and the terminal of another box on which it was landed.
struct Mislanded {
  int string = -1;
  bool plus = false;
  int box = -1, terminal = -1;
};

/// Terminal of box `box` for that pole: hole or slot `number`, as the job says it or as the string's own.
int terminal_in(const Site& s, int box, bool plus, int number) {
  const auto& x = s.w.boxes[box];
  for (const auto& p : s.poles)
    if (s.w.devices[p.device].owner == x.id && (p.pole == wiring::Pole::plus) == plus &&
        s.w.devices[p.device].number == number)
      return p.line;
  const int bar = plus ? x.bus_plus : x.bus_minus;
  return bar < 0 ? -1 : s.w.devices[bar].terminals.front();
}

Result<Mislanded> mislanded_at(const Site& s, std::string_view place) {
  if (!place.ends_with('+') && !place.ends_with('-')) return no_place("end of a string", place);
  Mislanded m;
  m.plus = place.ends_with('+');
  const auto string = string_at(s, place.substr(0, place.size() - 1));
  if (!string) return string.failure();
  m.string = *string;
  const int own = s.w.strings[m.string].box;
  int number =
      s.w.strings[m.string].device < 0 ? 1 : s.w.devices[s.w.strings[m.string].device].number;
  for (const auto& built : s.w.job.as_built) {
    if (!built.end || *built.end != place || !built.lands) continue;
    m.box = s.find_box(built.lands->owner);
    number = built.lands->number;
  }
  if (m.box < 0) {
    for (std::size_t b = 0; b < s.w.boxes.size() && m.box < 0; ++b)
      if (static_cast<int>(b) != own && !s.w.boxes[b].strings.empty()) m.box = static_cast<int>(b);
  }
  if (own < 0 || m.box < 0 || m.box == own)
    return Failure{"events.no-place",
                   "there is no other box with strings for " + std::string(place)};
  m.terminal = terminal_in(s, m.box, m.plus, number);
  if (m.terminal < 0) return no_place("place in the other box for", place);
  return m;
}

std::vector<Place> places(const Site& s) {
  std::vector<Place> all;
  for (const auto& built : s.w.job.as_built)
    if (built.end && mislanded_at(s, *built.end)) all.push_back({*built.end, {*built.end}});
  for (const auto& like : s.likes) {
    const std::string place = s.w.strings[like.first].id + "-";
    if (std::any_of(all.begin(), all.end(), [&](const Place& p) {
          const int string = s.find_string(p.place.substr(0, p.place.size() - 1));
          return std::find(like.strings.begin(), like.strings.end(), string) != like.strings.end();
        }))
      continue;
    if (!mislanded_at(s, place)) continue;
    Place p{place, {}};
    for (const int x : like.strings) p.like.push_back(s.w.strings[x].id + "-");
    all.push_back(std::move(p));
  }
  return all;
}

Result<std::string> says(const Site& s, std::string_view place) {
  const auto m = mislanded_at(s, place);
  if (!m) return m.failure();
  return s.w.strings[m->string].id + (m->plus ? "+" : "−") + " landed in box " +
         s.w.boxes[m->box].id + " instead of " + s.w.boxes[s.w.strings[m->string].box].id;
}

Result<Applied> apply(const Site& s, std::string_view place, circuit::Built& b) {
  const auto m = mislanded_at(s, place);
  if (!m) return m.failure();
  const auto& string = s.w.strings[m->string];
  circuit::faults::land(b, m->plus ? string.plus_path.back() : string.minus_path.back(),
                        m->terminal);
  return Applied{};
}

void tell(const Site&, Row& r) {
  r.verdict =
      "one pole comes home through the other box: switching off one box does not free this string";
  r.danger = Danger::silent;
}

}  // namespace

extern const Kind wrong_box{.id = "wrong-box",
                            .title = "Landed in the wrong box",
                            .cause = Cause::work,
                            .load = Load::working,
                            .places = places,
                            .says = says,
                            .apply = apply,
                            .overcurrent = false,
                            .gate =
                                "both ends of each string rung out to the same box; after "
                                "closing, plus and minus amps of each box add to 0",
                            .tell = tell};

}  // namespace stringwright::events
