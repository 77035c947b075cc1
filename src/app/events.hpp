#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/evaluate.hpp"
#include "base/result.hpp"
#include "events/table.hpp"

namespace stringwright::app {

struct EventsOptions {
  std::string event;  ///< "" = the whole catalogue; else the id of one event
  std::optional<codebook::Convention> convention;  ///< left out: the one of the job's edition
};

/// What every fault and mistake does to every device of a job.
struct EventsReply {
  events::Table table;
  std::vector<std::string> remarks;
};

/// Needs a usable evaluation. Failures: events.no-such-event, events.no-place, app.not-solvable.
Result<EventsReply> events(const Evaluation& e, const EventsOptions& options = {});

/// One event as a drawing of its current paths, SVG; under 1000 W/m² and the hottest cells.
Result<std::string> event_svg(const Evaluation& e, const EventsOptions& options);
/// Current over voltage of every input, each kind of string and all together, SVG; the first input's.
Result<std::string> curves_svg(const Evaluation& e);

struct NetlistOptions {
  std::string event;  ///< "" = the job as designed, the equipment working
  units::Irradiance sun = units::watts_per_square_metre(1000);
  std::optional<units::Temperature> cell;  ///< left out: the hottest
};

/// The same network as a netlist for a general circuit simulator.
Result<std::string> netlist(const Evaluation& e, const NetlistOptions& options = {});

}  // namespace stringwright::app
