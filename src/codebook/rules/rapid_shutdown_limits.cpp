#include "codebook/methods/shutdown.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::array; }

/// What was found of several demands: the worst decides, each has a sentence.
struct Demands {
  std::vector<std::string> wrong, open, good;

  /// `fact` is not above the limit of that id; `what` begins the sentence.
  template <units::Dimension D>
  void at_most(Trail& trail, const char* symbol, const char* limit_symbol, const std::string& what,
               const std::string& key, const Fact<units::Quantity<D>>& fact,
               const Looked<units::Quantity<D>>& limit) {
    const auto x = trail.given(symbol, what, fact);
    const auto most = use(trail, limit_symbol, "limit", limit);
    const auto holds = trail.require(x <= most, limit.source);
    if (!holds) {
      open.push_back(what + " (" + key + "), at most " + words::plain(*limit.value));
      return;
    }
    (*holds ? good : wrong).push_back(what + " " + words::compared(*fact.value, *limit.value));
  }
};

template <units::Dimension D>
Looked<units::Quantity<D>> limit_of(const Edition& edition, const char* id) {
  return edition.limit<D>(id);
}

/// Conductors that leave the array: how far they may stay live, and what may be left on them.
void leaving(const Facts& f, const Edition& edition, Trail& trail, Demands& d) {
  const auto& s = f.shutdown;
  const bool roof = f.grounding.place.known() && *f.grounding.place == "roof";
  const auto from_array = limit_of<units::dim::length>(edition, "shutdown.from-array");
  const auto in_building = limit_of<units::dim::length>(edition, "shutdown.in-building");
  if (roof)
    d.at_most(trail, "d_arr", "d_arrl", "distance of what shuts down from the array",
              "rapid_shutdown.from_array", s.from_array, from_array);
  // On a roof no more can be live inside than lies between array and shutdown.
  const bool settled =
      roof && s.from_array.known() && units::at_most(*s.from_array.value, *in_building.value);
  if (!settled)
    d.at_most(trail, "d_in", "d_inl", "length that stays live inside the building",
              "rapid_shutdown.in_building", s.in_building, in_building);
  d.at_most(trail, "V_left", "V_leftl", "voltage left outside the array",
            "rapid_shutdown.volts_outside", s.volts_outside,
            limit_of<units::dim::voltage>(edition, "shutdown.volts-outside"));
  d.at_most(trail, "t_left", "t_leftl", "time until it is down", "rapid_shutdown.seconds",
            s.seconds, limit_of<units::dim::time>(edition, "shutdown.seconds"));
  if (edition.year() < 2017)
    d.at_most(trail, "S_left", "S_leftl", "power left outside the array",
              "rapid_shutdown.volt_amps", s.volt_amps,
              limit_of<units::dim::power>(edition, "shutdown.volt-amps"));
}

/// Within the array, from 2017 on: a listed system, or volts, or (2017, 2020) no metal and nothing in reach.
void within(const Facts& f, const Edition& edition, Trail& trail, Demands& d) {
  const auto& s = f.shutdown;
  trail.note("Within the array: a listed system, or a limit of volts.",
             edition.cite("shutdown.array"));
  if (!s.inside.known()) {
    d.open.push_back("how the array itself is made safe (rapid_shutdown.array)");
  } else if (*s.inside == "none") {
    d.wrong.push_back("nothing makes the array itself safe");
  } else if (*s.inside == "listed") {
    d.good.push_back("the array is a listed system");
  } else if (*s.inside == "volts") {
    d.at_most(trail, "V_arr", "V_arrl", "voltage left within the array",
              "rapid_shutdown.volts_inside", s.volts_inside,
              limit_of<units::dim::voltage>(edition, "shutdown.volts-inside"));
  } else if (edition.year() < 2023) {
    d.good.push_back("no metal and no wiring within reach of the array");
  } else {
    d.open.push_back(
        "whether this edition still has the way without metal: nobody here has seen "
        "its text; a listed system or the limit of volts holds in every edition");
  }
}

/// What the fire service needs: outside the array, and inside it, little voltage soon after the switch.
///
/// Source: NFPA 70, 690.12. Numbers by edition in data/codebook/factors.csv (shutdown.*).
/// Proved: cases/rules/rapid_shutdown_limits.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const Answer asks = asks_rapid_shutdown(f, edition);
  const auto source = edition.cite("shutdown.needed");
  if (!asks.holds)
    return cannot_tell("cannot tell: whether rapid shutdown is asked depends on " + asks.why + ".");
  if (!*asks.holds) {
    trail.note("Not asked: " + asks.why + ".", source);
    return not_applicable("Not asked: " + asks.why + ".");
  }
  trail.note("Asked, since " + asks.why + ".", source);
  const auto& s = f.shutdown;
  if (s.fitted.known() && !*s.fitted)
    return {Verdict::fail,
            "Rapid shutdown is asked, since " + asks.why + ", and not fitted: fails.",
            {},
            {}};
  const bool nothing_said = !s.fitted.known() && !s.inside.known() && !s.from_array.known() &&
                            !s.volts_outside.known() && !s.switch_is.known();
  if (nothing_said)
    return cannot_tell("cannot tell: rapid shutdown is asked, since " + asks.why +
                       ", and the job says nothing of it. Say in [rapid_shutdown] what is fitted, "
                       "where, and what it leaves; or fitted = false.");
  Demands d;
  leaving(f, edition, trail, d);
  const bool roof = f.grounding.place.known() && *f.grounding.place == "roof";
  if (edition.year() >= 2017 && roof) within(f, edition, trail, d);
  if (!d.wrong.empty()) {
    Outcome o{Verdict::fail, "", {}, {}};
    o.so = "Asked, since " + asks.why + "; " + words::list(d.wrong) + ": fails.";
    if (!d.open.empty()) o.also.push_back("Not known either: " + words::list(d.open) + ".");
    return o;
  }
  if (!d.open.empty())
    return cannot_tell("cannot tell: rapid shutdown is asked, since " + asks.why +
                       "; not known is " + words::list(d.open) + ".");
  return {
      Verdict::pass,
      "Asked, since " + asks.why + ", and met: passes.",
      {"Prove it in sunlight, with the equipment connected: its capacitors hold the voltage up."},
      {}};
}

}  // namespace

extern const Rule rapid_shutdown_limits{
    .id = "rapid-shutdown.limits",
    .title = "Rapid shutdown",
    .aliases = "G11 G12 G13 M11",
    .asks =
        "Where the edition asks for rapid shutdown, do conductors outside the array and within "
        "it fall to its limits in time?",
    .applies = applies,
    .check = check,
    .cites = "shutdown.needed shutdown.outside shutdown.array"};

}  // namespace stringwright::codebook
