#include "codebook/methods/shutdown.hpp"

namespace stringwright::codebook {

Answer asks_rapid_shutdown(const Facts& f, const Edition& edition) {
  const Answer on = on_a_building(f);
  if (!on.holds || !*on.holds) return on;
  const auto& place = f.grounding.place;
  const auto& ends = f.shutdown.circuits_end;
  if (edition.year() < 2017 || (place.known() && *place == "roof")) return on;
  if (!place.known()) return {{}, "what the array stands on (site.place)"};
  const bool free_standing = edition.year() >= 2023;
  if (*place == "open-structure" && free_standing)
    return {false, "the array stands on an open structure apart from buildings"};
  if (!ends.known()) return {{}, "where its circuits end (equipment.place, site.purpose_built)"};
  if (*ends == "pv-only-building")
    return {false, "its circuits enter only a building that houses nothing but PV equipment"};
  if (*ends == "outside-wall" && free_standing)
    return {false, "the array stands apart and its circuits end on an outside wall"};
  if (*ends == "off-building") return {false, "its circuits end away from buildings"};
  return {true, *ends == "outside-wall" ? "its circuits end on the wall of a building"
                                        : "its circuits go into a building"};
}

}  // namespace stringwright::codebook
