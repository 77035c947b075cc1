#include "codebook/methods/demands.hpp"
#include "codebook/methods/disconnects.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::disconnect && f.disconnect.of == "system";
}

/// Source: NFPA 70, 690.13 (2014: 690.13, 690.17). Proved: cases/rules/disconnect_system.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto source = edition.cite("disconnect.system");
  const auto must = must_open(f, edition);
  if (!f.disconnect.given.known() || !*f.disconnect.given) {
    Outcome o = cannot_tell("cannot tell: the disconnect of the PV system is not described.");
    o.also.push_back(
        "It has to part the PV system from all other wiring: reached by anyone, locked open, "
        "broken "
        "under load, at most six handles, opening " +
        (must ? conductors(*must) : "every conductor that is not solidly grounded") +
        ". Say it as system_disconnect of the equipment.");
    return o;
  }
  Demands demands(trail);
  demands.one_of(f.place.access, {"anyone", "qualified"},
                 {"it is reached without a ladder", "it is not readily reached", "who reaches it"},
                 source);
  demands.ask(f.disconnect.lockable,
              {"it can be locked open", "it can't be locked open", "whether it can be locked open"},
              source);
  demands.ask(breaks_load(f),
              {"it breaks load", "it does not break load", "whether it breaks load"}, source);
  const std::string want = must ? conductors(*must) : "every conductor it must";
  demands.ask(opens_enough(f, edition),
              {"it opens " + (f.disconnect.opens.known() ? conductors(*f.disconnect.opens) : want),
               "it opens " + (f.disconnect.opens.known() ? conductors(*f.disconnect.opens) : want) +
                   " and has to open " + want + " at one stroke",
               "whether it opens " + want + " at one stroke"},
              source);
  const auto n = trail.given("n_h", "number of handles", f.disconnect.handles);
  const auto most = use(trail, "n_most", "most handles", edition.factor("disconnect.handles"));
  const auto few = trail.require(n <= most, source);
  demands.ask(
      few, {"six handles at most", "it takes more than six handles", "how many handles it takes"},
      source);
  return demands.outcome(
      "Say it in the record of the disconnect; what can be locked stands in the part's data "
      "sheet.");
}

}  // namespace

extern const Rule disconnect_system{
    .id = "disconnect.system",
    .title = "Disconnect of the PV system",
    .aliases = "D1",
    .asks =
        "Can the whole PV system be parted from all other wiring by at most six handles that "
        "anyone reaches, lock open, break load and open every conductor that is not solidly "
        "grounded?",
    .applies = applies,
    .check = check,
    .cites = "disconnect.system"};

}  // namespace stringwright::codebook
