#include "app/evaluate.hpp"

#include "app/operating.hpp"
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
  e.report = check::check(e.wiring, *edition);
  e.operating = operating_points(e.wiring, *edition, e.remarks);
  e.usable = true;
  return e;
}

}  // namespace stringwright::app
