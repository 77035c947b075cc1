#include "app/evaluate.hpp"

#include <set>
#include <utility>

#include "app/circuit_of.hpp"
#include "app/operating.hpp"
#include "base/text.hpp"
#include "check/ampacity.hpp"
#include "check/check.hpp"
#include "job/read.hpp"

namespace stringwright::app {
namespace {

/// Modules that stand on the rack and in no string: a crew would mount them and nothing would be joined.
std::vector<std::string> places_in_no_string(const job::Job& j) {
  std::set<std::pair<std::string, int>> taken;
  for (const auto& s : j.string)
    for (const auto& place : s.walk.value_or({})) taken.insert({place.row, place.number});
  std::vector<std::string> idle;
  for (const auto& row : j.row)
    for (int n = 1; n <= row.count.value_or(0); ++n)
      if (!taken.count({row.id, n})) idle.push_back(row.id + "." + std::to_string(n));
  constexpr std::size_t most = 12;
  if (idle.size() > most) {
    const std::size_t more = idle.size() - most;
    idle.resize(most);
    idle.push_back("and " + std::to_string(more) + " more");
  }
  return idle;
}

}  // namespace

Evaluation evaluate(std::string_view text, std::string_view file, std::string_view by) {
  Evaluation e;
  e.file = file;
  e.text = text;
  auto reading = job::read(text, file);
  e.diagnostics = std::move(reading.diagnostics);
  if (!reading.job) return e;
  e.named_edition = reading.job->job.edition.value_or("");
  if (!by.empty()) reading.job->job.edition.value = std::string(by);
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
    const events::Site site(e.wiring, circuit.models, circuit.resistances,
                            edition->family() == codebook::Family::iec ? codebook::Convention::gpv
                                                                       : codebook::Convention::us);
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
    if (!e.wiring.strings.empty())
      e.report.findings.push_back(check::not_solved(text::join(e.remarks, " ")));
  }
  if (const auto idle = places_in_no_string(e.wiring.job); !idle.empty())
    e.remarks.push_back("Places of the rows that no string takes: " + text::join(idle, ", ") + ".");
  e.operating = operating_points(e.wiring, circuit, e.remarks);
  e.usable = true;
  return e;
}

}  // namespace stringwright::app
