#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/result.hpp"
#include "circuit/build.hpp"
#include "events/site.hpp"

namespace stringwright::events {

struct Row;

/// equipment: something breaks; it can fail a design. work: somebody errs; it asks for a gate in the
/// order of work.
enum class Cause { equipment, work };

/// What stands at the inputs meanwhile.
enum class Load {
  idle,     ///< nothing is taken: battery full, inverter off, breaker at the input open
  working,  ///< the equipment holds the voltage at which it worked before the fault
  battery,  ///< a failed controller joins its battery to the input
  drained  ///< nothing stands at the input but an empty capacitor, or equipment that shorts it: 0 V
};

/// One fault at one place. `id` is kind@place.
struct Event {
  std::string id, kind, place;
  std::string title;  ///< "S1 shorted where it lands"
  Cause cause = Cause::equipment;
  Load load = Load::idle;
  std::string gate;  ///< work error: the reading that finds it before anything is closed on it
  std::vector<std::string> like;  ///< places at which the same happens, this one included
};

/// What a kind did to a network.
struct Applied {
  int fault = -1;  ///< element that carries the fault current; -1: none of its own
  int gap_plus = -1,
      gap_minus = -1;          ///< nodes on the two sides of what it left open; -1: nothing open
  units::Resistance hot_spot;  ///< in which the fault current makes heat; 0: in nothing
};

/// A place as a kind sees it, with everything alike.
struct Place {
  std::string place;
  std::vector<std::string> like;
};

/// One kind of fault, one file each in kinds/; listed in kinds/all.cpp.
struct Kind {
  std::string_view id;     ///< "short-string"
  std::string_view title;  ///< "Short across a string"
  Cause cause = Cause::equipment;
  Load load = Load::idle;
  /// Where it is asked for by itself: one place for all that are alike.
  std::vector<Place> (*places)(const Site&);
  /// What happens, in words; a failure where there is no such place.
  Result<std::string> (*says)(const Site&, std::string_view place);
  /// Alters a built network. Only for places that `says` accepts.
  Result<Applied> (*apply)(const Site&, std::string_view place, circuit::Built&);
  /// It is about a current too large, so that "nothing trips" says something.
  bool overcurrent = true;
  bool to_ground = false;      ///< the ground-fault device is asked about it
  bool bond_open = false;      ///< the ground-fault device has already opened the bond
  std::string_view gate = {};  ///< of a work error: see Event
  /// What a kind says of itself beside what the devices say: verdict, danger, notes. May be left out.
  void (*tell)(const Site&, Row&) = nullptr;
};

const std::vector<const Kind*>& all_kinds();
const Kind* find_kind(std::string_view id);

}  // namespace stringwright::events
