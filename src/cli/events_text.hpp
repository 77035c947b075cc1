#pragma once

#include "app/events.hpp"
#include "cli/cli.hpp"

namespace stringwright::cli {

/// The event table for a terminal of 100 columns, worst first.
void print_events(const app::Evaluation& e, const app::EventsReply& reply, const Out& out);

/// One event in full: amps under every sky, what has to bear them, the state after each opening, and every
/// terminal with what a hand finds there.
void print_event_details(const events::Table& t, const events::Row& r, const Out& out);

}  // namespace stringwright::cli
