#include "units/sizes.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"
#include "units/spelling.hpp"

namespace stringwright::units {
namespace {

constexpr double pi = 3.14159265358979323846;

/// The gauge number of an AWG name as the diameter formula counts it: 1/0 is 0, 4/0 is -3.
struct Gauge {
  std::string_view name;
  int number;
};
constexpr std::array gauges{
    Gauge{"18", 18}, Gauge{"16", 16}, Gauge{"14", 14},  Gauge{"12", 12},  Gauge{"10", 10},
    Gauge{"8", 8},   Gauge{"6", 6},   Gauge{"4", 4},    Gauge{"3", 3},    Gauge{"2", 2},
    Gauge{"1", 1},   Gauge{"1/0", 0}, Gauge{"2/0", -1}, Gauge{"3/0", -2}, Gauge{"4/0", -3},
};
constexpr std::array kcmils{250, 300, 350,  400,  500,  600,  700, 750,
                            800, 900, 1000, 1250, 1500, 1750, 2000};
constexpr std::array metric_sizes{1.5,  2.5,   4.0,   6.0,   10.0,  16.0,  25.0,  35.0,  50.0, 70.0,
                                  95.0, 120.0, 150.0, 185.0, 240.0, 300.0, 400.0, 500.0, 630.0};

/// Metal area of a solid conductor of gauge n.
///
///     d(n) = 0.005 in · 92^((36 − n) / 39),    A = π/4 · d²
///
/// Source: ASTM B258, from memory.
Area gauge_area(int n) {
  const Length d = inches(0.005 * std::pow(92.0, (36 - n) / 39.0));
  return pi / 4 * (d * d);
}

/// One circular mil is the area of a circle of 0.001 in; kcmil sizes are so many thousand of them.
Area kcmil_area(int kcmil) {
  const Length mil = inches(1e-3);
  return 1000 * kcmil * (pi / 4) * (mil * mil);
}

/// The names of a list's entries, comma between.
template <class List, class Name>
std::string listed(const List& list, Name name) {
  std::vector<std::string> names;
  names.reserve(list.size());
  for (const auto& entry : list) names.emplace_back(name(entry));
  return text::join(names, ", ");
}

constexpr auto by_table_name = [](const auto& size) { return size.table_name(); };

Failure no_such_size(std::string_view shown, const std::string& system,
                     const std::string& allowed) {
  return {"units.unknown-size",
          text::quoted(shown) + " is not a conductor size; " + system + " sizes are " + allowed};
}

/// "#10", "10 AWG", "AWG 10", "250 kcmil", "6 mm²": the name and the system it is in.
struct Split {
  enum class System { none, awg, kcmil, metric };
  std::string name;
  System system = System::none;
};

Split split_size(std::string_view plain) {
  struct Word {
    std::string_view text;
    Split::System system;
  };
  constexpr std::array behind{
      Word{"awg", Split::System::awg},     Word{"kcmil", Split::System::kcmil},
      Word{"mcm", Split::System::kcmil},   Word{"sqmm", Split::System::metric},
      Word{"mm²", Split::System::metric},  Word{"mm2", Split::System::metric},
      Word{"mm^2", Split::System::metric},
  };
  constexpr std::array before{Word{"awg", Split::System::awg}, Word{"#", Split::System::awg}};

  std::string s = text::lower(text::replace_all(std::string(plain), " ", ""));
  Split found;
  for (const auto& word : before)
    if (text::starts_with(s, word.text)) {
      s.erase(0, word.text.size());
      found.system = word.system;
      break;
    }
  for (const auto& word : behind)
    if (text::ends_with(s, word.text) &&
        (found.system == Split::System::none || found.system == word.system)) {
      s.erase(s.size() - word.text.size());
      found.system = word.system;
      break;
    }
  found.name = s;
  return found;
}

std::optional<WireSize> in_list(const std::vector<WireSize>& sizes, std::string_view name) {
  for (const auto& s : sizes)
    if (s.table_name() == name) return s;
  return std::nullopt;
}

std::string_view insulation_named(std::string_view word) {
  for (const auto& type : insulation_types())
    if (text::lower(type) == text::lower(word)) return type;
  return {};
}

std::optional<Metal> metal_named(std::string_view word) {
  const std::string w = text::lower(word);
  if (w == "cu" || w == "copper") return Metal::copper;
  if (w == "al" || w == "aluminium" || w == "aluminum") return Metal::aluminium;
  return std::nullopt;
}

}  // namespace

const std::vector<WireSize>& WireSize::american() {
  static const std::vector<WireSize> sizes = [] {
    std::vector<WireSize> all;
    all.reserve(gauges.size() + kcmils.size());
    for (const auto& g : gauges)
      all.push_back(WireSize(std::string(g.name), false, gauge_area(g.number)));
    for (const int k : kcmils) all.push_back(WireSize(std::to_string(k), false, kcmil_area(k)));
    return all;
  }();
  return sizes;
}

const std::vector<WireSize>& WireSize::metric_series() {
  static const std::vector<WireSize> sizes = [] {
    std::vector<WireSize> all;
    all.reserve(metric_sizes.size());
    for (const double size : metric_sizes)
      all.push_back(WireSize(text::shortest(size) + " mm²", true, square_millimetres(size)));
    return all;
  }();
  return sizes;
}

Result<WireSize> WireSize::read(std::string_view shown) {
  const Split s = split_size(detail::plain_spelling(shown));
  switch (s.system) {
    case Split::System::none:
      break;
    case Split::System::awg: {
      std::string name = s.name;
      if (!name.empty() && name.size() <= 4 && name.find_first_not_of('0') == std::string::npos)
        name = std::to_string(name.size()) + "/0";  // 0, 00, 000, 0000
      for (const auto& g : gauges)
        if (g.name == name) return *in_list(american(), name);
      return no_such_size(shown, "AWG", listed(gauges, [](const Gauge& g) { return g.name; }));
    }
    case Split::System::kcmil:
      for (const int k : kcmils)
        if (std::to_string(k) == s.name) return *in_list(american(), s.name);
      return no_such_size(shown, "kcmil", listed(kcmils, [](int k) { return std::to_string(k); }));
    case Split::System::metric: {
      if (const auto size = in_list(metric_series(), s.name + " mm²")) return *size;
      const auto number = detail::take_number(s.name, shown);
      if (!number) return number.failure();
      if (number->rest.empty())
        if (const auto size = in_list(metric_series(), text::shortest(number->value) + " mm²"))
          return *size;
      return no_such_size(shown, "metric", listed(metric_series(), by_table_name));
    }
  }
  if (text::trim(shown).empty())
    return Failure{"units.empty",
                   "no conductor size is written; write '10 AWG', '250 kcmil' or '6 mm²'"};
  return Failure{"units.unknown-size",
                 text::quoted(shown) +
                     " does not say which kind of conductor size it is; write '10 AWG', "
                     "'250 kcmil' or '6 mm²'"};
}

std::optional<WireSize> WireSize::from_table(std::string_view name) {
  if (const auto size = in_list(american(), name)) return size;
  return in_list(metric_series(), name);
}

std::string WireSize::print() const {
  if (metric_ || name_.empty()) return name_;
  const bool kcmil = name_.size() >= 3 && name_.find('/') == std::string::npos;
  return name_ + (kcmil ? " kcmil" : " AWG");
}

const std::vector<TradeSize>& TradeSize::all() {
  static const std::vector<TradeSize> sizes{
      TradeSize("3/8", 0.375), TradeSize("1/2", 0.5),    TradeSize("3/4", 0.75),
      TradeSize("1", 1),       TradeSize("1-1/4", 1.25), TradeSize("1-1/2", 1.5),
      TradeSize("2", 2),       TradeSize("2-1/2", 2.5),  TradeSize("3", 3),
      TradeSize("3-1/2", 3.5), TradeSize("4", 4),        TradeSize("5", 5),
      TradeSize("6", 6),
  };
  return sizes;
}

Result<TradeSize> TradeSize::read(std::string_view shown) {
  std::string name = detail::plain_spelling(shown);
  for (const std::string_view unit : {"inches", "inch", "in.", "in", "\""})
    if (text::ends_with(name, unit)) {
      name.erase(name.size() - unit.size());
      break;
    }
  name = text::replace_all(std::string(text::trim(name)), " ", "-");
  for (const auto& size : all())
    if (size.table_name() == name) return size;

  return Failure{
      "units.unknown-size",
      (name.empty() ? "no trade size is written" : text::quoted(shown) + " is not a trade size") +
          "; allowed, in inches: " + listed(all(), by_table_name)};
}

std::string_view print(Metal m) { return m == Metal::copper ? "Cu" : "Al"; }

const std::vector<std::string>& insulation_types() {
  static const std::vector<std::string> types{"PV",   "USE-2", "RHW-2", "XHHW-2", "XHHW", "THWN-2",
                                              "THWN", "THHN",  "RHH",   "XLPE",   "PVC",  "bare"};
  return types;
}

Result<Wire> Wire::read(std::string_view shown) {
  const std::string quoted = text::quoted(shown);
  std::vector<std::string> words = detail::words(detail::plain_spelling(shown));
  const auto metal_at = std::find_if(words.begin(), words.end(),
                                     [](const auto& w) { return metal_named(w).has_value(); });
  if (words.empty())
    return Failure{"units.empty", "no conductor is written; write one such as '10 AWG Cu PV'"};
  if (metal_at == words.end())
    return Failure{
        "units.no-metal",
        quoted + " does not say the metal; write Cu or Al after the size, such as '10 AWG Cu PV'"};

  Wire wire;
  wire.metal = *metal_named(*metal_at);
  std::vector<std::string> before(words.begin(), metal_at);
  std::vector<std::string> after(metal_at + 1, words.end());

  const bool bare = !before.empty() && text::lower(before.back()) == "bare";
  if (bare) before.pop_back();
  auto size = WireSize::read(text::join(before, " "));
  if (!size) return size.failure();
  wire.size = *std::move(size);

  if (after.size() == 2 && text::lower(after[0]) == "pv" && text::lower(after[1]) == "wire")
    after.pop_back();
  if (bare && after.empty()) {
    wire.insulation = "bare";
  } else if (bare) {
    return Failure{"units.unknown-insulation",
                   quoted + " says bare and names an insulation; write one of them"};
  } else if (!after.empty()) {
    const std::string written = text::join(after, " ");
    wire.insulation = insulation_named(written);
    if (wire.insulation.empty()) {
      const auto near = text::nearest(written, insulation_types());
      return Failure{"units.unknown-insulation",
                     "unknown insulation type " + text::quoted(written) + " in " + quoted +
                         "; allowed: " + text::join(insulation_types(), ", ") +
                         (near ? "; did you mean '" + *near + "'?" : "")};
    }
  }
  return wire;
}

std::string Wire::print() const {
  const std::string metal_name(units::print(metal));
  if (insulation == "bare") return size.print() + " bare " + metal_name;
  return size.print() + " " + metal_name + (insulation.empty() ? "" : " " + insulation);
}

}  // namespace stringwright::units
