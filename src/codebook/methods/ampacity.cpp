#include "codebook/methods/ampacity.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "codebook/raceways.hpp"

namespace stringwright::codebook {
namespace {

/// The hottest column of the tables that is not hotter than `t`.
std::optional<units::Temperature> column_below(units::Temperature t) {
  std::optional<units::Temperature> best;
  for (double c : {60.0, 75.0, 90.0})
    if (c <= t.celsius() + 1e-9) best = units::celsius(c);
  return best;
}

/// The rating of the insulation wherever it may be used at all; empty where it is not known.
std::optional<units::Temperature> any_rating(const Facts& facts, const Edition& edition) {
  if (!facts.wire.known()) return std::nullopt;
  const auto wet = edition.insulation_rating(facts.wire->insulation);
  return wet.value ? wet.value : edition.insulation_rating_dry(facts.wire->insulation).value;
}

std::string name_of(const Facts& facts, std::size_t stretch) {
  std::string name = "stretch " + std::to_string(stretch + 1);
  const auto& method = facts.stretches[stretch].method;
  return method.known() ? name + " (" + *method + ")" : name;
}

bool is_raceway_or_tray(const std::string& method) { return method != "free-air"; }

/// What all wires side by side carry together, as `symbol`; the same where there is one.
Traced<units::Current> of_all(const Traced<units::Current>& one, const Facts& facts,
                              const std::string& symbol, Trail& trail) {
  if (!side_by_side(facts)) return one;
  const auto n = trail.given("n_c", "side by side", facts.wires_per_pole);
  return trail.let(symbol, "all side by side", n * one);
}

/// k_N of a stretch: none where it is no longer than the code lets conductors lie together freely.
Traced<units::Ratio> together(const StretchFacts& s, const std::string& name,
                              const Edition& edition, Trail& trail) {
  const auto n = trail.given("n", "number of wires", s.wires);
  if (!n.value) return not_known<units::Ratio>("k_N", {"number of wires together in " + name});
  const double count = n.value->in(units::plain);
  const auto free = edition.limit<units::dim::length>("bundling.free-length");
  if (s.length.known() && free.value && units::at_most(*s.length, *free.value)) {
    return trail.table("k_N", "bundling", std::optional(units::Ratio(1.0)),
                       words::plain(*s.length) + " is no longer than 24 in", free.source);
  }
  return read_table(trail, "k_N", "bundling",
                    edition.bundling_factor(static_cast<int>(std::lround(count))));
}

}  // namespace

bool side_by_side(const Facts& facts) {
  return facts.wires_per_pole.known() && facts.wires_per_pole->in(units::plain) > 1;
}

std::string size_words(const Facts& facts, const units::WireSize& size) {
  const std::string one = size.print();
  return side_by_side(facts) ? text::fixed(facts.wires_per_pole->in(units::plain), 0) + " × " + one
                             : one;
}

TerminalAmpacity terminal_ampacity(const Facts& facts, const Edition& edition, Trail& trail,
                                   const Traced<units::Current>& i_req) {
  TerminalAmpacity found;
  if (!facts.wire.known()) {
    found.i_t = not_known<units::Current>("I_t", {"conductor"});
    return found;
  }
  if (facts.terminals.known()) {
    trail.given("T_term", "coolest terminal", facts.terminals);
    found.column = column_below(*facts.terminals);
    if (!found.column) {
      found.i_t = not_known<units::Current>(
          "I_t", {"column for terminals of " + units::print(*facts.terminals)});
      return found;
    }
  } else {
    const auto up_to = edition.limit<units::dim::current>("conductor.terminal-60-up-to");
    found.assumed = true;
    if (!i_req.value || !up_to.value) {
      found.i_t = not_known<units::Current>("I_t", i_req.missing);
      return found;
    }
    found.column = units::celsius(units::at_most(*i_req.value, *up_to.value) ? 60 : 75);
    trail.note("The terminals' rating is not known: the " + units::print(*found.column) +
                   " column counts.",
               up_to.source);
  }
  if (const auto insulation = any_rating(facts, edition)) {
    found.column = std::min(*found.column, *insulation);
  } else if (*found.column > units::celsius(75)) {
    found.column = units::celsius(75);
    trail.note("The insulation type is not known: no column above 75 °C counts.");
  }
  found.i_t =
      of_all(read_table(trail, side_by_side(facts) ? "I_t1" : "I_t", "terminal column",
                        edition.ampacity(facts.wire->size, facts.wire->metal, *found.column)),
             facts, "I_t", trail);
  return found;
}

Traced<units::Current> under_conditions(const Traced<units::Current>& i_i,
                                        const Traced<units::Ratio>& k_t,
                                        const Traced<units::Ratio>& k_n) {
  return i_i * k_t * k_n;
}

std::optional<units::WireSize> smallest_in_column(const Edition& edition, units::Current i,
                                                  units::Metal metal, units::Temperature column) {
  for (const auto& size : units::WireSize::american()) {
    const auto table = edition.ampacity(size, metal, column);
    if (table.value && units::at_least(*table.value, i)) return size;
  }
  return std::nullopt;
}

StretchAmpacity stretch_ampacity(const Facts& facts, std::size_t stretch, const Edition& edition,
                                 Trail& trail) {
  const StretchFacts& s = facts.stretches[stretch];
  StretchAmpacity found;
  found.label = name_of(facts, stretch);
  const auto missing = [&](std::string what) {
    found.i_z = not_known<units::Current>("I_z", {std::move(what)});
    return found;
  };
  if (!facts.wire.known()) return missing("conductor");
  if (!s.method.known()) return missing("wiring method of " + found.label);

  // Wire marked above 90 °C has tables of its own for raceway, cable and earth, from 2020 on.
  const bool open_air = !is_raceway_or_tray(*s.method);
  const bool hot = edition.family() == Family::nec && !open_air && facts.hot_rating.known() &&
                   facts.wire->metal == units::Metal::copper &&
                   hot_ampacity(edition, facts.wire->size, *facts.hot_rating).value.has_value();
  auto rating = edition.insulation_rating(facts.wire->insulation);
  if (hot && rating.value) {
    rating.value = facts.hot_rating->celsius() >= 125 ? units::celsius(125) : units::celsius(105);
    rating.where = facts.wire->insulation + ", as marked";
    rating.source = edition.cite("table.hot-wire");
  }
  const auto t_ins = read_table(trail, "T_ins", "insulation, wet", rating);
  if (!t_ins.value) {
    found.i_z = not_known<units::Current>("I_z", t_ins.missing);
    return found;
  }
  const auto i_i = of_all(
      read_table(trail, side_by_side(facts) ? "I_i1" : "I_i", "insulation column",
                 hot ? hot_ampacity(edition, facts.wire->size, *t_ins.value)
                 : open_air
                     ? edition.ampacity_free_air(facts.wire->size, facts.wire->metal, *t_ins.value)
                     : edition.ampacity(facts.wire->size, facts.wire->metal, *t_ins.value)),
      facts, "I_i", trail);

  auto t_a = trail.given("T_a", "ambient", s.ambient);
  if (!t_a.value) t_a.missing = {"ambient of " + found.label};
  if (s.above_roof) {
    const auto adder = read_table(trail, "ΔT_roof", "over the roof",
                                  edition.rooftop_adder(*s.above_roof, facts.wire->insulation));
    t_a = trail.let("T_c", "at the conductor", t_a + adder);
  }
  auto k_t = not_known<units::Ratio>("k_T", t_a.missing);
  if (t_a.value) {
    const auto looked = hot ? hot_ambient_factor(edition, *t_a.value, *t_ins.value)
                            : edition.ambient_factor(*t_a.value, *t_ins.value);
    k_t = read_table(trail, "k_T", "heat", looked);
    if (!looked.value) found.forbidden = looked.why;
  }
  const auto k_n = together(s, found.label, edition, trail);
  found.i_z = trail.let("I_z", "in this stretch", under_conditions(i_i, k_t, k_n),
                        edition.cite("conductor.conditions"));
  return found;
}

ConditionsOfUse conditions_of_use(const Facts& facts, const Edition& edition, Trail& trail) {
  ConditionsOfUse found;
  found.all_known = !facts.stretches.empty();
  for (std::size_t i = 0; i < facts.stretches.size(); ++i) {
    Trail aside;
    found.stretches.push_back(stretch_ampacity(facts, i, edition, aside));
    const auto& s = found.stretches.back();
    const bool forbidden = !s.forbidden.empty();
    if (!s.i_z.value && !forbidden) {
      found.all_known = false;
      if (found.worst < 0) found.worst = static_cast<int>(i);
      continue;
    }
    const auto& worst =
        found.worst < 0 ? s : found.stretches[static_cast<std::size_t>(found.worst)];
    const bool worst_forbidden = !worst.forbidden.empty();
    if (found.worst < 0 ||
        (!worst_forbidden && (forbidden || !worst.i_z.value || *s.i_z.value < *worst.i_z.value)))
      found.worst = static_cast<int>(i);
  }
  if (found.worst < 0) {
    found.i_z = not_known<units::Current>("I_z", {"way of the conductor"});
    return found;
  }
  if (facts.stretches.size() > 1)
    trail.note("Of " + std::to_string(facts.stretches.size()) + " stretches, " +
               found.stretches[static_cast<std::size_t>(found.worst)].label + " decides.");
  found.i_z = stretch_ampacity(facts, static_cast<std::size_t>(found.worst), edition, trail).i_z;
  return found;
}

Traced<units::Current> largest_device(const Facts& facts, const Edition& edition, Trail& trail,
                                      const Traced<units::Current>& i_u) {
  if (!i_u.value || !facts.wire.known()) return not_known<units::Current>("I_dev", i_u.missing);
  const auto up_to = edition.limit<units::dim::current>("conductor.next-size-up-to");
  auto next = edition.standard_rating_at_least(*i_u.value);
  if (!next.value || !up_to.value || !units::at_most(*next.value, *up_to.value)) {
    next.value = *i_u.value;
    next.where = "no next size up above " + words::plain(up_to.value.value_or(units::Current{}));
    next.source = up_to.source;
  }
  auto i_next = read_table(trail, "I_next", "next size up", next);
  const auto small = edition.small_conductor_limit(facts.wire->size, facts.wire->metal);
  if (!small.value) return i_next;
  const auto i_small = read_table(trail, "I_small", "small conductor", small);
  return trail.let("I_dev", "largest device", lesser(i_next, i_small),
                   edition.cite("conductor.protection"));
}

std::optional<units::WireSize> smallest_size_that(const Facts& facts,
                                                  const std::function<bool(const Facts&)>& holds) {
  if (!facts.wire.known()) return std::nullopt;
  Facts other = facts;
  static const auto joined = units::WireSize::read("1/0 AWG");  // 310.10(G)
  const bool metric = facts.wire->size.metric();
  const auto& sizes = metric ? units::WireSize::metric_series() : units::WireSize::american();
  for (const auto& size : sizes) {
    if (!metric && side_by_side(facts) && size < *joined) continue;
    other.wire.value->size = size;
    if (holds(other)) return size;
  }
  return std::nullopt;
}

}  // namespace stringwright::codebook
