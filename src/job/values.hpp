#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include <toml++/toml.h>

#include "base/about.hpp"
#include "job/job.hpp"
#include "job/messages.hpp"
#include "units/read.hpp"

/// Values of the job file, one overload per type: each says what is wrong and returns false, or fills
/// `value`. Adding a type to the format is an overload here, in schema.cpp and in write.cpp.
namespace stringwright::job {

/// The field that a value is read for.
struct Field {
  std::string_view key;
  const About& about;
  const std::string& where;  ///< "[run.OUT]"
  Messages& out;

  std::string name() const;  ///< "'length' in [run.OUT]"
  /// What to write instead, where the field has an example: `for example: length = "36.5 m"`.
  std::string example() const;
  void wrong_type(const toml::node& node, std::string_view needed) const;
};

std::optional<std::string> read_text(const Field& field, const toml::node& node,
                                     std::string_view needed);
/// The number in SI of a text such as "36.5 m".
Result<double> read_number(std::string_view text, units::Dimension dimension, bool point);
/// A quantity of that dimension, in SI and inside the field's range.
std::optional<double> read_si(const Field& field, const toml::node& node,
                              units::Dimension dimension, bool point);
/// A coefficient in 1/K or in `absolute`.
std::optional<units::Reading> read_coefficient(const Field& field, const toml::node& node,
                                               units::Dimension absolute);
void unknown_choice(const Field& field, const toml::node& node, std::string_view found,
                    const std::vector<std::string>& names);

bool read_value(const Field& field, const toml::node& node, bool& value);
bool read_value(const Field& field, const toml::node& node, int& value);
bool read_value(const Field& field, const toml::node& node, std::string& value);
bool read_value(const Field& field, const toml::node& node, units::Temperature& value);
bool read_value(const Field& field, const toml::node& node, units::Wire& value);
bool read_value(const Field& field, const toml::node& node, units::WireSize& value);
bool read_value(const Field& field, const toml::node& node, units::TradeSize& value);
bool read_value(const Field& field, const toml::node& node, parts::Price& value);
bool read_value(const Field& field, const toml::node& node, std::vector<ModulePlace>& value);
bool read_value(const Field& field, const toml::node& node, Landing& value);

struct LengthPattern;
bool read_value(const Field& field, const toml::node& node, LengthPattern& value);

template <units::Dimension D>
bool read_value(const Field& field, const toml::node& node, units::Quantity<D>& value) {
  const auto si = read_si(field, node, D, false);
  if (si) value = units::Quantity<D>::from_si(*si);
  return si.has_value();
}

template <units::Dimension D>
bool read_value(const Field& field, const toml::node& node, parts::Coefficient<D>& value) {
  const auto read = read_coefficient(field, node, D - units::dim::kelvin);
  if (!read) return false;
  if (read->dimension == units::dim::per_kelvin)
    value.relative = units::PerKelvin::from_si(read->si);
  else
    value.absolute = units::Quantity<D - units::dim::kelvin>::from_si(read->si);
  return true;
}

template <class E>
  requires std::is_enum_v<E>
bool read_value(const Field& field, const toml::node& node, E& value) {
  const auto found = read_text(field, node, "a text");
  if (!found) return false;
  std::vector<std::string> all;
  for (int i = 0; !names(static_cast<E*>(nullptr), i).first.empty(); ++i) {
    const auto& [name, choice] = names(static_cast<E*>(nullptr), i);
    if (name == *found) {
      value = choice;
      return true;
    }
    all.emplace_back(name);
  }
  unknown_choice(field, node, *found, all);
  return false;
}

/// Number of entries that the field asks for.
bool right_length(const Field& field, const toml::array& list);

template <class T>
bool read_value(const Field& field, const toml::node& node, std::vector<T>& value) {
  const auto* list = node.as_array();
  if (!list) {
    field.wrong_type(node, "a list");
    return false;
  }
  if (!right_length(field, *list)) return false;
  bool good = true;
  for (const auto& entry : *list) {
    T one;
    if (read_value(field, entry, one))
      value.push_back(std::move(one));
    else
      good = false;
  }
  return good;
}

}  // namespace stringwright::job
