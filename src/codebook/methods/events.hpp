#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"

/// Picking the event that decides. A fault of equipment can fail a design; a mistake of people asks for a
/// gate in the order of work and is at most a caution.
namespace stringwright::codebook {

/// The events that ask most of one quantity: of equipment's faults and of people's mistakes.
template <class Q>
struct WorstEvents {
  Fact<Q> fault, mistake;  ///< `from` is "event reversed@S1"
  std::vector<std::string> not_solved;
  bool any() const { return fault.known() || mistake.known(); }
};

template <class Q>
WorstEvents<Q> worst_events(const Facts& f, Fact<Q> EventFacts::* quantity,
                            const std::function<bool(const EventFacts&)>& counts = {}) {
  WorstEvents<Q> worst;
  for (const auto& e : f.events) {
    if (!e.work_error.known()) {
      worst.not_solved.push_back(e.id);
      continue;
    }
    const Fact<Q>& q = e.*quantity;
    if (!q.known() || (counts && !counts(e))) continue;
    Fact<Q>& here = *e.work_error ? worst.mistake : worst.fault;
    if (here.known() && !(*here < *q)) continue;
    here = q;
    here.from = "event " + e.id;
    here.status = "computed";
  }
  return worst;
}

/// One demand on the fault, the same on the mistake: fail for the first, caution for the second.
///
/// @param limit_of  the limit, written down once
template <units::Dimension D>
Outcome judge_worst(Trail& trail, const WorstEvents<units::Quantity<D>>& worst,
                    const std::string& symbol, const std::string& words_of,
                    const Traced<units::Quantity<D>>& limit, const trail::Source& source,
                    const std::string& gate) {
  Outcome outcome{Verdict::pass, {}, {}, {}};
  if (worst.fault.known()) {
    outcome = demand_at_most(trail, trail.given(symbol, words_of, worst.fault), limit, source);
    if (outcome.verdict == Verdict::cannot_tell) return outcome;
    outcome.so += " Worst: " + worst.fault.from + ".";
  }
  if (worst.mistake.known()) {
    const auto mistake = demand_at_most(
        trail, trail.given(symbol + "w", words_of + " after a mistake", worst.mistake), limit,
        source);
    if (mistake.verdict == Verdict::cannot_tell) return mistake;
    const std::string said = "After a mistake, " + worst.mistake.from + ": " + mistake.so;
    if (outcome.so.empty()) {
      outcome.so = said;
    } else {
      outcome.also.push_back(said);
    }
    if (mistake.verdict == Verdict::fail) {
      outcome.also.push_back(gate);
      if (outcome.verdict == Verdict::pass) outcome.verdict = Verdict::caution;
    }
  }
  if (outcome.verdict != Verdict::fail && !worst.not_solved.empty())
    return cannot_tell("cannot tell: " + words::list(worst.not_solved) + " could not be solved.");
  return outcome;
}

}  // namespace stringwright::codebook
