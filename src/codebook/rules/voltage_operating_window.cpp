#include "codebook/methods/drop.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) { return f.subject == Subject::input; }

bool has_battery(const Facts& f) { return f.battery.known() && *f.battery; }

/// What the input needs to work: its own lower limit, and above a battery's highest charge voltage what
/// the controller needs to start.
struct Need {
  Traced<units::Voltage> v;
  bool common_practice = false;  ///< the margin above the battery is not the maker's
};

Need needed_voltage(const Facts& f, const Edition& edition, Trail& trail) {
  Need need;
  const bool battery = has_battery(f);
  if (!battery && f.battery.known()) {
    need.v = f.v_operating_min.known() || !f.v_start.known()
                 ? trail.given("V_min", "window's lower end", f.v_operating_min)
                 : trail.given("V_start", "start voltage", f.v_start);
    return need;
  }
  if (!f.battery.known()) {
    const auto v_min = trail.given("V_min", "window's lower end", f.v_operating_min);
    need.v = v_min;
    need.v.value.reset();
    need.v.missing = {"whether a battery stands behind"};
    return need;
  }
  const auto v_bat = trail.given("V_bat", "battery maximum", f.v_battery_max);
  need.common_practice = !f.v_start.known();
  const auto start = f.v_start.known()
                         ? trail.given("V_start", "start margin", f.v_start)
                         : use(trail, "V_start", "start margin",
                               edition.limit<units::dim::voltage>("battery.start-margin"));
  if (!f.v_operating_min.known()) {
    need.v = trail.let("V_need", "needed to charge", v_bat + start);
    return need;
  }
  const auto v_min = trail.given("V_min", "window's lower end", f.v_operating_min);
  need.v = trail.let("V_need", "needed to charge", greater(v_bat + start, v_min));
  return need;
}

/// At the hottest cells the string's voltage at maximum power still reaches what the input needs to work.
///
///     V_hot ≥ V_need,    V_need = V_bat + V_start  (battery),    V_min  (none)
///
/// Without a battery V_start is the voltage at which the input starts: falling short of it in the heat,
/// inside the window, is a caution. The margin above a battery is common practice where the maker's is not known: a string that clears
/// the battery and not the margin is then a caution. Where length and wire are known the voltage drop is
/// taken off first.
///
/// Source: NFPA 70, 110.3(B); maker's data; common practice. Proved: cases/rules/voltage_operating_window.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  auto v_hot = hot_voltage(f, trail);
  const bool with_drop = f.wire.known() && f.length.known() && f.i_mp_total.known();
  if (with_drop)
    v_hot = trail.let("V_end", "at the input", v_hot - voltage_drop(f, edition, trail));
  const auto need = needed_voltage(f, edition, trail);
  Outcome outcome = demand_at_least(trail, v_hot, need.v, edition.cite("operating.window"));
  if (outcome.verdict == Verdict::fail && need.common_practice && f.v_battery_max.known() &&
      units::at_least(*v_hot.value, *f.v_battery_max) &&
      (!f.v_operating_min.known() || units::at_least(*v_hot.value, *f.v_operating_min))) {
    outcome.verdict = Verdict::caution;
    outcome.also.push_back("It clears the battery's " + words::plain(*f.v_battery_max) +
                           ", not the margin of common practice.");
  }
  const bool starts_alone = f.battery.known() && !*f.battery && f.v_start.known();
  if (outcome.verdict == Verdict::pass && starts_alone &&
      !units::at_least(*v_hot.value, *f.v_start)) {
    outcome.verdict = Verdict::caution;
    outcome.also.push_back("Below the start voltage of " + words::plain(*f.v_start) +
                           ": once stopped in the heat it may not start again before it cools.");
  }
  if (need.common_practice)
    outcome.also.push_back(
        "What the controller needs above the battery is not known: common practice stands in.");
  outcome.also.push_back(with_drop ? "The voltage drop is taken off."
                                   : "The voltage drop is not included.");
  if (v_hot.value && need.v.value)
    outcome.margin = trail::Margin{*need.v.value,
                                   words::plain(*need.v.value) + " needed",
                                   false,
                                   {{*v_hot.value, words::plain(*v_hot.value) + " with hot cells",
                                     trail::Margin::Mark::chosen}}};
  return outcome;
}

}  // namespace

extern const Rule voltage_operating_window{
    .id = "voltage.operating-window",
    .title = "Hot voltage at the equipment input",
    .aliases = "V7",
    .asks =
        "With the hottest cells, does the string still reach the voltage that the input needs to "
        "work or to charge its battery?",
    .applies = applies,
    .check = check,
    .cites = "operating.window operating.margin",
    .family = Asked::both};

}  // namespace stringwright::codebook
