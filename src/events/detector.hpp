#pragma once

#include <optional>
#include <string>

#include "events/series.hpp"

namespace stringwright::events {

/// What the ground-fault device makes of an event.
enum class Seen {
  seen,      ///< it reacts at 1000 W/m², whatever its own resistance is
  at_start,  ///< a measurement of the insulation finds it before the next start, not before
  blind,     ///< it does not react: the fault stays until a second one makes it a fire
  unsure     ///< a fact is missing, or the current lies where it may react and need not
};

struct DetectorSees {
  job::GroundFaultBy by = job::GroundFaultBy::fuse;
  bool ends = false;  ///< it is in the bond and opens it
  Seen seen = Seen::unsure;
  std::optional<units::Current> trip;
  units::Current least,
      most;  ///< what it sees at 1000 W/m²; they differ where its resistance is not known
  std::optional<units::Irradiance> above;  ///< light from which on it reacts for sure
  std::string why;                         ///< of unsure and blind, a part sentence
};

/// A fuse or breaker sees the current over the bond, a residual sensor what does not come back by the other pole. A fuse
/// of unknown resistance is asked twice: as an ideal joint, and with the most that a fuse can have without
/// giving off more than 10 W at its own rating.
///
/// @param thorough  false: without the light from which on it reacts
/// None where the job names no device, or the event could not be solved.
std::optional<DetectorSees> detector_sees(Trials& trials, const Event& e, bool thorough);

/// "fuse", "residual-current", ...: as the job file says it.
std::string name_of(job::GroundFaultBy by);

/// "ground-fault fuse of 1 A", "residual-current sensor of 0.3 A", "insulation measurement".
std::string detector_words(const job::GroundFault& d);

}  // namespace stringwright::events
