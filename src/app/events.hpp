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
  codebook::Convention convention = codebook::Convention::us;
};

/// What every fault and mistake does to every device of a job.
struct EventsReply {
  events::Table table;
  std::vector<std::string> remarks;
};

/// Needs a usable evaluation. Failures: events.no-such-event, events.no-place, app.not-solvable.
Result<EventsReply> events(const Evaluation& e, const EventsOptions& options = {});

}  // namespace stringwright::app
