#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::connector && f.connector.described.known() && *f.connector.described;
}

/// Source: NFPA 70, 690.33(D) up to 2017. Proved: cases/rules/connector_grounding_pin.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (edition.factor("connector.grounding-pin-asked").value.value_or(0) == 0)
    return not_applicable("This edition no longer asks it.");
  if (f.connector.grounding_pin.known() && !*f.connector.grounding_pin)
    return not_applicable("It carries no equipment ground.");
  if (!f.connector.grounding_pin.known())
    return cannot_tell("cannot tell: whether it carries an equipment ground is not known.");
  Demands demands(trail);
  demands.ask(f.connector.pin_first,
              {"its ground makes first and breaks last", "its ground does not make first",
               "whether its ground makes first and breaks last"},
              edition.cite("connector.ground"));
  return demands.outcome("Its data sheet says so.");
}

}  // namespace

extern const Rule connector_grounding_pin{
    .id = "connector.grounding-pin",
    .title = "Grounding pin of connectors",
    .aliases = "C5",
    .asks = "Where a connector carries an equipment ground, does that make first and break last?",
    .applies = applies,
    .check = check,
    .cites = "connector.ground"};

}  // namespace stringwright::codebook
