#pragma once

#include "app/events.hpp"
#include "cli/cli.hpp"

namespace stringwright::cli {

/// The event table for a terminal of 100 columns, worst first.
void print_events(const app::Evaluation& e, const app::EventsReply& reply, const Out& out);

}  // namespace stringwright::cli
