#include "codebook/methods/iec.hpp"

#include <algorithm>

#include "codebook/iec_tables.hpp"

namespace stringwright::codebook::iec {

units::Current backfeed(int strings, units::Current i_sc) {
  return std::max(strings - 1, 0) * i_sc;
}

bool protection_needed(int strings, units::Current i_sc, units::Current module_limit) {
  return !units::at_most(backfeed(strings, i_sc), module_limit);
}

bool FuseWindow::holds(units::Current rating, units::Current module_limit) const {
  return !units::at_most(rating, above) && !units::at_least(rating, below) &&
         units::at_most(rating, module_limit);
}

FuseWindow fuse_window(const Edition& edition, units::Current i_sc) {
  const auto low = edition.factor("string-fuse.above");
  const auto high = edition.factor("string-fuse.below");
  return {low.value.value_or(units::Ratio{}) * i_sc, high.value.value_or(units::Ratio{}) * i_sc};
}

trail::Claim above(const Traced<units::Current>& x, const Traced<units::Current>& y) {
  std::optional<bool> holds;
  if (x.value && y.value) holds = !units::at_most(*x.value, *y.value);
  return trail::detail::compare(trail::detail::any(x), trail::detail::any(y), ">", holds);
}

trail::Claim below(const Traced<units::Current>& x, const Traced<units::Current>& y) {
  std::optional<bool> holds;
  if (x.value && y.value) holds = !units::at_least(*x.value, *y.value);
  return trail::detail::compare(trail::detail::any(x), trail::detail::any(y), "<", holds);
}

Outcome demand(Trail& trail, const trail::Claim& claim, const Traced<units::Current>& x,
               const Traced<units::Current>& limit, bool is_above, trail::Source source) {
  const auto holds = trail.require(claim, std::move(source));
  if (!holds) return cannot_tell(words::unknown(trail, claim.missing));
  const auto [left, right] = units::print_pair(*x.value, *limit.value);
  const std::string sign = *holds ? (is_above ? " > " : " < ") : (is_above ? " ≤ " : " ≥ ");
  return {trail::verdict_of(holds),
          words::plain(*x.value) + sign + words::plain(*limit.value) +
              (*holds     ? ": passes."
               : is_above ? ": fails, it must be above."
                          : ": fails, it must be below."),
          {},
          {}};
}

std::string ratings_between(units::Current low, units::Current high, bool high_included,
                            std::optional<units::Current> at_most) {
  std::vector<std::string> names;
  for (const auto& r : fuse_ratings()) {
    if (units::at_most(r.rating, low)) continue;
    if (high_included ? !units::at_most(r.rating, high) : units::at_least(r.rating, high)) continue;
    if (at_most && !units::at_most(r.rating, *at_most)) continue;
    names.push_back(words::plain(r.rating));
  }
  if (names.empty()) return "No rating of the gPV series lies in the window.";
  return "Ratings of the gPV series in the window: " + words::list(names) + ".";
}

}  // namespace stringwright::codebook::iec
