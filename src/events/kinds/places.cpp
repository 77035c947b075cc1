#include "events/kinds/places.hpp"

#include <algorithm>
#include <charconv>

#include "base/text.hpp"
#include "events/table.hpp"

namespace stringwright::events {
namespace {

std::optional<int> whole(std::string_view t) {
  int n = 0;
  const auto [end, error] = std::from_chars(t.data(), t.data() + t.size(), n);
  if (error != std::errc() || end != t.data() + t.size()) return std::nullopt;
  return n;
}

}  // namespace

Failure no_place(std::string_view what, std::string_view place) {
  return {"events.no-place",
          "there is no " + std::string(what) + " " + text::quoted(place) + " here"};
}

void tell_gap(Row& r) {
  if (r.gap_most) {
    r.verdict = "up to " + volts(*r.gap_most) + " across the open place" +
                (r.gap ? " (" + volts(*r.gap) + " as the equipment works)" : std::string()) +
                "; both sides live";
  } else {
    r.verdict =
        r.gap ? volts(*r.gap) + " across the open place as the equipment works; both sides live"
              : "both sides live, with no defined voltage between them";
  }
  r.notes.push_back("It arcs where it opens under current.");
  r.danger = Danger::seen;
}

std::vector<Place> each_string(const Site& s) {
  std::vector<Place> all;
  for (const auto& like : s.likes) {
    Place p{s.w.strings[like.first].id, {}};
    for (const int k : like.strings) p.like.push_back(s.w.strings[k].id);
    all.push_back(std::move(p));
  }
  return all;
}

std::vector<Place> each_box(const Site& s) {
  std::vector<Place> all;
  for (const auto& b : s.w.boxes) all.push_back({b.id, {b.id}});
  return all;
}

std::string run_of(const Site& s, int box) {
  const int c = s.w.boxes[box].out_plus;
  return c < 0 ? std::string() : s.w.conductors[c].run;
}

std::vector<Place> each_output(const Site& s) {
  std::vector<Place> all;
  for (std::size_t b = 0; b < s.w.boxes.size(); ++b)
    if (const auto run = run_of(s, static_cast<int>(b)); !run.empty()) all.push_back({run, {run}});
  return all;
}

Result<int> string_at(const Site& s, std::string_view place) {
  const int k = s.find_string(place);
  if (k < 0 || s.w.strings[k].modules.empty() || s.w.strings[k].plus_path.empty() ||
      s.w.strings[k].minus_path.empty())
    return no_place("string", place);
  return k;
}

Result<int> box_at(const Site& s, std::string_view place) {
  const int b = s.find_box(place);
  if (b < 0 || s.w.boxes[b].bus_plus < 0 || s.w.boxes[b].bus_minus < 0)
    return no_place("box", place);
  return b;
}

Result<int> output_at(const Site& s, std::string_view place) {
  for (std::size_t b = 0; b < s.w.boxes.size(); ++b)
    if (!place.empty() && run_of(s, static_cast<int>(b)) == place) return static_cast<int>(b);
  return no_place("output run", place);
}

Result<Spot> spot_at(const Site& s, std::string_view place) {
  const auto dot = place.rfind('.');
  const auto number = dot == std::string_view::npos ? std::nullopt : whole(place.substr(dot + 1));
  if (!number) return no_place("place STRING.MODULE", place);
  const auto string = string_at(s, place.substr(0, dot));
  if (!string) return string.failure();
  const int modules = static_cast<int>(s.w.strings[*string].modules.size());
  if (*number < 0 || *number > modules)
    return Failure{"events.no-place", text::quoted(place) + ": string " + s.w.strings[*string].id +
                                          " has modules 1 to " + std::to_string(modules) +
                                          " from its minus end; 0 is that end itself"};
  return Spot{*string, *number};
}

std::string spot_words(const Site& s, Spot spot) {
  const auto& string = s.w.strings[spot.string];
  if (spot.module == 0) return "the minus end of " + string.id;
  if (spot.module == static_cast<int>(string.modules.size())) return "the plus end of " + string.id;
  return string.id + " after module " + std::to_string(spot.module);
}

std::string spot_text(const Site& s, Spot spot) {
  return s.w.strings[spot.string].id + "." + std::to_string(spot.module);
}

int node_at(const Site& s, const circuit::Built& b, Spot spot) {
  const auto& modules = s.w.strings[spot.string].modules;
  const auto& d = s.w.devices[modules[std::max(spot.module - 1, 0)]];
  return b.node[spot.module == 0 ? d.terminals.front() : d.terminals.back()];
}

Landing landing_of(const Site& s, int string) {
  const auto& x = s.w.strings[string];
  return {s.w.conductors[x.plus_path.back()].to, s.w.conductors[x.minus_path.back()].to};
}

}  // namespace stringwright::events
