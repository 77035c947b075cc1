#include "app/events.hpp"

#include "app/circuit_of.hpp"
#include "check/ampacity.hpp"

namespace stringwright::app {

Result<EventsReply> events(const Evaluation& e, const EventsOptions& options) {
  EventsReply reply;
  const auto edition = codebook::Edition::open(e.wiring.job.job.edition.value_or(""));
  if (!edition) return edition.failure();
  const auto circuit = circuit_of(e.wiring, *edition, reply.remarks);
  if (!circuit.solvable) {
    const std::string why = reply.remarks.empty() ? "it has no strings, or no input" : reply.remarks.front();
    return Failure{"app.not-solvable", "the circuit of this job can't be solved: " + why};
  }
  const events::Site site(e.wiring, circuit.models, circuit.resistances, options.convention);
  std::vector<events::Event> asked;
  if (options.event.empty()) {
    asked = events::catalogue(site);
  } else {
    auto one = events::find_event(site, options.event);
    if (!one) return one.failure();
    asked.push_back(std::move(*one));
  }
  events::TableOptions table;
  table.ampacity = check::conductor_ampacities(e.wiring, *edition);
  reply.table = events::table(site, asked, table);
  return reply;
}

}  // namespace stringwright::app
