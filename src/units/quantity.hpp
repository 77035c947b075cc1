#pragma once

#include <cmath>
#include <compare>
#include <type_traits>

namespace stringwright::units {

/// Exponents of the SI base units a quantity is made of, and of the radian, which keeps angles
/// and torques (J/rad) apart from plain numbers and energies.
struct Dimension {
  int m = 0, kg = 0, s = 0, a = 0, k = 0, rad = 0;
  friend constexpr bool operator==(const Dimension&, const Dimension&) = default;
};

constexpr Dimension operator+(Dimension x, Dimension y) {
  return {x.m + y.m, x.kg + y.kg, x.s + y.s, x.a + y.a, x.k + y.k, x.rad + y.rad};
}
constexpr Dimension operator-(Dimension x, Dimension y) {
  return {x.m - y.m, x.kg - y.kg, x.s - y.s, x.a - y.a, x.k - y.k, x.rad - y.rad};
}

template <Dimension D>
class Quantity;

template <class N>
concept PlainNumber = std::is_arithmetic_v<N>;

/// A named unit: makes a quantity from a number (`amps(9.2)`) and reads one (`current.in(amps)`).
template <Dimension D>
struct Unit {
  double factor;  ///< SI value of one unit
  constexpr Quantity<D> operator()(double number) const;
};

/// A number with a dimension, stored in SI. Made and read only by naming a unit.
template <Dimension D>
class Quantity {
 public:
  static constexpr Dimension dimension = D;

  constexpr Quantity() = default;
  constexpr Quantity(double plain)
    requires(D == Dimension{})
      : si_(plain) {}
  constexpr operator double() const
    requires(D == Dimension{})
  {
    return si_;
  }

  static constexpr Quantity from_si(double si) {
    Quantity q;
    q.si_ = si;
    return q;
  }
  constexpr double si() const { return si_; }
  constexpr double in(Unit<D> unit) const { return si_ / unit.factor; }

  constexpr Quantity operator-() const { return from_si(-si_); }
  constexpr Quantity& operator+=(Quantity o) { return si_ += o.si_, *this; }
  constexpr Quantity& operator-=(Quantity o) { return si_ -= o.si_, *this; }
  constexpr Quantity& operator*=(double f) { return si_ *= f, *this; }

  friend constexpr Quantity operator+(Quantity x, Quantity y) { return from_si(x.si_ + y.si_); }
  friend constexpr Quantity operator-(Quantity x, Quantity y) { return from_si(x.si_ - y.si_); }
  friend constexpr bool operator==(Quantity x, Quantity y) { return x.si_ == y.si_; }
  friend constexpr auto operator<=>(Quantity x, Quantity y) { return x.si_ <=> y.si_; }

  // A ratio mixes with plain numbers: 1 + β·ΔT, share > 0.8.
  template <PlainNumber N>
    requires(D == Dimension{})
  friend constexpr Quantity operator+(Quantity x, N y) {
    return from_si(x.si_ + static_cast<double>(y));
  }
  template <PlainNumber N>
    requires(D == Dimension{})
  friend constexpr Quantity operator+(N x, Quantity y) {
    return from_si(static_cast<double>(x) + y.si_);
  }
  template <PlainNumber N>
    requires(D == Dimension{})
  friend constexpr Quantity operator-(Quantity x, N y) {
    return from_si(x.si_ - static_cast<double>(y));
  }
  template <PlainNumber N>
    requires(D == Dimension{})
  friend constexpr Quantity operator-(N x, Quantity y) {
    return from_si(static_cast<double>(x) - y.si_);
  }
  template <PlainNumber N>
    requires(D == Dimension{})
  friend constexpr bool operator==(Quantity x, N y) {
    return x.si_ == static_cast<double>(y);
  }
  template <PlainNumber N>
    requires(D == Dimension{})
  friend constexpr auto operator<=>(Quantity x, N y) {
    return x.si_ <=> static_cast<double>(y);
  }

 private:
  double si_ = 0;
};

template <Dimension D>
constexpr Quantity<D> Unit<D>::operator()(double number) const {
  return Quantity<D>::from_si(number * factor);
}

template <Dimension A, Dimension B>
constexpr Quantity<A + B> operator*(Quantity<A> x, Quantity<B> y) {
  return Quantity<A + B>::from_si(x.si() * y.si());
}
template <Dimension A, Dimension B>
constexpr Quantity<A - B> operator/(Quantity<A> x, Quantity<B> y) {
  return Quantity<A - B>::from_si(x.si() / y.si());
}
template <Dimension D>
  requires(!(D == Dimension{}))
constexpr Quantity<D> operator*(double f, Quantity<D> q) {
  return Quantity<D>::from_si(f * q.si());
}
template <Dimension D>
  requires(!(D == Dimension{}))
constexpr Quantity<D> operator*(Quantity<D> q, double f) {
  return Quantity<D>::from_si(f * q.si());
}
template <Dimension D>
  requires(!(D == Dimension{}))
constexpr Quantity<D> operator/(Quantity<D> q, double f) {
  return Quantity<D>::from_si(q.si() / f);
}
template <Dimension D>
constexpr Quantity<D> abs(Quantity<D> q) {
  return q.si() < 0 ? -q : q;
}
template <Dimension D>
constexpr Quantity<D> min(Quantity<D> x, Quantity<D> y) {
  return y < x ? y : x;
}
template <Dimension D>
constexpr Quantity<D> max(Quantity<D> x, Quantity<D> y) {
  return x < y ? y : x;
}

namespace dim {
inline constexpr Dimension one{};
inline constexpr Dimension length{.m = 1};
inline constexpr Dimension area{.m = 2};
inline constexpr Dimension time{.s = 1};
inline constexpr Dimension current{.a = 1};
inline constexpr Dimension kelvin{.k = 1};
inline constexpr Dimension per_kelvin{.k = -1};
inline constexpr Dimension angle{.rad = 1};
inline constexpr Dimension energy{.m = 2, .kg = 1, .s = -2};
inline constexpr Dimension power{.m = 2, .kg = 1, .s = -3};
inline constexpr Dimension voltage{.m = 2, .kg = 1, .s = -3, .a = -1};
inline constexpr Dimension resistance{.m = 2, .kg = 1, .s = -3, .a = -2};
inline constexpr Dimension conductance = Dimension{} - resistance;
inline constexpr Dimension resistance_per_length = resistance - length;
inline constexpr Dimension resistivity = resistance + length;
inline constexpr Dimension irradiance{.kg = 1, .s = -3};
inline constexpr Dimension torque{.m = 2, .kg = 1, .s = -2, .rad = -1};
inline constexpr Dimension voltage_per_kelvin = voltage - kelvin;
inline constexpr Dimension current_per_kelvin = current - kelvin;
inline constexpr Dimension power_per_kelvin = power - kelvin;
}  // namespace dim

using Ratio = Quantity<dim::one>;
using Length = Quantity<dim::length>;
using Area = Quantity<dim::area>;
using Time = Quantity<dim::time>;
using Current = Quantity<dim::current>;
using Voltage = Quantity<dim::voltage>;
using Resistance = Quantity<dim::resistance>;
using ResistancePerLength = Quantity<dim::resistance_per_length>;
using Resistivity = Quantity<dim::resistivity>;
using Power = Quantity<dim::power>;
using Energy = Quantity<dim::energy>;
using TemperatureDifference = Quantity<dim::kelvin>;
using PerKelvin = Quantity<dim::per_kelvin>;
using VoltagePerKelvin = Quantity<dim::voltage_per_kelvin>;
using CurrentPerKelvin = Quantity<dim::current_per_kelvin>;
using Irradiance = Quantity<dim::irradiance>;
using Torque = Quantity<dim::torque>;
using Angle = Quantity<dim::angle>;

inline constexpr Unit<dim::one> plain{1}, percent{0.01};
inline constexpr Unit<dim::length> metres{1}, centimetres{0.01}, millimetres{1e-3}, kilometres{1e3},
    feet{0.3048}, inches{0.0254};
inline constexpr Unit<dim::area> square_metres{1}, square_millimetres{1e-6},
    square_inches{0.0254 * 0.0254};
inline constexpr Unit<dim::time> seconds{1}, minutes{60}, hours{3600};
inline constexpr Unit<dim::current> amps{1}, milliamps{1e-3}, kiloamps{1e3};
inline constexpr Unit<dim::voltage> volts{1}, millivolts{1e-3}, kilovolts{1e3};
inline constexpr Unit<dim::resistance> ohms{1}, milliohms{1e-3}, kilohms{1e3}, megohms{1e6};
inline constexpr Unit<dim::resistance_per_length> ohms_per_metre{1}, ohms_per_kilometre{1e-3},
    ohms_per_thousand_feet{1.0 / 304.8};
inline constexpr Unit<dim::power> watts{1}, kilowatts{1e3};
inline constexpr Unit<dim::energy> joules{1}, watt_hours{3600}, kilowatt_hours{3.6e6};
inline constexpr Unit<dim::kelvin> kelvins{1}, fahrenheit_degrees{5.0 / 9.0};
inline constexpr Unit<dim::per_kelvin> per_kelvin{1}, percent_per_kelvin{0.01};
inline constexpr Unit<dim::voltage_per_kelvin> volts_per_kelvin{1}, millivolts_per_kelvin{1e-3};
inline constexpr Unit<dim::current_per_kelvin> amps_per_kelvin{1}, milliamps_per_kelvin{1e-3};
inline constexpr Unit<dim::irradiance> watts_per_square_metre{1};
inline constexpr Unit<dim::torque> newton_metres{1}, pound_force_inches{0.1129848290276167};
inline constexpr Unit<dim::angle> radians{1}, degrees{0.017453292519943295};

/// Where the temperature scale stands; differences are `TemperatureDifference`.
class Temperature {
 public:
  constexpr Temperature() = default;
  static constexpr Temperature from_kelvin(double k) {
    Temperature t;
    t.kelvin_ = k;
    return t;
  }
  constexpr double kelvin() const { return kelvin_; }
  constexpr double celsius() const { return kelvin_ - 273.15; }
  constexpr double fahrenheit() const { return celsius() * 1.8 + 32; }

  friend constexpr TemperatureDifference operator-(Temperature x, Temperature y) {
    return TemperatureDifference::from_si(x.kelvin_ - y.kelvin_);
  }
  friend constexpr Temperature operator+(Temperature t, TemperatureDifference d) {
    return from_kelvin(t.kelvin_ + d.si());
  }
  friend constexpr Temperature operator-(Temperature t, TemperatureDifference d) {
    return from_kelvin(t.kelvin_ - d.si());
  }
  friend constexpr bool operator==(Temperature, Temperature) = default;
  friend constexpr auto operator<=>(Temperature x, Temperature y) {
    return x.kelvin_ <=> y.kelvin_;
  }

 private:
  double kelvin_ = 0;
};

constexpr Temperature celsius(double c) { return Temperature::from_kelvin(c + 273.15); }
constexpr Temperature fahrenheit(double f) { return celsius((f - 32) / 1.8); }

/// Equality guard for comparisons: 1e-9 relative, so that float noise can't fail "not less than".
constexpr double guard = 1e-9;
template <Dimension D>
constexpr bool at_least(Quantity<D> x, Quantity<D> y) {
  const double scale = std::fmax(std::fabs(x.si()), std::fabs(y.si()));
  return x.si() >= y.si() - guard * scale;
}
template <Dimension D>
constexpr bool at_most(Quantity<D> x, Quantity<D> y) {
  return at_least(y, x);
}

}  // namespace stringwright::units
