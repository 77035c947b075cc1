#include "job/values.hpp"

#include <cmath>
#include <limits>
#include <utility>

#include "base/text.hpp"
#include "job/kinds.hpp"
#include "job/names.hpp"
#include "job/toml_text.hpp"
#include "units/read.hpp"

namespace stringwright::job {
namespace {

/// Which id a failure of the units room has in a job file.
std::string_view id_of(const Failure& failure) {
  return failure.id == "units.out-of-range" ? "job.out-of-range" : "job.wrong-unit";
}

/// Whether `si` is inside the field's range, as far as float noise lets one say.
bool inside(const About& about, double si) {
  const double slack = units::guard * std::fabs(si);
  return si >= about.min - slack && si <= about.max + slack;
}

void out_of_range(const Field& field, const toml::node& node, double si, units::Dimension dimension,
                  bool point) {
  const std::string range = print_range(field.about, dimension, point);
  std::string found = print_short(si, dimension, point);
  if (range.find(found) != std::string::npos) found = print_short(si, dimension, point, 15);
  field.out.error("job.out-of-range", span_of(node),
                  field.name() + " is " + found +
                      (range.empty() ? ", too large to reckon with" : "; allowed: " + range));
}

/// Control characters have no place in a text that is printed on papers.
bool is_printable(std::string_view s) {
  for (const char c : s)
    if (c != '\n' && c != '\t' && (static_cast<unsigned char>(c) < 0x20 || c == 0x7F)) return false;
  return true;
}

template <class T>
bool read_sized(const Field& field, const toml::node& node, std::string_view needed, T& value) {
  const auto found = read_text(field, node, needed);
  if (!found) return false;
  auto read = T::read(*found);
  if (!read) {
    field.out.error("job.bad-size", span_of(node), field.name() + ": " + read.failure().message);
    return false;
  }
  value = *std::move(read);
  return true;
}

}  // namespace

std::string Field::name() const { return "'" + std::string(key) + "' in " + where; }

std::string Field::example() const {
  if (about.example.empty()) return {};
  return "for example: " + std::string(key) + " = " + print_example(about);
}

void Field::wrong_type(const toml::node& node, std::string_view needed) const {
  const std::string found = node.is_string() ? "the text " + text::quoted(**node.as_string())
                                             : std::string(kind_of(node));
  out.error("job.wrong-type", span_of(node),
            name() + " is " + found + ", but " + std::string(needed) + " is needed", example());
}

std::optional<std::string> read_text(const Field& field, const toml::node& node,
                                     std::string_view needed) {
  const auto* found = node.as_string();
  if (!found) {
    field.wrong_type(node, needed);
    return std::nullopt;
  }
  if (!is_printable(**found)) {
    field.out.error("job.wrong-type", span_of(node), field.name() + " holds a control character");
    return std::nullopt;
  }
  return **found;
}

Result<double> read_number(std::string_view text, units::Dimension dimension, bool point) {
  if (!point) return units::detail::read_as(text, dimension);
  const auto t = units::read_temperature(text);
  if (!t) return t.failure();
  return t->kelvin();
}

std::optional<double> read_si(const Field& field, const toml::node& node,
                              units::Dimension dimension, bool point) {
  const bool plain = dimension == units::dim::one && !point;
  std::optional<double> si;
  if (const auto number = node.value<double>(); number && node.is_number()) {
    if (!std::isfinite(*number)) {
      field.out.error("job.wrong-type", span_of(node),
                      field.name() + " is not a number that can be measured",
                      "leave it out if it is not known");
      return std::nullopt;
    }
    if (!plain) {
      field.out.error("job.wrong-unit", span_of(node),
                      field.name() + " is the number " + text::shortest(*number) +
                          " without a unit; allowed: " + units::unit_list(dimension, point),
                      field.example());
      return std::nullopt;
    }
    si = number;
  } else {
    const auto found = read_text(field, node, "a text with number and unit");
    if (!found) return std::nullopt;
    const auto read = read_number(*found, dimension, point);
    if (!read) {
      field.out.error(id_of(read.failure()), span_of(node),
                      field.name() + ": " + read.failure().message, field.example());
      return std::nullopt;
    }
    si = *read;
  }
  if (inside(field.about, *si)) return si;
  out_of_range(field, node, *si, dimension, point);
  return std::nullopt;
}

std::optional<units::Reading> read_coefficient(const Field& field, const toml::node& node,
                                               units::Dimension absolute) {
  const std::string allowed =
      "; allowed: " + units::unit_list(units::dim::per_kelvin) + ", " + units::unit_list(absolute);
  if (node.is_number()) {
    field.out.error("job.wrong-unit", span_of(node),
                    field.name() + " is a number without a unit" + allowed, field.example());
    return std::nullopt;
  }
  const auto found = read_text(field, node, "a text with number and unit");
  if (!found) return std::nullopt;
  const auto read = units::read_any(*found);
  if (!read) {
    field.out.error(id_of(read.failure()), span_of(node),
                    field.name() + ": " + read.failure().message + allowed, field.example());
    return std::nullopt;
  }
  if (read->point || (read->dimension != units::dim::per_kelvin && read->dimension != absolute)) {
    field.out.error("job.wrong-unit", span_of(node),
                    field.name() + ": " + text::quoted(*found) +
                        " is no temperature coefficient, but " +
                        std::string(units::dimension_name(read->dimension, read->point)) + allowed,
                    field.example());
    return std::nullopt;
  }
  return *read;
}

void unknown_choice(const Field& field, const toml::node& node, std::string_view found,
                    const std::vector<std::string>& names) {
  field.out.error("job.unknown-choice", span_of(node),
                  field.name() + " can't be " + text::quoted(found),
                  suggest(found, names, "allowed: "));
}

bool right_length(const Field& field, const toml::array& list) {
  const auto wanted = static_cast<std::size_t>(field.about.items);
  if (wanted == 0 || list.size() == wanted) return true;
  field.out.error("job.wrong-type", span_of(list),
                  field.name() + " has " + std::to_string(list.size()) + " entries; it needs " +
                      std::to_string(wanted),
                  field.example());
  return false;
}

bool read_value(const Field& field, const toml::node& node, bool& value) {
  const auto* found = node.as_boolean();
  if (!found) {
    field.wrong_type(node, "true or false");
    return false;
  }
  value = **found;
  return true;
}

bool read_value(const Field& field, const toml::node& node, int& value) {
  const auto* found = node.as_integer();
  if (!found) {
    field.wrong_type(node, "a whole number");
    return false;
  }
  const auto number = **found;
  if (!inside(field.about, static_cast<double>(number)) ||
      number > std::numeric_limits<int>::max() || number < std::numeric_limits<int>::min()) {
    out_of_range(field, node, static_cast<double>(number), units::dim::one, false);
    return false;
  }
  value = static_cast<int>(number);
  return true;
}

bool read_value(const Field& field, const toml::node& node, std::string& value) {
  // A date needs no quotes in TOML; it is kept as it would be written in quotes.
  if (const auto* date = node.as_date()) {
    const auto& d = **date;
    const auto digits = [](unsigned number, std::size_t width) {
      std::string s = std::to_string(number);
      if (s.size() < width) s.insert(0, width - s.size(), '0');
      return s;
    };
    value = digits(d.year, 4) + "-" + digits(d.month, 2) + "-" + digits(d.day, 2);
    return true;
  }
  const auto found = read_text(field, node, "a text in quotes");
  if (found) value = *found;
  return found.has_value();
}

bool read_value(const Field& field, const toml::node& node, units::Temperature& value) {
  const auto kelvin = read_si(field, node, units::dim::kelvin, true);
  if (kelvin) value = units::Temperature::from_kelvin(*kelvin);
  return kelvin.has_value();
}

bool read_value(const Field& field, const toml::node& node, units::Wire& value) {
  return read_sized(field, node, "a text such as \"10 AWG Cu PV\"", value);
}
bool read_value(const Field& field, const toml::node& node, units::WireSize& value) {
  return read_sized(field, node, "a text such as \"10 AWG\"", value);
}
bool read_value(const Field& field, const toml::node& node, units::TradeSize& value) {
  return read_sized(field, node, "a text such as \"3/4 in\"", value);
}

bool read_value(const Field& field, const toml::node& node, parts::Price& value) {
  const auto found = read_text(field, node, "a text such as \"12.50 EUR\"");
  if (!found) return false;
  auto price = parts::Price::read(*found);
  if (!price)
    field.out.error("job.bad-price", span_of(node), field.name() + ": " + price.failure().message);
  else
    value = *std::move(price);
  return price.ok();
}

bool read_value(const Field& field, const toml::node& node, std::vector<ModulePlace>& value) {
  const auto found = read_text(field, node, "a text");
  if (!found) return false;
  auto walk = read_walk(*found);
  if (!walk) {
    field.out.error("job.bad-walk", field.out.inside(span_of(node), walk.failure().part),
                    field.name() + ": " + walk.failure().message, field.example());
    return false;
  }
  value = *std::move(walk);
  return true;
}

bool read_value(const Field& field, const toml::node& node, Landing& value) {
  const auto found = read_text(field, node, "a text");
  if (!found) return false;
  auto landing = read_landing(*found);
  if (!landing) {
    field.out.error(
        "job.bad-landing", span_of(node),
        field.name() + " is " + text::quoted(*found) + "; " + landing.failure().message);
    return false;
  }
  value = *std::move(landing);
  return true;
}

}  // namespace stringwright::job
