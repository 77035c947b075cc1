#include "codebook/methods/demands.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::connector; }

/// Source: NFPA 70, 690.33(A), (B). Proved: cases/rules/connector_form.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (f.connector.described.known() && !*f.connector.described) {
    const std::string name = f.connector.family.value.value_or(f.thing);
    Outcome o = cannot_tell("cannot tell: nothing is known of connector family " + name + ".");
    o.also.push_back(
        "Its form, lock, ratings and marks stand in its data sheet: say them as "
        "[connector." +
        name + "]. Until then its other findings are missing.");
    return o;
  }
  Demands demands(trail);
  demands.ask(f.connector.polarised,
              {"it mates one way only, and with no other plug on the site",
               "it mates the wrong way round, or with other plugs on the site",
               "whether it mates one way only"},
              edition.cite("connector.form"));
  demands.ask(f.connector.covered,
              {"no finger reaches live metal", "fingers reach live metal",
               "whether fingers reach live metal"},
              edition.cite("connector.form"));
  return demands.outcome("Its data sheet says so.");
}

}  // namespace

extern const Rule connector_form{
    .id = "connector.form",
    .title = "Form of connectors",
    .aliases = "C1",
    .asks =
        "Can the connectors be mated neither the wrong way round nor with others on the site, and "
        "does no finger reach live metal?",
    .applies = applies,
    .check = check,
    .cites = "connector.form",
    .family = Asked::both};

}  // namespace stringwright::codebook
