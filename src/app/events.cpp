#include "app/events.hpp"

#include "app/circuit_of.hpp"
#include "base/text.hpp"
#include "check/ampacity.hpp"
#include "circuit/curve.hpp"
#include "events/netlist.hpp"
#include "events/paths.hpp"
#include "sheets/event.hpp"
#include "sheets/write/write.hpp"

namespace stringwright::app {

namespace {

Failure not_solvable(const std::vector<std::string>& remarks) {
  return {"app.not-solvable",
          "the circuit of this job can't be solved: " +
              (remarks.empty() ? "it has no strings, or no input" : remarks.front())};
}

/// The family of devices that an edition lists.
codebook::Convention convention_of(const Evaluation& e,
                                   std::optional<codebook::Convention> asked = {}) {
  const std::string edition = e.wiring.job.job.edition.value_or("");
  return asked.value_or(text::starts_with(edition, "iec") ? codebook::Convention::gpv
                                                          : codebook::Convention::us);
}

}  // namespace

Result<EventsReply> events(const Evaluation& e, const EventsOptions& options) {
  EventsReply reply;
  const auto edition = codebook::Edition::open(e.wiring.job.job.edition.value_or(""));
  if (!edition) return edition.failure();
  const auto circuit = circuit_of(e.wiring, *edition, reply.remarks);
  if (!circuit.solvable) return not_solvable(reply.remarks);
  const events::Site site(e.wiring, circuit.models, circuit.resistances,
                          convention_of(e, options.convention));
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
  reply.remarks.insert(reply.remarks.end(), reply.table.remarks.begin(), reply.table.remarks.end());
  return reply;
}

Result<std::string> event_svg(const Evaluation& e, const EventsOptions& options) {
  if (const auto trouble = sheets::write::font_trouble(); !trouble.empty())
    return Failure{"sheets.no-font", trouble};
  const auto edition = codebook::Edition::open(e.wiring.job.job.edition.value_or(""));
  if (!edition) return edition.failure();
  std::vector<std::string> remarks;
  const auto circuit = circuit_of(e.wiring, *edition, remarks);
  if (!circuit.solvable) return not_solvable(remarks);
  const events::Site site(e.wiring, circuit.models, circuit.resistances,
                          convention_of(e, options.convention));
  const auto event = events::find_event(site, options.event);
  if (!event) return event.failure();
  events::Trials trials(site);
  events::TableOptions table;
  table.ampacity = check::conductor_ampacities(e.wiring, *edition);
  const auto row = events::row(trials, *event, events::skies(site, table), table);
  if (row.failure) return *row.failure;
  const auto paths = events::paths(trials, *event, {units::watts_per_square_metre(1000), site.hot});
  if (!paths) return paths.failure();
  return sheets::write::svg(sheets::event_page(site, row, *paths));
}

Result<std::string> curves_svg(const Evaluation& e) {
  if (const auto trouble = sheets::write::font_trouble(); !trouble.empty())
    return Failure{"sheets.no-font", trouble};
  const auto edition = codebook::Edition::open(e.wiring.job.job.edition.value_or(""));
  if (!edition) return edition.failure();
  std::vector<std::string> remarks;
  const auto circuit = circuit_of(e.wiring, *edition, remarks);
  if (!circuit.solvable) return not_solvable(remarks);
  const events::Site site(e.wiring, circuit.models, circuit.resistances);
  circuit::State state;
  const auto curve = circuit::iv_curve(e.wiring, circuit.models, circuit.resistances, state, 0);
  if (!curve) return curve.failure();
  std::vector<std::string> kinds;
  std::vector<int> strings;
  for (const auto& like : site.likes) {
    if (site.input_of_string(like.first) != 0) continue;
    strings.push_back(like.first);
    kinds.push_back(like.strings.size() == 1 ? e.wiring.strings[like.first].id
                                             : "each of " + std::to_string(like.strings.size()));
  }
  std::vector<sheets::CurveMark> marks;
  for (const auto& [label, port] : {std::pair{"short circuit", circuit::Port::short_circuit()},
                                    std::pair{"maximum power", circuit::Port::maximum_power()},
                                    std::pair{"open circuit", circuit::Port::open()}}) {
    state.port = port;
    const auto point =
        circuit::operating_point(e.wiring, circuit.models, circuit.resistances, state);
    if (point && point->inputs[0].v)
      marks.push_back({label, *point->inputs[0].v, point->inputs[0].i});
  }
  return sheets::write::svg(sheets::curve_page(
      e.wiring, *curve, kinds, strings, marks, "Current over voltage at " + e.wiring.inputs[0].id,
      e.wiring.job.job.name.value_or("") + " · 1000 W/m², cells 25 °C"));
}

Result<std::string> netlist(const Evaluation& e, const NetlistOptions& options) {
  const auto edition = codebook::Edition::open(e.wiring.job.job.edition.value_or(""));
  if (!edition) return edition.failure();
  std::vector<std::string> remarks;
  const auto circuit = circuit_of(e.wiring, *edition, remarks);
  if (!circuit.solvable) return not_solvable(remarks);
  const events::Site site(e.wiring, circuit.models, circuit.resistances);
  events::Trials trials(site);
  const events::Sky sky{options.sun, options.cell.value_or(site.hot)};
  if (options.event.empty()) return events::netlist(trials, nullptr, sky);
  const auto event = events::find_event(site, options.event);
  if (!event) return event.failure();
  return events::netlist(trials, &*event, sky);
}

}  // namespace stringwright::app
