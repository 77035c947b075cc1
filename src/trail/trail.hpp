#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "trail/fact.hpp"
#include "units/print.hpp"
#include "units/quantity.hpp"

namespace stringwright::trail {

/// Where a number or a rule comes from, as printed ("NFPA 70-2023, 690.8(B)(1)"), and whether anyone
/// has seen it in print: "verified", "memory", "given", "computed", "common practice, no source".
struct Source {
  std::string cite;
  std::string status;
  friend bool operator==(const Source&, const Source&) = default;
};

/// One line of a calculation. Written by the arithmetic itself, so it can't drift from it.
struct Step {
  enum class Kind { given, factor, table, let, require, note };
  Kind kind = Kind::note;
  std::string words;    ///< plain name of the quantity: "most current"; for a note, the sentence
  std::string symbol;   ///< "I_req"; empty for require and note
  std::string formula;  ///< "k · I_max", "I_z ≥ I_req"; empty for given, factor, table
  std::string
      numbers;  ///< "1.25 · 18.00 A", "30.00 A ≥ 22.50 A"; for a table: the row and column read
  std::optional<units::AnyQuantity> value;  ///< absent: not known
  std::string printed;                      ///< "22.50 A"; "not known" where absent
  std::optional<bool> holds;                ///< require only; absent: cannot tell
  Source source;
};

/// A value that remembers how it came about. `formula` and `numbers` are the text of the expression
/// with symbols and with numbers; a missing value travels along with the names of what is missing.
template <class Q>
struct Traced {
  std::optional<Q> value;
  std::string formula;
  std::string numbers;
  int rank = 0;  ///< 0 atom, 1 product, 2 sum: decides parentheses
  std::vector<std::string> missing;

  bool known() const { return value.has_value(); }
  std::string text(int outer) const { return rank > outer ? "(" + formula + ")" : formula; }
  std::string figures(int outer) const { return rank > outer ? "(" + numbers + ")" : numbers; }
};

/// A comparison between two traced values, not yet judged.
struct Claim {
  std::string formula;
  std::string numbers;
  std::optional<bool> holds;
  std::vector<std::string> missing;
};

namespace detail {
std::vector<std::string> both(const std::vector<std::string>& x, const std::vector<std::string>& y);
Claim compare(const Traced<units::AnyQuantity>& x, const Traced<units::AnyQuantity>& y,
              std::string_view sign, std::optional<bool> holds);
/// A negative number behind a sign stands in parentheses: "1 + (−0.280 %/K · 30.0 K)".
std::string behind_sign(const std::string& figures);
template <class Q>
Traced<units::AnyQuantity> any(const Traced<Q>& t) {
  Traced<units::AnyQuantity> r;
  if (t.value) r.value = units::AnyQuantity(*t.value);
  r.formula = t.formula;
  r.numbers = t.numbers;
  r.rank = t.rank;
  r.missing = t.missing;
  return r;
}
template <class R, class X, class Y, class F>
Traced<R> combine(const Traced<X>& x, const Traced<Y>& y, F f, std::string_view sign, int rank,
                  int left, int right) {
  Traced<R> r;
  if (x.value && y.value) r.value = f(*x.value, *y.value);
  r.formula = x.text(left).append(sign).append(y.text(right));
  r.numbers = x.figures(left).append(sign).append(right > 2 ? y.figures(right)
                                                            : behind_sign(y.figures(right)));
  r.rank = rank;
  r.missing = both(x.missing, y.missing);
  return r;
}
}  // namespace detail

template <units::Dimension A, units::Dimension B>
Traced<units::Quantity<A + B>> operator*(const Traced<units::Quantity<A>>& x,
                                         const Traced<units::Quantity<B>>& y) {
  return detail::combine<units::Quantity<A + B>>(
      x, y, [](auto p, auto q) { return p * q; }, " · ", 1, 1, 1);
}
template <units::Dimension A, units::Dimension B>
Traced<units::Quantity<A - B>> operator/(const Traced<units::Quantity<A>>& x,
                                         const Traced<units::Quantity<B>>& y) {
  return detail::combine<units::Quantity<A - B>>(
      x, y, [](auto p, auto q) { return p / q; }, " / ", 1, 1, 0);
}
template <units::Dimension D>
Traced<units::Quantity<D>> operator+(const Traced<units::Quantity<D>>& x,
                                     const Traced<units::Quantity<D>>& y) {
  return detail::combine<units::Quantity<D>>(
      x, y, [](auto p, auto q) { return p + q; }, " + ", 2, 2, 2);
}
template <units::Dimension D>
Traced<units::Quantity<D>> operator-(const Traced<units::Quantity<D>>& x,
                                     const Traced<units::Quantity<D>>& y) {
  return detail::combine<units::Quantity<D>>(
      x, y, [](auto p, auto q) { return p - q; }, " − ", 2, 2, 1);
}
inline Traced<units::TemperatureDifference> operator-(const Traced<units::Temperature>& x,
                                                      const Traced<units::Temperature>& y) {
  return detail::combine<units::TemperatureDifference>(
      x, y, [](auto p, auto q) { return p - q; }, " − ", 2, 2, 1);
}
inline Traced<units::Temperature> operator+(const Traced<units::Temperature>& x,
                                            const Traced<units::TemperatureDifference>& y) {
  return detail::combine<units::Temperature>(
      x, y, [](auto p, auto q) { return p + q; }, " + ", 2, 2, 2);
}

/// min(x, y) and max(x, y), written as such.
template <class Q>
Traced<Q> lesser(const Traced<Q>& x, const Traced<Q>& y) {
  auto r = detail::combine<Q>(x, y, [](auto p, auto q) { return q < p ? q : p; }, ", ", 0, 9, 9);
  r.formula = "min(" + r.formula + ")";
  r.numbers = "min(" + r.numbers + ")";
  return r;
}
template <class Q>
Traced<Q> greater(const Traced<Q>& x, const Traced<Q>& y) {
  auto r = detail::combine<Q>(x, y, [](auto p, auto q) { return p < q ? q : p; }, ", ", 0, 9, 9);
  r.formula = "max(" + r.formula + ")";
  r.numbers = "max(" + r.numbers + ")";
  return r;
}

/// A plain number that is part of a formula itself (the 1 in 1 + β·ΔT, the 2 in 2·L).
Traced<units::Ratio> number(double n);
/// A fixed reference temperature of a formula (25 °C), printed as itself.
Traced<units::Temperature> reference(units::Temperature t);

template <units::Dimension D>
Claim operator>=(const Traced<units::Quantity<D>>& x, const Traced<units::Quantity<D>>& y) {
  std::optional<bool> holds;
  if (x.value && y.value) holds = units::at_least(*x.value, *y.value);
  return detail::compare(detail::any(x), detail::any(y), "≥", holds);
}
template <units::Dimension D>
Claim operator<=(const Traced<units::Quantity<D>>& x, const Traced<units::Quantity<D>>& y) {
  std::optional<bool> holds;
  if (x.value && y.value) holds = units::at_most(*x.value, *y.value);
  return detail::compare(detail::any(x), detail::any(y), "≤", holds);
}

/// The calculation behind one finding, step by step.
class Trail {
 public:
  /// A fact taken as it is. `symbol` as in docs/notation.md, `words` its plain name.
  /// @param decimals  of the printed value, where the unit's default is too coarse to follow by hand
  template <class Q>
  Traced<Q> given(const std::string& symbol, std::string words, const Fact<Q>& fact,
                  std::optional<int> decimals = {}) {
    Traced<Q> t = atom(symbol, fact.value);
    add(Step::Kind::given, std::move(words), t, {}, {fact.from, fact.status});
    if (t.value && decimals)
      t.numbers = steps_.back().printed = units::print(units::AnyQuantity(*t.value), *decimals);
    return t;
  }

  /// A factor of the code, with its own citation.
  template <class Q>
  Traced<Q> factor(const std::string& symbol, std::string words, std::optional<Q> value,
                   Source source) {
    Traced<Q> t = atom(symbol, value);
    add(Step::Kind::factor, std::move(words), t, {}, std::move(source));
    return t;
  }

  /// A value read in a table; `where` names the row and column ("10 AWG Cu, 75 °C column").
  template <class Q>
  Traced<Q> table(const std::string& symbol, std::string words, std::optional<Q> value,
                  std::string where, Source source) {
    Traced<Q> t = atom(symbol, value);
    add(Step::Kind::table, std::move(words), t, std::move(where), std::move(source));
    return t;
  }

  /// A result: `symbol = formula = numbers = value`. Later steps see it as one symbol.
  /// @param decimals  of the printed value, where the unit's default is too coarse to follow by hand
  template <class Q>
  Traced<Q> let(const std::string& symbol, std::string words, const Traced<Q>& t,
                Source source = {}, std::optional<int> decimals = {}) {
    Step s = step(Step::Kind::let, std::move(words),
                  t.value ? std::optional(units::AnyQuantity(*t.value)) : std::nullopt,
                  std::move(source));
    s.symbol = symbol;
    s.formula = t.formula;
    s.numbers = t.numbers;
    Traced<Q> r = atom(symbol, t.value);
    if (t.value && decimals) r.numbers = s.printed = units::print(*s.value, *decimals);
    steps_.push_back(std::move(s));
    r.missing = t.missing;
    return r;
  }

  /// Judge a claim and write it down. Returns true, false, or nothing where a fact is missing.
  std::optional<bool> require(const Claim& claim, Source source = {});

  void note(std::string sentence, Source source = {});

  const std::vector<Step>& steps() const { return steps_; }
  /// Plain names of the facts that were asked for and are not known, each once.
  const std::vector<std::string>& missing() const { return missing_; }

 private:
  template <class Q>
  Traced<Q> atom(const std::string& symbol, std::optional<Q> value) {
    Traced<Q> t;
    t.value = value;
    t.formula = symbol;
    t.numbers = value ? units::print(units::AnyQuantity(*value)) : "?";
    if (!value) t.missing.push_back(symbol);
    return t;
  }
  template <class Q>
  void add(Step::Kind kind, std::string words, const Traced<Q>& t, std::string numbers,
           Source source) {
    if (!t.value) missing_.push_back(words);
    Step s = step(kind, std::move(words),
                  t.value ? std::optional(units::AnyQuantity(*t.value)) : std::nullopt,
                  std::move(source));
    s.symbol = t.formula;
    s.numbers = std::move(numbers);
    steps_.push_back(std::move(s));
  }
  static Step step(Step::Kind kind, std::string words, std::optional<units::AnyQuantity> value,
                   Source source);

  std::vector<Step> steps_;
  std::vector<std::string> missing_;
};

/// One line of text: "I_req = k · I_max = 1.25 · 18.00 A = 22.50 A  [NFPA 70-2023, 690.8(B)(1)]",
/// "I_max = 18.00 A  (given: module.M365)", "require I_z ≥ I_req: 30.00 A ≥ 22.50 A  pass".
std::string render(const Step& step);
std::string render(const Trail& trail);  ///< all lines, each ending in '\n'

}  // namespace stringwright::trail
