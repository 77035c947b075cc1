#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "events/event.hpp"

/// Places as kinds write and read them. Strings count their modules from the minus end; "after module k"
/// is the joint at its plus terminal, and k = 0 the string's minus end.
namespace stringwright::events {

/// One place for all strings that are alike.
std::vector<Place> each_string(const Site& s);
std::vector<Place> each_box(const Site& s);
std::vector<Place> each_output(const Site& s);

Result<int> string_at(const Site& s, std::string_view place);
Result<int> box_at(const Site& s, std::string_view place);
/// Box whose output has that run id.
Result<int> output_at(const Site& s, std::string_view place);

/// "S1.2": string and a place in it from 0 to the number of its modules.
struct Spot {
  int string = -1;
  int module = 0;
};
Result<Spot> spot_at(const Site& s, std::string_view place);
std::string spot_words(const Site& s, Spot spot);  ///< "S1 after module 2", "the minus end of S1"
/// Node of a spot.
int node_at(const Site& s, const circuit::Built& b, Spot spot);
std::string spot_text(const Site& s, Spot spot);  ///< "S1.2"

/// Terminals at which a string's home run ends, swapped or not.
struct Landing {
  int plus = -1, minus = -1;
};
Landing landing_of(const Site& s, int string);
std::string run_of(const Site& s, int box);  ///< id of the run that leaves a box, "" = none

/// Verdict of what leaves something open.
void tell_gap(Row& r);

/// The same fault while a battery feeds back through its failed controller.
template <const Kind& fault>
constexpr Kind behind_failed_controller(std::string_view id, std::string_view title) {
  Kind k = fault;
  k.id = id;
  k.title = title;
  k.load = Load::battery;
  k.places = [](const Site& s) { return s.any_battery() ? fault.places(s) : std::vector<Place>{}; };
  k.says = [](const Site& s, std::string_view place) -> Result<std::string> {
    auto words = fault.says(s, place);
    if (!words) return words.failure();
    return *words + ", and the battery feeds back through a failed controller";
  };
  return k;
}

Failure no_place(std::string_view what, std::string_view place);

}  // namespace stringwright::events
