#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/result.hpp"
#include "parts/module.hpp"
#include "pv/constants.hpp"
#include "pv/single_diode.hpp"
#include "units/quantity.hpp"

namespace stringwright::pv {

/// Band gap of the cells and its change with temperature. Source: De Soto, Klein, Beckman, Solar
/// Energy 80 (2006) 78-88, silicon.
struct BandGap {
  double ev = 1.121;               ///< at 25 °C [eV]
  double per_kelvin = -0.0002677;  ///< relative [1/K]
};

struct FitOptions {
  Constants constants = si_2019;
  BandGap band_gap;
  /// The coefficient of V_oc is met as a difference over this step; zero: as a derivative.
  units::TemperatureDifference step = units::kelvins(0);
  /// Reverse breakdown of one cell; none: not modelled.
  std::optional<Breakdown> cell_breakdown;
  double bypass_ideality = 1.05;
  units::Current bypass_saturation = units::amps(1e-6);
};

/// How well five parameters could say what the sheet says. Points at STC are always met exactly.
struct FitReport {
  std::optional<double> ideality;  ///< n of one cell; unknown without a cell count
  /// b_voc could not be met within R_s >= 0, G_sh >= 0: the model's band gap makes up for it.
  bool clipped = false;
  std::optional<units::PerKelvin> b_voc_misfit;  ///< model − sheet, per kelvin of V_oc, before that
  std::optional<units::PerKelvin> g_pmp_misfit;  ///< model − sheet, per kelvin of P_mp
  std::optional<int> cells_suggested;            ///< where the count on the sheet can't be right
  std::vector<std::string> missing;      ///< fields left out that the model would use: "b_voc"
  std::vector<std::string> unavailable;  ///< what can't be told without them, a sentence each
};

/// A module as five parameters at STC and what scales them.
struct ModuleModel {
  std::string id;
  FiveParameters stc;          ///< of the whole module at 1000 W/m², 25 °C
  int groups = 1;              ///< bypass diode groups in series
  bool bypass_fitted = false;  ///< the sheet says how many; else one group without a diode
  std::optional<int> cells;
  std::optional<units::CurrentPerKelvin> a_isc;  ///< none: only 25 °C can be told
  units::PerKelvin r_s_slope;  ///< R_s(T) = R_s · (1 + slope · (T − 25 °C)), at least 0.1 R_s
  FitOptions options;          ///< as used; the band gap is the effective one
  FitReport report;

  bool scales_with_temperature() const { return a_isc.has_value(); }
};

/// Five parameters from a data sheet by nested elimination: for given (a, R_s) the conditions at I_sc,
/// V_oc and (V_mp, I_mp) are linear in (I_0·e^(V_oc/a), G_sh, I_ph); R_s follows from dP/dV = 0, a from
/// the coefficient of V_oc. Method: docs/methods/module-model.md.
///
/// Needs v_oc, v_mp, i_sc, i_mp. Without b_voc or a_isc the curve at 25 °C still holds (with a typical
/// ideality) and nothing scales with temperature. Without `bypass` the module counts as one group
/// without a bypass diode; without `cells` no ideality is told.
///
/// Failures: pv.missing-value, pv.impossible-sheet (no curve of this kind passes the points, or a
/// coefficient has the wrong sign or size).
Result<ModuleModel> fit(const parts::Module& sheet, const FitOptions& options = {});

/// The five parameters of the whole module under `sun` on its plane with cells at `cell`.
///
///     I_ph = S/S_0 · (I_ph0 + α · (T − T_0)),   G_sh = S/S_0 · G_sh0,   a = a_0 · T/T_0
///     I_0  = I_00 · (T/T_0)³ · exp(E_g0/(k·T_0) − E_g(T)/(k·T))
///
/// Source: De Soto et al. (2006); R_s(T) by the coefficient of P_mp, see docs/methods/module-model.md.
/// G_sh keeps at least a millionth of its value, so that a dark module still has a voltage.
///
/// @param share  factor on the photocurrent: age of a string, dirt, rear gain [-]
/// Failures: pv.no-temperature-coefficient where `cell` is not 25 °C and the sheet has no coefficients;
/// pv.out-of-range below −100 °C or above 200 °C, or a negative or infinite sun.
Result<FiveParameters> scale(const ModuleModel& model, units::Irradiance sun,
                             units::Temperature cell, units::Ratio share = 1.0);

/// The module's curve: its groups in series, each under its bypass diode.
Result<Curve> at(const ModuleModel& model, units::Irradiance sun, units::Temperature cell,
                 units::Ratio share = 1.0);

}  // namespace stringwright::pv
