#include "units/read.hpp"

#include <array>
#include <cmath>
#include <optional>
#include <vector>

#include "base/text.hpp"
#include "units/spelling.hpp"

namespace stringwright::units {
namespace {

/// One unit that can be read. The first name is the one that messages offer; the others are accepted.
struct ReadUnit {
  Dimension dimension;
  double factor;  ///< SI value of one unit; °C and °F convert by their scale instead
  std::string_view names;
};

enum class Scale { difference, celsius, fahrenheit };

template <Dimension D>
constexpr ReadUnit row(Unit<D> unit, std::string_view names) {
  return {D, unit.factor, names};
}

constexpr std::string_view celsius_names = "°C C degC °c";
constexpr std::string_view fahrenheit_names = "°F F degF °f";

constexpr double inch_pound = pound_force_inches.factor;

// In the order in which messages list them. Names as `unit_spelling` leaves them: no blanks, no '^'.
constexpr std::array units{
    row(metres, "m metre metres meter meters"),
    row(millimetres, "mm"),
    row(centimetres, "cm"),
    row(kilometres, "km"),
    row(feet, "ft feet foot '"),
    row(inches, "in inch inches in. \""),
    row(square_millimetres, "mm² sqmm"),
    ReadUnit{dim::area, 1e-4, "cm² sqcm"},
    row(square_metres, "m² sqm"),
    row(square_inches, "in² sqin"),
    ReadUnit{dim::area, 0.3048 * 0.3048, "ft² sqft"},
    row(seconds, "s sec"),
    ReadUnit{dim::time, 1e-3, "ms"},
    row(minutes, "min"),
    row(hours, "h hr"),
    ReadUnit{dim::time, 86400, "d"},
    row(amps, "A amp amps ampere amperes"),
    row(milliamps, "mA"),
    row(kiloamps, "kA"),
    row(volts, "V volt volts"),
    row(millivolts, "mV"),
    row(kilovolts, "kV"),
    row(ohms, "Ω"),
    row(milliohms, "mΩ"),
    row(kilohms, "kΩ"),
    row(megohms, "MΩ megΩ"),
    ReadUnit{dim::conductance, 1, "S"},
    ReadUnit{dim::conductance, 1e-3, "mS"},
    row(ohms_per_kilometre, "Ω/km mΩ/m"),
    row(ohms_per_metre, "Ω/m"),
    row(ohms_per_thousand_feet, "Ω/kft Ω/1000ft mΩ/ft"),
    ReadUnit{dim::resistivity, 1e-6, "Ω·mm²/m"},
    ReadUnit{dim::resistivity, 1, "Ω·m Ωm"},
    row(watts, "W watt watts Wp"),
    row(kilowatts, "kW kWp"),
    row(watt_hours, "Wh W·h"),
    row(kilowatt_hours, "kWh kW·h"),
    ReadUnit{dim::energy, 3.6e9, "MWh MW·h"},
    row(joules, "J"),
    row(kelvins, "K ΔK"),
    ReadUnit{dim::kelvin, 1, "Δ°C ΔC"},
    row(fahrenheit_degrees, "Δ°F ΔF"),
    row(percent_per_kelvin, "%/K"),
    ReadUnit{dim::per_kelvin, 0.018, "%/°F %/F"},
    row(per_kelvin, "/K 1/K"),
    row(volts_per_kelvin, "V/K"),
    row(millivolts_per_kelvin, "mV/K"),
    row(amps_per_kelvin, "A/K"),
    row(milliamps_per_kelvin, "mA/K"),
    ReadUnit{dim::power_per_kelvin, 1, "W/K"},
    row(watts_per_square_metre, "W/m²"),
    ReadUnit{dim::irradiance, 1e3, "kW/m²"},
    row(newton_metres, "N·m Nm N-m"),
    row(pound_force_inches,
        "lbf·in lbf-in lbfin in·lbf in-lbf inlbf lb·in lb-in lbin in·lb in-lb inlb in-lbs"),
    ReadUnit{dim::torque, 12 * inch_pound,
             "lbf·ft lbf-ft lbfft ft·lbf ft-lbf ftlbf lb·ft lb-ft lbft ft·lb ft-lb ftlb ft-lbs"},
    row(degrees, "° deg degree degrees"),
    row(radians, "rad"),
    row(percent, "% percent"),
};

bool is_named(std::string_view names, std::string_view name) {
  for (const auto one : text::split(names, ' '))
    if (one == name) return true;
  return false;
}

std::string_view first_name(std::string_view names) { return names.substr(0, names.find(' ')); }

/// A unit without what people vary: blanks, '^', "ohm" for Ω, "m2" for m², "/°C" for "/K".
std::string unit_spelling(std::string_view plain) {
  std::string u = text::replace_all(std::string(plain), " ", "");
  u = text::replace_all(u, "^", "");
  u = text::replace_all(u, "*", "·");
  for (const auto word : {"ohms", "ohm", "Ohms", "Ohm"}) u = text::replace_all(u, word, "Ω");
  for (const auto squared : {"m2", "in2", "ft2"})
    if (const auto at = u.find(squared); at != std::string::npos)
      u.replace(at + std::string_view(squared).size() - 1, 1, "²");
  for (const auto degree : {"/°C", "/degC", "/C"})
    if (text::ends_with(u, degree))
      u.replace(u.size() - std::string_view(degree).size(), std::string::npos, "/K");
  return u;
}

struct FoundUnit {
  Dimension dimension;
  double factor = 1;
  Scale scale = Scale::difference;
};

std::optional<FoundUnit> find_unit(std::string_view plain) {
  const std::string name = unit_spelling(plain);
  if (name.empty()) return std::nullopt;
  if (is_named(celsius_names, name)) return FoundUnit{dim::kelvin, 1, Scale::celsius};
  if (is_named(fahrenheit_names, name)) return FoundUnit{dim::kelvin, 1, Scale::fahrenheit};
  for (const auto& u : units)
    if (is_named(u.names, name)) return FoundUnit{u.dimension, u.factor, Scale::difference};
  return std::nullopt;
}

/// What a reader was asked for; nothing: any dimension.
struct Wanted {
  Dimension dimension;
  bool point = false;
};

std::string with_article(std::string_view name) {
  const bool vowel = std::string_view("aeiou").find(name.front()) != std::string_view::npos;
  return (vowel ? "an " : "a ") + std::string(name);
}

std::string allowed(const std::optional<Wanted>& wanted) {
  if (!wanted) return "";
  const std::string list = unit_list(wanted->dimension, wanted->point);
  return list.empty() ? "" : "; allowed: " + list;
}

/// Units that differ from `name` in capitals only, else the one nearest by edits.
std::string near_miss(std::string_view name, const std::optional<Wanted>& wanted) {
  std::vector<std::string> names;
  const auto take = [&](std::string_view list, bool point, Dimension d) {
    if (wanted && !(wanted->dimension == d && wanted->point == point)) return;
    for (const auto one : text::split(list, ' ')) names.emplace_back(one);
  };
  take(celsius_names, true, dim::kelvin);
  take(fahrenheit_names, true, dim::kelvin);
  for (const auto& u : units) take(u.names, false, u.dimension);

  std::vector<std::string> alike;
  for (const auto& one : names)
    if (text::lower(one) == text::lower(name)) alike.push_back("'" + one + "'");
  if (!alike.empty()) return "; did you mean " + text::join(alike, " or ") + "?";
  if (const auto one = text::nearest(name, names)) return "; did you mean '" + *one + "'?";
  return "";
}

/// "1/0 AWG", "250 kcmil": a name, and no quantity of anything.
bool names_wire_size(std::string_view plain) {
  const std::string s = text::lower(plain);
  return text::ends_with(s, "awg") || text::ends_with(s, "kcmil") || text::ends_with(s, "mcm") ||
         text::starts_with(s, "awg");
}

Failure no_unit(std::string_view shown, const std::optional<Wanted>& wanted) {
  return {"units.no-unit", text::quoted(shown) + " has no unit" + allowed(wanted)};
}

/// A unit that nobody knows, or a known one with more behind it.
Failure unknown_unit(std::string_view shown, std::string_view unit,
                     const std::optional<Wanted>& wanted) {
  for (auto blank = unit.rfind(' '); blank != std::string_view::npos && blank > 0;
       blank = unit.rfind(' ', blank - 1))
    if (find_unit(unit.substr(0, blank)))
      return {"units.trailing-text", text::quoted(text::trim(unit.substr(blank))) +
                                         " after the unit in " + text::quoted(shown) +
                                         " is not understood"};
  return {"units.unknown-unit", "unknown unit " + text::quoted(unit) + " in " +
                                    text::quoted(shown) + allowed(wanted) +
                                    near_miss(unit_spelling(unit), wanted)};
}

/// "5 ft 6 in": what follows the feet, where `unit` is such a pair.
std::optional<double> feet_and_inches(double number, std::string_view unit,
                                      std::string_view shown) {
  const auto digit = unit.find_first_of("0123456789");
  if (digit == std::string_view::npos || digit == 0) return std::nullopt;
  const auto first = find_unit(unit.substr(0, digit));
  if (!first || first->dimension != dim::length || first->factor != feet.factor)
    return std::nullopt;
  const auto second = detail::take_number(unit.substr(digit), shown);
  if (!second) return std::nullopt;
  const auto small = find_unit(second->rest);
  if (!small || small->dimension != dim::length || small->factor != inches.factor)
    return std::nullopt;
  const double size = feet(std::fabs(number)).si() + inches(second->value).si();
  return std::signbit(number) ? -size : size;
}

Result<Reading> parse(std::string_view shown, const std::optional<Wanted>& wanted) {
  const std::string plain = detail::plain_spelling(shown);
  if (plain.empty()) return Failure{"units.empty", "no quantity is written" + allowed(wanted)};
  if (names_wire_size(plain))
    return Failure{
        "units.unknown-unit",
        text::quoted(shown) + " names a conductor size, which is not a quantity" + allowed(wanted)};
  const auto number = detail::take_number(plain, shown);
  if (!number) return number.failure();

  Reading r;
  if (number->rest.empty()) {
    if (!wanted || wanted->dimension != dim::one) return no_unit(shown, wanted);
    r.si = number->value;
    r.dimension = dim::one;
  } else if (const auto unit = find_unit(number->rest)) {
    r.dimension = unit->dimension;
    r.point = unit->scale != Scale::difference;
    switch (unit->scale) {
      case Scale::difference:
        r.si = number->value * unit->factor;
        break;
      case Scale::celsius:
        r.si = celsius(number->value).kelvin();
        break;
      case Scale::fahrenheit:
        r.si = fahrenheit(number->value).kelvin();
        break;
    }
  } else if (const auto length = feet_and_inches(number->value, number->rest, shown)) {
    r.si = *length;
    r.dimension = dim::length;
  } else {
    return unknown_unit(shown, number->rest, wanted);
  }

  if (!std::isfinite(r.si))
    return Failure{"units.out-of-range", text::quoted(shown) + " is too large to reckon with"};
  if (r.point && r.si < 0)
    return Failure{"units.out-of-range",
                   text::quoted(shown) + " lies below absolute zero, −273.15 °C"};
  if (wanted && !(r.dimension == wanted->dimension && r.point == wanted->point))
    return Failure{"units.wrong-dimension",
                   text::quoted(shown) + " is " +
                       with_article(dimension_name(r.dimension, r.point)) + ", but " +
                       with_article(dimension_name(wanted->dimension, wanted->point)) +
                       " is needed" + allowed(wanted)};
  return r;
}

}  // namespace

std::string_view dimension_name(Dimension d, bool point) {
  if (point) return "temperature";
  struct Name {
    Dimension dimension;
    std::string_view name;
  };
  constexpr std::array names{
      Name{dim::one, "plain number"},
      Name{dim::length, "length"},
      Name{dim::area, "area"},
      Name{dim::time, "time"},
      Name{dim::current, "current"},
      Name{dim::kelvin, "temperature difference"},
      Name{dim::per_kelvin, "temperature coefficient"},
      Name{dim::angle, "angle"},
      Name{dim::energy, "energy"},
      Name{dim::power, "power"},
      Name{dim::voltage, "voltage"},
      Name{dim::resistance, "resistance"},
      Name{dim::conductance, "conductance"},
      Name{dim::resistance_per_length, "resistance per length"},
      Name{dim::resistivity, "resistivity"},
      Name{dim::irradiance, "irradiance"},
      Name{dim::torque, "torque"},
      Name{dim::voltage_per_kelvin, "voltage per kelvin"},
      Name{dim::current_per_kelvin, "current per kelvin"},
      Name{dim::power_per_kelvin, "power per kelvin"},
  };
  for (const auto& n : names)
    if (n.dimension == d) return n.name;
  return "quantity without a name";
}

std::string unit_list(Dimension d, bool point) {
  if (point) return "°C, °F";
  std::vector<std::string> all;
  for (const auto& u : units)
    if (u.dimension == d) all.emplace_back(first_name(u.names));
  if (d == dim::one) all.emplace_back("or a number alone");
  return text::join(all, ", ");
}

Result<Reading> read_any(std::string_view text) { return parse(text, std::nullopt); }

Result<Temperature> read_temperature(std::string_view text) {
  const auto r = parse(text, Wanted{dim::kelvin, true});
  if (!r) return r.failure();
  return Temperature::from_kelvin(r->si);
}

namespace detail {
Result<double> read_as(std::string_view text, Dimension d) {
  const auto r = parse(text, Wanted{d, false});
  if (!r) return r.failure();
  return r->si;
}
}  // namespace detail

}  // namespace stringwright::units
