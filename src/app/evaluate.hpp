#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.hpp"
#include "check/finding.hpp"
#include "design/fill.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::app {

/// Volts, amps and watts of one thing under one sky and one load; empty where the solver gives none.
struct OperatingPoint {
  std::string thing;  ///< "CC1.PV1"
  std::string load;   ///< "open circuit", "short circuit", "maximum power"
  units::Temperature cell;
  units::Irradiance sun;
  std::optional<units::Voltage> v;
  std::optional<units::Current> i;
  std::optional<units::Power> p;
  std::optional<units::Power> lost;  ///< in the conductors between modules and input
};

/// Everything that follows from one job text. Pure: same text, same bytes.
struct Evaluation {
  std::string file, text;
  std::string named_edition;  ///< what the job itself names, whatever it was judged by
  Diagnostics diagnostics;    ///< mistakes and questions, in the order of the file
  bool usable = false;        ///< no mistake: what follows is filled
  wiring::Wiring wiring;
  check::Report report;
  std::vector<design::Choice> choices;
  std::vector<OperatingPoint> operating;
  std::vector<std::string> remarks;  ///< what could not be computed, and why; one sentence each
};

/// Read, fill, wire, solve and judge a job.
/// @param file     name for messages only; nothing is opened
/// @param edition  judge by this one instead of the job's own; empty: the job's own
/// @param library  parts and modules that the job may refer to besides its own
Evaluation evaluate(std::string_view text, std::string_view file, std::string_view edition = {},
                    const parts::Library& library = {});

}  // namespace stringwright::app
