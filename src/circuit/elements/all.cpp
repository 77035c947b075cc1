#include "circuit/elements/all.hpp"

#include <cassert>
#include <concepts>
#include <string_view>
#include <type_traits>

namespace stringwright::circuit {
namespace {

std::string_view name_of(const CellGroup&) { return "cell-group"; }
std::string_view name_of(const Resistor&) { return "resistor"; }
std::string_view name_of(const Source&) { return "source"; }
std::string_view name_of(const Joint&) { return "joint"; }
std::string_view name_of(const Diode&) { return "diode"; }

template <class E>
constexpr bool is_straight = requires(const E& e) {
  { linear(e) } -> std::same_as<Linear>;  // not that of Law, to which every element converts
};

}  // namespace

std::string_view name(const Law& law) {
  return std::visit([](const auto& e) { return name_of(e); }, law);
}

std::optional<Linear> linear(const Law& law) {
  return std::visit(
      [](const auto& e) -> std::optional<Linear> {
        if constexpr (is_straight<std::decay_t<decltype(e)>>) return linear(e);
        return std::nullopt;
      },
      law);
}

Drop at_current(const Law& law, units::Current i) {
  return std::visit(
      [&](const auto& e) -> Drop {
        if constexpr (is_straight<std::decay_t<decltype(e)>>) {
          const Linear line = linear(e);
          return {line.e - line.r * i, -line.r};
        } else {
          return at_current(e, i);
        }
      },
      law);
}

Flow at_voltage(const Law& law, units::Voltage v) {
  return std::visit(
      [&](const auto& e) -> Flow {
        if constexpr (is_straight<std::decay_t<decltype(e)>>) {
          const Linear line = linear(e);
          assert(line.r.si() > 0 && "a law without resistance has no current of its own");
          return {(line.e - v) / line.r, pv::siemens(-1 / line.r.si())};
        } else {
          return at_voltage(e, v);
        }
      },
      law);
}

}  // namespace stringwright::circuit
