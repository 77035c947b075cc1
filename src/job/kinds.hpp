#pragma once

#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "base/about.hpp"
#include "job/job.hpp"
#include "job/patterns.hpp"
#include "units/print.hpp"

/// What a field holds, for messages, the schema and the reference page. One overload per type.
namespace stringwright::job {

enum class Shape { text, integer, boolean };

struct Kind {
  Shape shape = Shape::text;
  std::string name;                  ///< "voltage", "walk"; the schema's name of it
  std::string words;                 ///< "voltage (V, mV, kV)"
  std::vector<std::string> choices;  ///< of an enumeration
  bool list = false;
  bool or_number = false;   ///< a plain number needs no quotes
  bool or_pattern = false;  ///< one text, or { first, step }
  units::Dimension dimension;
  bool point = false;
  bool has_range = false;  ///< min and max of the field apply
};

Kind quantity_kind(units::Dimension dimension, bool point);
Kind coefficient_kind(units::Dimension absolute);
Kind choice_kind(std::vector<std::string> choices);
Kind named_kind(Shape shape, std::string_view name, std::string_view words);

template <units::Dimension D>
Kind kind_of_value(const units::Quantity<D>*) {
  return quantity_kind(D, false);
}
inline Kind kind_of_value(const units::Temperature*) {
  return quantity_kind(units::dim::kelvin, true);
}
template <units::Dimension D>
Kind kind_of_value(const parts::Coefficient<D>*) {
  return coefficient_kind(D - units::dim::kelvin);
}
Kind kind_of_value(const bool*);
Kind kind_of_value(const int*);
Kind kind_of_value(const std::string*);
Kind kind_of_value(const units::Wire*);
Kind kind_of_value(const units::WireSize*);
Kind kind_of_value(const units::TradeSize*);
Kind kind_of_value(const parts::Price*);
Kind kind_of_value(const std::vector<ModulePlace>*);
Kind kind_of_value(const Landing*);
Kind kind_of_value(const LengthPattern*);

template <class E>
  requires std::is_enum_v<E>
Kind kind_of_value(const E*) {
  std::vector<std::string> choices;
  for (int i = 0; !names(static_cast<E*>(nullptr), i).first.empty(); ++i)
    choices.emplace_back(names(static_cast<E*>(nullptr), i).first);
  return choice_kind(std::move(choices));
}

template <units::Dimension D>
Kind kind_of_value(const std::vector<units::Quantity<D>>*) {
  Kind kind = quantity_kind(D, false);
  kind.list = true;
  return kind;
}

/// The name of a choice in the file.
template <class E>
std::string_view name_of(E choice) {
  for (int i = 0;; ++i) {
    const auto [name, value] = names(static_cast<E*>(nullptr), i);
    if (name.empty() || value == choice) return name;
  }
}

/// The example of a field as it stands in a job file: texts in quotes; numbers, truths, lists and tables
/// as they are.
std::string print_example(const About& about);

/// A quantity as short as it can be written: "0.01 A", "180 °", "−80 °C".
std::string print_short(double si, units::Dimension dimension, bool point, int digits = 6);

/// "0.1 V to 1500 V", "at least 0 m", "only 1"; empty where all is allowed.
std::string print_range(const About& about, units::Dimension dimension, bool point);

}  // namespace stringwright::job
