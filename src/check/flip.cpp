#include "check/flip.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <optional>

#include "base/order.hpp"
#include "base/text.hpp"
#include "check/levers.hpp"
#include "codebook/methods/words.hpp"

namespace stringwright::check {
namespace {

using codebook::Edition;
using codebook::Facts;
using codebook::Rule;
using trail::Verdict;

bool decided(Verdict v) {
  return v == Verdict::pass || v == Verdict::fail || v == Verdict::caution;
}

/// One rule under one edition: facts in, verdict out.
struct Asking {
  const Rule& rule;
  const Edition& edition;
  Verdict operator()(const Facts& f) const {
    if (!rule.applies(f)) return Verdict::not_applicable;
    trail::Trail aside;
    return rule.check(f, edition, aside).verdict;
  }
};

/// How good a verdict is; a flip goes across.
int grade(Verdict v) {
  return v == Verdict::pass ? 2 : v == Verdict::caution ? 1 : v == Verdict::fail ? 0 : -1;
}

bool better(Verdict x, Verdict than) { return grade(x) > grade(than); }

/// Whether a change from `base` to `v` is worth telling: to another decided verdict, and where the base
/// fails only to a better one.
bool flips_to(Verdict base, Verdict v) {
  if (!decided(v) || v == base) return false;
  return base != Verdict::fail || better(v, base);
}

/// What a change makes worse besides: rules about the same thing, and the voltages that more modules in
/// series raise, whatever the finding is about. Titles, each once.
std::vector<std::string> side_effects(const Facts& before, const Facts& after,
                                      const Edition& edition) {
  using codebook::Subject;
  std::vector<std::string> worse;
  const auto ask = [&](const Rule& rule, Subject subject) {
    Facts x = before;
    Facts y = after;
    x.subject = y.subject = subject;
    if (!rule.applies(x) || !rule.applies(y)) return;
    const Asking asking{rule, edition};
    const Verdict now = asking(x);
    const Verdict then = asking(y);
    const bool lost = now == Verdict::pass && !decided(then) && then != Verdict::not_applicable;
    if (!lost && !(decided(now) && decided(then) && better(now, then))) return;
    const std::string title(rule.title);
    if (std::find(worse.begin(), worse.end(), title) == worse.end()) worse.push_back(title);
  };
  for (const auto* rule : codebook::rules_of(edition))
    if (!text::starts_with(rule->id, "event.")) ask(*rule, before.subject);
  if (!before.series.empty() && !after.series.empty() && before.series[0].count.known() &&
      *before.series[0].count < *after.series[0].count) {
    const std::pair<const char*, Subject> voltages[] = {
        {"voltage.equipment-input", Subject::input},
        {"voltage.modules", Subject::string_circuit},
        {"voltage.ceiling", Subject::input}};
    for (const auto& [id, subject] : voltages)
      if (const auto* rule = codebook::find_rule(id)) ask(*rule, subject);
  }
  return worse;
}

/// Adds to a mend what it breaks; such a mend is the last to be offered.
void warn(Flip& flip, const Facts& before, const Facts& after, const Edition& edition) {
  const auto worse = side_effects(before, after, edition);
  if (worse.empty()) return;
  flip.sentence += " But that makes worse: " + codebook::words::list(worse) + ".";
  flip.effort += 100;
}

/// The place nearest to `from` on the way to `to` where the verdict is no longer the base's; found on
/// the assumption that it changes once. The returned value stands on the far side, rounded away from
/// `from` to the lever's step; `held` is the last round value on the near side.
struct Edge {
  double held, flipped;
  Verdict to;
};
std::optional<Edge> edge(const Asking& ask, const Facts& facts, const Lever& lever, Verdict base,
                         double from, double to) {
  const auto verdict_at = [&](double x) {
    Facts other = facts;
    lever.set(other, x);
    return ask(other);
  };
  // A ladder first: a rule may turn back (a window), and the nearest change is wanted.
  double near = from;
  std::optional<double> far;
  for (const double share : {0.02, 0.1, 0.3, 1.0}) {
    const double x = from + (to - from) * share;
    const Verdict v = verdict_at(x);
    if (flips_to(base, v)) {
      far = x;
      break;
    }
    if (v == base) near = x;
  }
  if (!far) return std::nullopt;
  const double direction = to > from ? 1 : -1;
  while (std::fabs(*far - near) > lever.step * 0.01) {
    const double middle = near + (*far - near) / 2;
    if (middle == near || middle == *far) break;
    (flips_to(base, verdict_at(middle)) ? *far : near) = middle;
  }
  // Round to what a person sets, and prove the round values themselves.
  Edge e;
  const double unit = lever.step;
  const double origin = lever.origin;
  e.held = origin + (direction > 0 ? std::floor((near - origin) / unit + 0.02)
                                   : std::ceil((near - origin) / unit - 0.02)) *
                        unit;
  e.flipped = origin + (direction > 0 ? std::ceil((*far - origin) / unit - 0.02)
                                      : std::floor((*far - origin) / unit + 0.02)) *
                           unit;
  if ((e.held - from) * direction < 0) e.held = from;
  if (verdict_at(e.held) != base) e.held -= direction * unit;
  if ((e.held - from) * direction < 0) e.held = from;
  for (int tries = 0; tries < 2 && !flips_to(base, verdict_at(e.flipped)); ++tries)
    e.flipped += direction * unit;
  e.to = verdict_at(e.flipped);
  if (!flips_to(base, e.to)) return std::nullopt;
  return e;
}

void along(const Asking& ask, const Facts& facts, const Lever& lever, Verdict base,
           std::vector<Flip>& found) {
  const auto at = lever.get(facts);
  if (!at) return;
  for (const double end : {lever.low, lever.high}) {
    if ((end - *at) * (end - *at) < lever.step * lever.step) continue;
    if (lever.only_up && end < *at) continue;
    const auto e = edge(ask, facts, lever, base, *at, end);
    if (!e) continue;
    const double shown = better(e->to, base) ? e->flipped : e->held;
    Flip flip{lever.key, lever.say(*at, shown, better(e->to, base), e->to), e->to,
              lever.effort + std::fabs(shown - *at) / (lever.high - lever.low)};
    if (better(e->to, base)) {
      Facts after = facts;
      lever.set(after, shown);
      warn(flip, facts, after, ask.edition);
    }
    found.push_back(std::move(flip));
  }
}

/// One step of a series after the other, in both directions, up to the first that flips.
void through(const Asking& ask, const Facts& facts, const Series& series, Verdict base,
             std::vector<Flip>& found) {
  const auto now = series.now(facts);
  if (!now) return;
  for (const int direction : {-1, 1}) {
    int held = *now;
    for (int i = *now + direction; i >= 0 && i < series.size; i += direction) {
      Facts other = facts;
      series.set(other, i);
      const Verdict v = ask(other);
      if (!flips_to(base, v)) {
        if (v != base) break;  // beyond what the rule can tell
        held = i;
        continue;
      }
      const bool up = better(v, base);
      Flip flip{series.key, series.say(held, i, up, v), v,
                series.effort + 0.01 * std::abs(i - *now)};
      if (up) warn(flip, facts, other, ask.edition);
      found.push_back(std::move(flip));
      break;
    }
  }
}

}  // namespace

std::vector<Flip> flips(const Rule& rule, const Facts& facts, const Edition& edition) {
  std::vector<Flip> found;
  if (text::starts_with(rule.id, "event.") || !rule.applies(facts)) return found;
  const Asking ask{rule, edition};
  const Verdict base = ask(facts);
  if (!decided(base)) return found;
  for (const auto& lever : levers(facts)) along(ask, facts, lever, base, found);
  for (const auto& series : series_of(facts, edition)) through(ask, facts, series, base, found);
  sort_keeping_order(found, [](const Flip& x, const Flip& y) { return x.effort < y.effort; });
  return found;
}

namespace {

bool about_conductor(const Rule& rule) {
  return text::starts_with(rule.id, "conductor.") && rule.id != "conductor.voltage-drop" &&
         rule.id != "conductor.colour";
}

/// The smallest size of the series with which no rule about the conductor fails.
std::optional<std::size_t> smallest_that_holds(const Facts& facts,
                                               const std::vector<const Rule*>& rules,
                                               const Edition& edition,
                                               const std::vector<units::WireSize>& sizes) {
  Facts other = facts;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    other.wire.value->size = sizes[i];
    const bool holds = std::all_of(rules.begin(), rules.end(), [&](const Rule* rule) {
      const Verdict v = Asking{*rule, edition}(other);
      return v == Verdict::pass || v == Verdict::caution || v == Verdict::not_applicable;
    });
    if (holds) return i;
  }
  return std::nullopt;
}

std::string sizes_smaller(std::size_t n) {
  const char* words[] = {"no", "one", "two", "three", "four"};
  return (n < 5 ? std::string(words[n]) : std::to_string(n)) + (n == 1 ? " size" : " sizes");
}

}  // namespace

std::vector<Saving> savings(const Judged& judged, const Edition& edition) {
  std::vector<Saving> found;
  const Facts& facts = judged.facts;
  const bool circuit = facts.subject == codebook::Subject::string_circuit ||
                       facts.subject == codebook::Subject::output_circuit;
  if (!circuit || !facts.wire.known()) return found;
  std::vector<const Rule*> rules;
  for (const auto* rule : codebook::rules_of(edition))
    if (about_conductor(*rule) && rule->applies(facts)) rules.push_back(rule);
  const auto& sizes =
      facts.wire->size.metric() ? units::WireSize::metric_series() : units::WireSize::american();
  const auto now = smallest_that_holds(facts, rules, edition, sizes);
  for (std::size_t i = 0; i < facts.stretches.size(); ++i) {
    if (!facts.stretches[i].above_roof) continue;
    const double from = facts.stretches[i].above_roof->in(units::millimetres);
    const auto at = [&](double mm) {
      Facts other = facts;
      other.stretches[i].above_roof = units::millimetres(mm);
      return smallest_that_holds(other, rules, edition, sizes);
    };
    constexpr double most = 150;  // mm above the roof; higher stands are another structure
    const auto high = at(from + most);
    if (!high || (now && *high >= *now)) continue;
    double near = from;
    double far = from + most;
    while (far - near > 0.01) {
      const double middle = (near + far) / 2;
      const auto there = at(middle);
      (there && (!now || *there < *now) ? far : near) = middle;
    }
    const double raised = std::ceil(far - 0.02);
    const auto there = at(raised);
    if (!there || (now && *there >= *now)) continue;
    const std::string by =
        text::fixed(raised - from, raised - from < 10 && std::fmod(from, 1) > 0.01 ? 1 : 0);
    const std::string method = facts.stretches[i].method.value.value_or("");
    std::string sentence = "Raise stretch " + std::to_string(i + 1) +
                           (method.empty() ? "" : " (" + method + ")") + " by " + by + " mm, to " +
                           text::fixed(raised, 0) + " mm above the roof: ";
    sentence +=
        now ? sizes_smaller(*now - *there) + " smaller, " + sizes[*there].print() + ", is enough."
            : sizes[*there].print() + " is enough; as it is no size is.";
    found.push_back({facts.thing, sentence});
  }
  return found;
}

}  // namespace stringwright::check
