#include "app/evaluate.hpp"

#include "app/circuit_of.hpp"
#include "app/operating.hpp"
#include "check/ampacity.hpp"
#include "check/check.hpp"
#include "job/read.hpp"

namespace stringwright::app {

Evaluation evaluate(std::string_view text, std::string_view file) {
  Evaluation e;
  e.file = file;
  e.text = text;
  auto reading = job::read(text, file);
  e.diagnostics = std::move(reading.diagnostics);
  if (!reading.job) return e;
  const auto edition = codebook::Edition::open(reading.job->job.edition.value_or(""));
  if (!edition) {
    Diagnostic d;
    d.id = edition.failure().id;
    d.message = edition.failure().message;
    d.file = file;
    d.span = reading.job->job.edition.span;
    e.diagnostics.push_back(std::move(d));
    return e;
  }

  auto design = design::fill(*reading.job, *edition);
  Diagnostics wiring_problems;
  e.wiring = wiring::build(design.job, wiring_problems);
  for (auto& d : wiring_problems) {
    d.file = file;
    e.diagnostics.push_back(std::move(d));
  }
  if (any_error(e.diagnostics)) return e;
  e.choices = std::move(design.choices);
  const Circuit circuit = circuit_of(e.wiring, *edition, e.remarks);
  if (circuit.solvable) {
    const events::Site site(e.wiring, circuit.models, circuit.resistances);
    events::TableOptions options;
    options.thorough = false;
    // Findings are about what stays for hours: the code's own factor on full sun, not the edge of a cloud.
    const auto k = edition->factor("current.irradiance-factor").value.value_or(1.25);
    options.suns = {k * units::watts_per_square_metre(1000)};
    options.ampacity = check::conductor_ampacities(e.wiring, *edition);
    const auto table = events::table(site, check::events_to_judge(site), options);
    const check::Events events{site, table};
    e.report = check::check(e.wiring, *edition, &events);
  } else {
    e.report = check::check(e.wiring, *edition);
  }
  e.operating = operating_points(e.wiring, circuit, e.remarks);
  e.usable = true;
  return e;
}

}  // namespace stringwright::app
