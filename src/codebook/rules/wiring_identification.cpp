#include <cmath>

#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

/// Every termination, connection and splice says its circuit and its polarity. The papers bring the tags;
/// only the eye sees whether they are on.
///
/// Source: NFPA 70, 690.31(B)(1). Proved: cases/rules/wiring_identification.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  trail.note("Circuit and polarity at every termination, connection and splice.",
             edition.cite("wiring.identified"));
  std::string demand = "Tag both ends and every splice ";
  if (f.marks.wires.known())
    demand += "of " + words::plain(*f.marks.wires) + " conductors with circuit and pole";
  else
    demand += "with circuit and pole";
  demand += " as on the schedule (S1+, S1−, ...): +, POS or POSITIVE; −, NEG or NEGATIVE.";
  Outcome outcome = on_site(demand);
  if (edition.year() >= 2017)
    outcome.also.push_back(
        "No plus mark on green, white or grey insulation; no minus mark on green, "
        "white, grey or red.");
  return outcome;
}

}  // namespace

extern const Rule wiring_identification{
    .id = "wiring.identification",
    .title = "Tags of circuits and poles",
    .aliases = "X6",
    .asks = "Does every end and splice say its circuit and its polarity?",
    .applies = applies,
    .check = check,
    .cites = "wiring.identified"};

}  // namespace stringwright::codebook
