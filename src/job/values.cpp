#include "job/values.hpp"

#include <cmath>
#include <limits>
#include <utility>

#include "base/text.hpp"
#include "job/names.hpp"
#include "job/toml_text.hpp"
#include "units/print.hpp"
#include "units/read.hpp"

namespace stringwright::job {
namespace {

/// Lists and plain numbers are shown as they are; all else is a text.
bool is_raw(std::string_view example, std::string_view needed) {
  return needed == "a whole number" || needed == "true or false" || text::starts_with(example, "[");
}

std::string example_for(const Field& field, std::string_view needed) {
  const std::string_view example = field.about.example;
  if (example.empty()) return {};
  const std::string quote = is_raw(example, needed) ? "" : "\"";
  return "for example: " + std::string(field.key) + " = " + quote + std::string(example) + quote;
}

/// Which id a failure of the units room has in a job file.
std::string_view id_of(const Failure& failure) {
  return failure.id == "units.out-of-range" ? "job.out-of-range" : "job.wrong-unit";
}

/// A bound as short as it can be written: "0.01 A", "180 °".
std::string print_bound(double si, units::Dimension dimension, bool point) {
  units::AnyQuantity q;
  q.si = si;
  q.dimension = dimension;
  q.point = point;
  const auto shown = units::shown(q);
  std::string number = text::shortest(units::shown_number(q));
  return shown.unit.empty() ? number : number + " " + std::string(shown.unit);
}

std::string allowed_range(const About& about, const auto& print) {
  const bool below = std::isfinite(about.min);
  const bool above = std::isfinite(about.max);
  if (below && above && about.min == about.max) return "only " + print(about.min);
  if (below && above) return print(about.min) + " to " + print(about.max);
  return below ? "at least " + print(about.min) : "at most " + print(about.max);
}

/// Whether `si` is inside the field's range, as far as float noise lets one say.
bool inside(const About& about, double si) {
  const double slack = units::guard * std::fabs(si);
  return si >= about.min - slack && si <= about.max + slack;
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
std::string Field::example() const { return example_for(*this, "a text"); }

void Field::wrong_type(const toml::node& node, std::string_view needed) const {
  const std::string found = node.is_string() ? "the text " + text::quoted(**node.as_string())
                                             : std::string(kind_of(node));
  out.error("job.wrong-type", span_of(node),
            name() + " is " + found + ", but " + std::string(needed) + " is needed",
            example_for(*this, needed));
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
    si = *number;
  } else {
    const auto found = read_text(field, node, "a text with number and unit");
    if (!found) return std::nullopt;
    const auto read = point ? [&]() -> Result<double> {
      const auto t = units::read_temperature(*found);
      if (!t) return t.failure();
      return t->kelvin();
    }()
        : units::detail::read_as(*found, dimension);
    if (!read) {
      field.out.error(id_of(read.failure()), span_of(node),
                      field.name() + ": " + read.failure().message);
      return std::nullopt;
    }
    si = *read;
  }
  if (inside(field.about, *si)) return si;
  const auto print = [&](double bound) { return print_bound(bound, dimension, point); };
  field.out.error(
      "job.out-of-range", span_of(node),
      field.name() + " is " + print(*si) + "; allowed: " + allowed_range(field.about, print));
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
                    field.name() + ": " + read.failure().message + allowed);
    return std::nullopt;
  }
  if (read->point || (read->dimension != units::dim::per_kelvin && read->dimension != absolute)) {
    field.out.error("job.wrong-unit", span_of(node),
                    field.name() + ": " + text::quoted(*found) +
                        " is no temperature coefficient, but " +
                        std::string(units::dimension_name(read->dimension, read->point)) + allowed);
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
  const double limit = std::numeric_limits<int>::max();
  const double asked = static_cast<double>(number);
  if (!inside(field.about, asked) || std::fabs(asked) > limit) {
    const auto print = [](double bound) { return text::shortest(bound); };
    About about = field.about;
    about.max = std::fmin(about.max, limit);
    field.out.error("job.out-of-range", span_of(node),
                    field.name() + " is " + std::to_string(number) +
                        "; allowed: " + allowed_range(about, print));
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
