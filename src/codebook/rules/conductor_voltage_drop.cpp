#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/drop.hpp"
#include "codebook/methods/voltages.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::string_circuit || f.subject == Subject::output_circuit;
}

/// Advice: voltage drop along the conductors stays small. No rule of the code demands it of PV circuits,
/// so it never fails.
///
///     u = ΔU / V_hot ≤ 3 %,    ΔU = 2·L·r·I_mp + ΔU_0
///
/// ΔU_0   lost ahead of this circuit: an output is judged together with its worst string [V]
/// V_hot  string voltage at maximum power at the hottest design cell temperature: the lowest, so the
///        largest share [V]. The share of the STC voltage is shown beside it.
///
/// P_loss = ΔU · I_mp is lost at full sun; over a year about half of that share (no source).
///
/// Source: common practice; NFPA 70 advises 3 % of a branch circuit or feeder in notes.
/// Proved: cases/rules/conductor_voltage_drop.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  const auto own = voltage_drop(f, edition, trail);
  const bool more = f.drop_before.known();
  const auto drop =
      more ? trail.let("ΔU_sum", "with its string",
                       own + trail.given("ΔU_0", "lost ahead of it", f.drop_before, 2), {}, 2)
           : own;
  const auto hot = hot_voltage(f, trail);
  const auto stc = stc_voltage(f, trail);
  const auto share = trail.let("u", "share of V_hot", drop / hot);
  const auto share_stc = trail.let("u_stc", "share of V_stc", drop / stc);
  const auto limit =
      use(trail, "u_adv", "advice", edition.limit<units::dim::one>("conductor.drop-advice"));
  const auto claim = share <= limit;
  const auto holds =
      trail.require(claim, limit.value ? edition.cite("drop.advice") : trail::Source{});
  if (!holds) return cannot_tell(words::unknown(trail, claim.missing));

  const std::string percent = units::print_percent(*share.value);
  Outcome outcome;
  outcome.verdict = *holds ? Verdict::pass : Verdict::caution;
  outcome.so =
      (more ? units::print(*own.value, 2) + " and " + units::print(*f.drop_before, 2) +
                  " ahead of it: "
            : "") +
      units::print(*drop.value, 2) + ", " + percent + " of " + words::plain(*hot.value) + " hot (" +
      (share_stc.value
           ? units::print_percent(*share_stc.value) + " of " + words::plain(*stc.value) + " at STC"
           : "") +
      "): " + (*holds ? "within" : "above") + " the " + units::print_percent(*limit.value, 0) +
      " that is common practice.";
  const auto smallest = smallest_size_that(f, [&](const Facts& other) {
    Trail aside;
    const auto less = voltage_drop(other, edition, aside);
    const units::Voltage ahead = f.drop_before.value.value_or(units::Voltage{});
    return less.value && units::at_most((*less.value + ahead) / *hot.value, *limit.value);
  });
  if (!*holds && smallest) outcome.also.push_back(size_words(f, *smallest) + " stays within it.");
  const bool string = f.subject == Subject::string_circuit;
  const Fact<units::Current>& i = string ? f.i_mp : f.i_mp_total;
  if (own.value && i.known()) {
    const auto half = edition.factor("year.loss-share");
    const auto lost = trail.let("P_loss", "lost in it at full sun",
                                own * (string ? trail.given("I_mp", "operating current", i)
                                              : trail.given("ΣI_mp", "operating current", i)));
    outcome.also.push_back(
        "At full sun it turns " + words::plain(*lost.value) +
        " into heat; over a sunny year about " +
        units::print_percent(*half.value * (own.value.value() / *hot.value).in(units::plain)) +
        " of the energy is lost in it.");
  }
  outcome.margin =
      trail::Margin{*limit.value,
                    units::print_percent(*limit.value, 0) + " common practice",
                    true,
                    {{*share.value, percent + " of V_hot", trail::Margin::Mark::chosen}}};
  return outcome;
}

}  // namespace

extern const Rule conductor_voltage_drop{
    .id = "conductor.voltage-drop",
    .title = "Voltage drop",
    .aliases = "U1 U2 U3",
    .asks =
        "How much of the operating voltage is lost along the conductors? Advice only: above 3 % of "
        "the hot voltage it is a caution.",
    .applies = applies,
    .check = check,
    .cites = "drop.advice table.resistance year.loss",
    .family = Asked::both};

}  // namespace stringwright::codebook
