#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "codebook/edition.hpp"
#include "trail/outcome.hpp"
#include "trail/trail.hpp"
#include "units/print.hpp"

/// Sentences of findings, and the steps that every rule writes in the same way.
namespace stringwright::codebook {

using trail::Outcome;
using trail::Traced;
using trail::Trail;
using trail::Verdict;

namespace words {

/// A quantity as a sentence has it: default decimals without trailing zeros ("150 V", "35.47 A").
std::string plain(const units::AnyQuantity& q);
/// "a, b and c".
std::string list(const std::vector<std::string>& all);
/// "cannot tell: lowest ambient and input limit are not known." for symbols that stand in the trail as
/// not known. A table without such a cell says why.
std::string unknown(const Trail& trail, const std::vector<std::string>& symbols);
/// "14.19 A ≤ 20 A", "25 A > 20 A".
std::string compared(const units::AnyQuantity& x, const units::AnyQuantity& limit);
/// "141.9 V ≤ 150 V: passes with 8.1 V to spare (5.4 % of 150 V)."
std::string at_most(const units::AnyQuantity& x, const units::AnyQuantity& limit);
/// "35 A < 35.47 A: fails by 0.47 A (1.3 % of 35.47 A)."
std::string at_least(const units::AnyQuantity& x, const units::AnyQuantity& limit);

}  // namespace words

Outcome cannot_tell(std::string why);
Outcome not_applicable(std::string why);
/// A demand on workmanship that nothing in the job can show: `demand` says what to look at, with the
/// numbers of this job.
Outcome on_site(std::string demand);

/// A factor of the code as a step of the trail.
template <class Q>
Traced<Q> use(Trail& trail, const std::string& symbol, std::string plain_name,
              const Looked<Q>& looked) {
  return trail.factor(symbol, std::move(plain_name), looked.value, looked.source);
}

/// A value of a table as a step of the trail; where the table has none, the step says why.
template <class Q>
Traced<Q> read_table(Trail& trail, const std::string& symbol, std::string plain_name,
                     const Looked<Q>& looked) {
  return trail.table(symbol, std::move(plain_name), looked.value,
                     looked.value ? looked.where : looked.why, looked.source);
}

/// A value that can't be looked up because facts are missing: travels along with their symbols.
template <class Q>
Traced<Q> not_known(std::string symbol, std::vector<std::string> missing) {
  Traced<Q> t;
  t.formula = std::move(symbol);
  t.numbers = "?";
  t.missing = std::move(missing);
  return t;
}

/// The last step of most rules: the demand, its verdict and the sentence with the margin.
template <units::Dimension D>
Outcome demand_at_most(Trail& trail, const Traced<units::Quantity<D>>& x,
                       const Traced<units::Quantity<D>>& limit, trail::Source source) {
  const auto claim = x <= limit;
  const auto holds = trail.require(claim, std::move(source));
  if (!holds) return cannot_tell(words::unknown(trail, claim.missing));
  return {trail::verdict_of(holds), words::at_most(*x.value, *limit.value), {}, {}};
}
template <units::Dimension D>
Outcome demand_at_least(Trail& trail, const Traced<units::Quantity<D>>& x,
                        const Traced<units::Quantity<D>>& limit, trail::Source source) {
  const auto claim = x >= limit;
  const auto holds = trail.require(claim, std::move(source));
  if (!holds) return cannot_tell(words::unknown(trail, claim.missing));
  return {trail::verdict_of(holds), words::at_least(*x.value, *limit.value), {}, {}};
}

}  // namespace stringwright::codebook
