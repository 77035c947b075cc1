#pragma once

#include <optional>

#include "pv/constants.hpp"
#include "units/quantity.hpp"

namespace stringwright::pv {

using Conductance = units::Quantity<units::dim::conductance>;
inline constexpr units::Unit<units::dim::conductance> siemens{1};

/// The five numbers of the single-diode equation of a cell, or of any number of like cells in series:
///
///     I = I_ph − I_0 · (e^(V_d/a) − 1) − G_sh · V_d,    V_d = V + I · R_s
///
/// I is positive out of the plus end. a = n · N_s · kT/q.
struct FiveParameters {
  units::Current i_ph;    ///< photocurrent, >= 0
  units::Current i_0;     ///< saturation current, > 0
  units::Voltage a;       ///< modified ideality factor, > 0
  units::Resistance r_s;  ///< series resistance, >= 0
  Conductance g_sh;       ///< shunt conductance, >= 0; above 0 wherever a current can be forced
};

/// Reverse breakdown: the shunt current is multiplied by 1 + share · (1 − V_d/v)^(−exponent).
///
/// Source: Bishop, Solar Cells 25 (1988) 73-89; usual values 0.1, −15 V a cell, 3.7.
struct Breakdown {
  double share = 0.1;
  units::Voltage v;  ///< breakdown voltage of all cells in series, < 0
  double exponent = 3.7;
};

/// Diode across the cells, conducting where their voltage turns negative: I = I_s · (e^(−V/a) − 1).
struct BypassDiode {
  units::Current i_s = units::amps(1e-6);
  units::Voltage a;  ///< n · kT/q
};

/// Like cells in series, alone or under one bypass diode.
struct CellGroup {
  FiveParameters cells;
  std::optional<Breakdown> breakdown;
  std::optional<BypassDiode> bypass;
};

/// A point of a curve and its slope there.
struct CurvePoint {
  units::Voltage v;
  units::Current i;
  units::Resistance dv_di;  ///< <= 0
};

/// The curve of `in_series` like groups, with the constants of the closed form worked out once.
///
/// Both directions are exact to rounding for every finite argument: without breakdown by
/// λ + e^λ = y (log of the Wright omega function), else by a bracketed root. Where a current is forced
/// through cells that nothing lets pass (no shunt, no bypass diode), a leak of 1e-12 S keeps the voltage
/// finite.
///
/// Proved: single_diode_test.cpp (Lambert W, published points), cases/circuit (circuit simulator).
class Curve {
 public:
  Curve() = default;
  explicit Curve(const CellGroup& group, int in_series = 1);

  CurvePoint at_current(units::Current i) const;
  CurvePoint at_voltage(units::Voltage v) const;
  units::Voltage voltage(units::Current i) const { return at_current(i).v; }
  units::Current current(units::Voltage v) const { return at_voltage(v).i; }

  units::Voltage v_oc() const { return voltage(units::amps(0)); }
  units::Current i_sc() const { return units::amps(c_.i_sc); }
  /// The maximum power point; v = 0, i = 0 in the dark.
  CurvePoint maximum_power() const;

  const CellGroup& group() const { return group_; }
  int in_series() const { return in_series_; }

 private:
  friend class Lanes;  // the same curves, many at a time
  struct Cells {       // constants of one group, SI
    double i_ph = 0, i_0 = 1, a = 1, r_s = 0, g = 0;
    double b = 0, v_br = 0, m = 0;         // breakdown; v_br = 0: none
    double i_s = 0, a_b = 1;               // bypass; i_s = 0: none
    double per_amp = 0;                    // 1/(g·a)
    double i_sc = 0;                       // current of the cells at no voltage
    double rho = 0, log_v = 0, log_i = 0;  // closed forms by voltage and by current
  };
  struct Point {
    double v, i, dv_di;
  };
  static double junction(const Cells& c, double v_d, double* slope);
  static Point cells_at_voltage(const Cells& c, double v);
  static Point cells_at_current(const Cells& c, double i);
  static Point group_at_voltage(const Cells& c, double v);
  static Point group_at_current(const Cells& c, double i);

  CellGroup group_;
  int in_series_ = 1;
  Cells c_;
};

/// λ with λ + e^λ = y, for every finite y: ln ω(y), ω the Wright omega function. To about 1e-15.
double log_wright_omega(double y);

}  // namespace stringwright::pv
