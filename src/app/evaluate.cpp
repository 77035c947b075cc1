#include "app/evaluate.hpp"

#include <set>
#include <utility>

#include "app/judge.hpp"
#include "app/operating.hpp"
#include "base/text.hpp"
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

Evaluation evaluate(std::string_view text, std::string_view file, std::string_view by,
                    const parts::Library& library) {
  Evaluation e;
  e.file = file;
  e.text = text;
  auto reading = job::read(text, file, library);
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
  Judged judged = judge(e.wiring, *edition, e.remarks);
  e.report = std::move(judged.report);
  if (const auto idle = places_in_no_string(e.wiring.job); !idle.empty())
    e.remarks.push_back("Places of the rows that no string takes: " + text::join(idle, ", ") + ".");
  e.operating = operating_points(e.wiring, judged.circuit, e.remarks);
  e.usable = true;
  return e;
}

}  // namespace stringwright::app
