#include "codebook/methods/voltages.hpp"

#include <cmath>
#include <functional>

namespace stringwright::codebook {
namespace {

/// A symbol of one group: "N" where the string is all of one kind, else "N_1", "N_2" ...
std::string indexed(const std::string& symbol, const Facts& facts, std::size_t group) {
  if (facts.series.size() < 2) return symbol;
  const std::string number = std::to_string(group + 1);
  return symbol.find('_') == std::string::npos ? symbol + "_" + number : symbol + number;
}

/// Σ over the groups of what `of` makes of one, as `symbol`; each group's share is a step of its own.
Traced<units::Voltage> sum_of_groups(
    const Facts& facts, Trail& trail, const std::string& symbol, const std::string& plain_name,
    const trail::Source& source,
    const std::function<Traced<units::Voltage>(const SeriesGroup&, std::size_t)>& of) {
  if (facts.series.empty()) {
    const auto n = trail.given("N", "number in series", Fact<units::Ratio>{});
    return trail.let(symbol, plain_name, not_known<units::Voltage>("Σ N · V", n.missing), source);
  }
  if (facts.series.size() == 1)
    return trail.let(symbol, plain_name, of(facts.series[0], 0), source);
  std::optional<Traced<units::Voltage>> sum;
  for (std::size_t i = 0; i < facts.series.size(); ++i) {
    const auto share = trail.let(indexed(symbol, facts, i), "of group " + std::to_string(i + 1),
                                 of(facts.series[i], i), source);
    sum = sum ? *sum + share : share;
  }
  return trail.let(symbol, plain_name, *sum, source);
}

/// V_oc and N of a group enter the trail once, however many formulas use them.
template <class Q>
Traced<Q> given_once(Trail& trail, const std::string& symbol, const std::string& plain_name,
                     const Fact<Q>& fact) {
  for (const auto& step : trail.steps()) {
    if (step.kind != trail::Step::Kind::given || step.symbol != symbol) continue;
    Trail aside;
    return aside.given(symbol, plain_name, fact);
  }
  return trail.given(symbol, plain_name, fact);
}

Traced<units::Ratio> count_of(const SeriesGroup& g, std::size_t i, const Facts& facts,
                              Trail& trail) {
  return given_once(trail, indexed("N", facts, i), "number in series", g.count);
}
Traced<units::Voltage> v_oc_of(const SeriesGroup& g, std::size_t i, const Facts& facts,
                               Trail& trail) {
  return given_once(trail, indexed("V_oc", facts, i), "V_oc of a module", g.v_oc);
}

const Traced<units::Temperature>& standard() {
  static const Traced<units::Temperature> t = trail::reference(units::celsius(25));
  return t;
}

Traced<units::Voltage> by_coefficient(const Facts& facts, const Edition& edition, Trail& trail,
                                      const Fact<units::Temperature>& ambient,
                                      const std::string& symbol_t, const std::string& words_t,
                                      const std::string& symbol, const std::string& plain_name) {
  const auto source = edition.cite("voltage.coefficient");
  const auto t = given_once(trail, symbol_t, words_t, ambient);
  return sum_of_groups(
      facts, trail, symbol, plain_name, source, [&](const SeriesGroup& g, std::size_t i) {
        const auto n = count_of(g, i, facts, trail);
        const auto v_oc = v_oc_of(g, i, facts, trail);
        auto b = given_once(trail, indexed("b", facts, i), "V_oc coefficient", g.b_voc);
        if (b.value && b.value->si() > 0) {  // would make cold harmless: no silicon does that
          b.value.reset();
          b.missing = {"V_oc coefficient (the one given rises with heat)"};
        }
        return series_voltage(n, v_oc, trail::number(1) + b * (t - standard()));
      });
}

}  // namespace

std::string_view print(ColdMethod m) {
  return m == ColdMethod::coefficient ? "coefficient" : "table";
}

Traced<units::Voltage> cold_by_coefficient(const Facts& facts, const Edition& edition,
                                           Trail& trail) {
  return by_coefficient(facts, edition, trail, facts.t_min, "T_min", "lowest ambient", "V_cold",
                        "cold, coefficient");
}

Traced<units::Voltage> cold_at_record(const Facts& facts, const Edition& edition, Trail& trail) {
  return by_coefficient(facts, edition, trail, facts.t_record, "T_rec", "record low", "V_rec",
                        "cold, record low");
}

Traced<units::Voltage> cold_by_table(const Facts& facts, const Edition& edition, Trail& trail) {
  const auto t = given_once(trail, "T_min", "lowest ambient", facts.t_min);
  auto factor = not_known<units::Ratio>("F_T", t.missing);
  if (t.value)
    factor = read_table(trail, "F_T", "cold factor", edition.cold_voltage_factor(*t.value));
  return sum_of_groups(facts, trail, "V_table", "cold, table", edition.cite("voltage.table"),
                       [&](const SeriesGroup& g, std::size_t i) {
                         return series_voltage(count_of(g, i, facts, trail),
                                               v_oc_of(g, i, facts, trail), factor);
                       });
}

Traced<units::Voltage> series_voltage(const Traced<units::Ratio>& n,
                                      const Traced<units::Voltage>& v,
                                      const Traced<units::Ratio>& k) {
  return n * v * k;
}

int most_in_series(units::Voltage v_cold, units::Voltage limit) {
  if (v_cold.si() <= 0 || limit.si() <= 0) return 0;
  return static_cast<int>(std::floor(limit / v_cold * (1 + units::guard)));
}

std::optional<ColdMethod> chosen_method(const Facts& facts, const Edition& edition) {
  const auto first = edition.factor("voltage.coefficient-first");
  bool all_have_one = !facts.series.empty();
  for (const auto& g : facts.series) all_have_one = all_have_one && g.b_voc.known();
  if (first.value && first.value->in(units::plain) != 0)
    return all_have_one ? ColdMethod::coefficient : ColdMethod::table;
  if (!facts.voltage_by.known()) return std::nullopt;
  if (*facts.voltage_by == "coefficient") return ColdMethod::coefficient;
  if (*facts.voltage_by == "table") return ColdMethod::table;
  return std::nullopt;
}

Traced<units::Voltage> maximum_voltage(const Facts& facts, const Edition& edition, Trail& trail) {
  const auto method = chosen_method(facts, edition);
  if (method == ColdMethod::coefficient) return cold_by_coefficient(facts, edition, trail);
  if (method == ColdMethod::table) return cold_by_table(facts, edition, trail);
  trail.note("No method is chosen: the higher of both counts.");
  const auto coefficient = cold_by_coefficient(facts, edition, trail);
  const auto table = cold_by_table(facts, edition, trail);
  return trail.let("V_max", "maximum voltage", greater(coefficient, table));
}

Traced<units::Voltage> hot_voltage(const Facts& facts, Trail& trail) {
  const auto t_hot = given_once(trail, "T_hot", "hot ambient", facts.t_hot);
  const auto rise = given_once(trail, "ΔT_sun", "rise of the cells", facts.rise);
  const auto t_cell = trail.let("T_cell", "hot cells", t_hot + rise);
  return sum_of_groups(
      facts, trail, "V_hot", "hot V_mp", {}, [&](const SeriesGroup& g, std::size_t i) {
        const auto n = count_of(g, i, facts, trail);
        const auto v_mp = given_once(trail, indexed("V_mp", facts, i), "V_mp of a module", g.v_mp);
        const auto b = given_once(trail, indexed("b_mp", facts, i), "V_mp coefficient", g.b_vmp);
        return series_voltage(n, v_mp, trail::number(1) + b * (t_cell - standard()));
      });
}

Traced<units::Voltage> stc_voltage(const Facts& facts, Trail& trail) {
  return sum_of_groups(
      facts, trail, "V_stc", "full power at STC", {}, [&](const SeriesGroup& g, std::size_t i) {
        return count_of(g, i, facts, trail) *
               given_once(trail, indexed("V_mp", facts, i), "V_mp of a module", g.v_mp);
      });
}

std::optional<units::Temperature> ambient_at_limit(const Facts& facts, units::Voltage limit) {
  // V_cold = Σ N·V_oc + (T − 25 °C) · Σ N·V_oc·b, solved for T.
  units::Voltage at_stc;
  units::VoltagePerKelvin slope;
  for (const auto& g : facts.series) {
    if (!g.count.known() || !g.v_oc.known() || !g.b_voc.known()) return std::nullopt;
    at_stc += *g.count * *g.v_oc;
    slope += *g.count * *g.v_oc * *g.b_voc;
  }
  if (slope.si() >= 0) return std::nullopt;
  return units::celsius(25) + (limit - at_stc) / slope;
}

std::optional<units::Voltage> with_one_more(const Facts& facts, units::Voltage v_cold) {
  if (facts.series.size() != 1 || !facts.series[0].count.known()) return std::nullopt;
  const double n = facts.series[0].count->in(units::plain);
  if (n < 1) return std::nullopt;
  return v_cold * ((n + 1) / n);
}

}  // namespace stringwright::codebook
