#include "job/kinds.hpp"

#include <cmath>
#include <utility>

#include "base/text.hpp"
#include "units/read.hpp"

namespace stringwright::job {

Kind quantity_kind(units::Dimension dimension, bool point) {
  Kind kind;
  kind.name = units::dimension_name(dimension, point);
  kind.words = kind.name + " (" + units::unit_list(dimension, point) + ")";
  kind.or_number = dimension == units::dim::one;
  kind.dimension = dimension;
  kind.point = point;
  kind.has_range = true;
  return kind;
}

Kind coefficient_kind(units::Dimension absolute) {
  const std::string allowed =
      units::unit_list(units::dim::per_kelvin) + ", " + units::unit_list(absolute);
  return named_kind(Shape::text, "coefficient per kelvin (" + allowed + ")",
                    "temperature coefficient (" + allowed + ")");
}

Kind choice_kind(std::vector<std::string> choices) {
  Kind kind;
  kind.choices = std::move(choices);
  for (const auto& choice : kind.choices) kind.words += (kind.words.empty() ? "" : ", ") + choice;
  return kind;
}

Kind named_kind(Shape shape, std::string_view name, std::string_view words) {
  Kind kind;
  kind.shape = shape;
  kind.name = name;
  kind.words = words;
  return kind;
}

Kind kind_of_value(const bool*) { return named_kind(Shape::boolean, "", "true or false"); }
Kind kind_of_value(const int*) {
  Kind kind = named_kind(Shape::integer, "", "whole number");
  kind.has_range = true;
  return kind;
}
Kind kind_of_value(const std::string*) { return named_kind(Shape::text, "", "text"); }
Kind kind_of_value(const units::Wire*) {
  return named_kind(Shape::text, "conductor", "conductor: size, metal, insulation");
}
Kind kind_of_value(const units::WireSize*) {
  return named_kind(Shape::text, "conductor size", "conductor size (AWG, kcmil, mm²)");
}
Kind kind_of_value(const units::TradeSize*) {
  return named_kind(Shape::text, "trade size", "trade size (in)");
}
Kind kind_of_value(const parts::Price*) {
  return named_kind(Shape::text, "price", "price with currency");
}
Kind kind_of_value(const std::vector<ModulePlace>*) {
  return named_kind(Shape::text, "walk", "walk");
}
Kind kind_of_value(const Landing*) { return named_kind(Shape::text, "landing", "landing"); }
Kind kind_of_value(const LengthPattern*) {
  Kind kind = quantity_kind(units::dim::length, false);
  kind.or_pattern = true;
  return kind;
}

std::string print_example(const About& about) {
  const std::string example(about.example);
  const bool number = example.find_first_not_of("0123456789.") == std::string::npos;
  const bool raw =
      number || example == "true" || example == "false" || example[0] == '[' || example[0] == '{';
  return raw ? example : "\"" + example + "\"";
}

std::string print_short(double si, units::Dimension dimension, bool point, int digits) {
  units::AnyQuantity q;
  q.si = si;
  q.dimension = dimension;
  q.point = point;
  const auto shown = units::shown(q);
  std::string number = text::shortest(units::shown_number(q), digits);
  return shown.unit.empty() ? number : number + " " + std::string(shown.unit);
}

std::string print_range(const About& about, units::Dimension dimension, bool point) {
  const auto print = [&](double bound) { return print_short(bound, dimension, point); };
  const bool below = std::isfinite(about.min);
  const bool above = std::isfinite(about.max);
  if (below && above && about.min == about.max) return "only " + print(about.min);
  if (below && above) return print(about.min) + " to " + print(about.max);
  if (below) return "at least " + print(about.min);
  return above ? "at most " + print(about.max) : std::string{};
}

}  // namespace stringwright::job
