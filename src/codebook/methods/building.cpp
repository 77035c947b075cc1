#include "codebook/methods/building.hpp"

namespace stringwright::codebook {

bool of_iec(const Edition& edition) { return edition.family() == Family::iec; }

Answer on_a_building(const Facts& f) {
  const auto& place = f.grounding.place;
  const auto& ends = f.shutdown.circuits_end;
  if (place.known() && *place == "roof") return {true, "the array stands on a roof"};
  if (f.on_building.known())
    return {*f.on_building, *f.on_building ? "circuits run on or in a building"
                                           : "nothing runs on or in a building"};
  if (ends.known() && *ends != "off-building") return {true, "circuits run on or in a building"};
  if (ends.known() && place.known()) return {false, "nothing runs on or in a building"};
  return {{}, "whether array or circuits are on or in a building (site.on_building)"};
}

Answer apart_from_buildings(const Facts& f) {
  const Answer on = on_a_building(f);
  if (on.holds && !*on.holds) return {true, on.why};
  const auto& place = f.grounding.place;
  const auto& ends = f.shutdown.circuits_end;
  if (place.known() && *place == "roof") return {false, on.why};
  if (!place.known()) return {{}, "what the array stands on (site.place)"};
  if (!ends.known())
    return {{},
            "where its circuits end: inside, on an outside wall, or in a "
            "building that houses nothing but PV equipment"};
  if (*ends == "pv-only-building") return {true, "the building houses nothing but PV equipment"};
  return {false, *ends == "outside-wall" ? "its circuits end on the wall of a building"
                                         : "its circuits go into a building"};
}

}  // namespace stringwright::codebook
