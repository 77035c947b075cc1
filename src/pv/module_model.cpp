#include "pv/module_model.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <utility>

#include <fmt/format.h>
#include <boost/math/tools/toms748_solve.hpp>

#include "units/print.hpp"

namespace stringwright::pv {
namespace {

using boost::math::tools::eps_tolerance;
using boost::math::tools::toms748_solve;

constexpr double t_0 = stc_temperature.kelvin();

/// Typical coefficients, to choose an ideality where the sheet has none; they scale nothing.
constexpr double typical_b_voc = -0.0030, typical_a_isc = 0.0005;

/// What a coefficient can be, per kelvin: wide for every kind of cell, narrow enough to catch a wrong
/// unit (%/K for A/K) or a lost sign.
constexpr double b_voc_least = -0.0065, b_voc_most = -0.0008;
constexpr double a_isc_least = -0.0010, a_isc_most = 0.0030;
constexpr double g_pmp_least = -0.0090, g_pmp_most = -0.0005;

/// Below this share of the `a` that the coefficient of V_oc asks for, the points are no junction's.
constexpr double least_share_of_a = 0.25;

/// The resistance slope keeps R_s within what its limits in scale() can carry.
constexpr double r_s_slope_most = 0.01;
constexpr double r_s_least_share = 0.1;

/// The sheet in SI, ready for the elimination.
struct Points {
  double v_oc, i_sc, v_mp, i_mp;
};

/// For given (a, R_s) the conditions at I_sc, V_oc and (V_mp, I_mp) are linear in J_0 = I_0·e^(V_oc/a)
/// and G_sh: no exponential in it exceeds 1.
struct Eliminated {
  double a, r_s, j_0, g;
  double e_m;    // exp of the junction voltage at maximum power, against V_oc
  double g_d;    // conductance of junction and shunt at maximum power
  double slope;  // what dP/dV = 0 leaves over: rises with R_s through zero
};

Eliminated eliminate(const Points& p, double a, double r_s) {
  const double x_m = (p.v_mp + p.i_mp * r_s - p.v_oc) / a;
  const double e_m = std::exp(x_m);
  const double d_s = -std::expm1((p.i_sc * r_s - p.v_oc) / a);
  const double d_m = -std::expm1(x_m);
  const double v_s = p.v_oc - p.i_sc * r_s;
  const double v_m = p.v_oc - p.v_mp - p.i_mp * r_s;
  const double det = d_s * v_m - d_m * v_s;
  Eliminated r{.a = a, .r_s = r_s};
  r.j_0 = (p.i_sc * v_m - p.i_mp * v_s) / det;
  r.g = (d_s * p.i_mp - d_m * p.i_sc) / det;
  r.e_m = e_m;
  r.g_d = r.j_0 * e_m / a + r.g;
  r.slope = r.g_d * (p.v_mp - p.i_mp * r_s) - p.i_mp;
  return r;
}

/// Least shunt conductance that counts as one: a billionth of I_sc/V_oc.
double least_g(const Points& p) { return 1e-9 * p.i_sc / p.v_oc; }

/// R_s for a given `a`, where there is one with R_s >= 0 and G_sh >= 0.
std::optional<Eliminated> with_a(const Points& p, double a) {
  const Eliminated none = eliminate(p, a, 0);
  if (!(none.slope <= 0) || !(none.j_0 > 0)) return std::nullopt;
  // At the upper end the resistance alone makes the drop from V_oc to V_mp: the slope is infinite.
  double hi = std::min((p.v_oc - p.v_mp) / p.i_mp, p.v_mp / p.i_mp);
  double lo = 0, f_hi = -1;
  for (double inset = 1e-12; inset < 0.5 && !(f_hi > 0); inset *= 8) {
    f_hi = eliminate(p, a, hi * (1 - inset)).slope;
    if (f_hi > 0) hi *= 1 - inset;
  }
  if (!(f_hi > 0)) return std::nullopt;
  // The pole at the upper end is far: halve towards the root until the slope is of ordinary size.
  while (f_hi > 10 * p.i_mp) {
    const double mid = lo + (hi - lo) / 2;
    const double f = eliminate(p, a, mid).slope;
    if (f > 0) {
      hi = mid;
      f_hi = f;
    } else {
      lo = mid;
    }
    if (hi - lo <= 1e-14 * hi) break;
  }
  double root = lo;
  const double f_lo = eliminate(p, a, lo).slope;
  if (f_lo < 0) {
    std::uintmax_t steps = 100;
    const auto bracket = toms748_solve([&](double r) { return eliminate(p, a, r).slope; }, lo, hi,
                                       f_lo, f_hi, eps_tolerance<double>(52), steps);
    root = bracket.first + (bracket.second - bracket.first) / 2;
  }
  const Eliminated r = eliminate(p, a, root);
  if (!(r.g >= least_g(p)) || !(r.j_0 > 0)) return std::nullopt;
  return r;
}

FiveParameters parameters(const Points& p, const Eliminated& r) {
  const double i_0 = r.j_0 * std::exp(-p.v_oc / r.a);
  return {.i_ph = units::amps(r.j_0 - i_0 + r.g * p.v_oc),
          .i_0 = units::amps(i_0),
          .a = units::volts(r.a),
          .r_s = units::ohms(r.r_s),
          .g_sh = siemens(r.g)};
}

/// d(ln I_0)/dT at 25 °C: (3 + E_g/(kT) · (1 − T·dE_g)) / T.
double log_i_0_slope(const FitOptions& o) {
  return (3 + o.band_gap.ev / (o.constants.k_over_q() * t_0) * (1 - o.band_gap.per_kelvin * t_0)) /
         t_0;
}

/// How the current at a fixed voltage changes with temperature at 25 °C, R_s held [A/K].
double current_slope(const FiveParameters& f, double alpha, double log_slope, double v, double i) {
  const double x = (v + i * f.r_s.si()) / f.a.si();
  const double e = std::exp(x);
  const double i_0 = f.i_0.si();
  const double g_d = i_0 * e / f.a.si() + f.g_sh.si();
  return (alpha - i_0 * log_slope * (e - 1) + i_0 * e * x / t_0) / (1 + f.r_s.si() * g_d);
}

FiveParameters scaled(const FiveParameters& stc, const FitOptions& o, double alpha,
                      double sun_share, double t, double r_s_share) {
  const double ratio = t / t_0;
  const double k = o.constants.k_over_q();
  const double gap = o.band_gap.ev * (1 + o.band_gap.per_kelvin * (t - t_0));
  const double growth = ratio * ratio * ratio * std::exp(o.band_gap.ev / (k * t_0) - gap / (k * t));
  return {.i_ph = sun_share * (stc.i_ph + units::amps(alpha * (t - t_0))),
          .i_0 = growth * stc.i_0,
          .a = ratio * stc.a,
          .r_s = r_s_share * stc.r_s,
          .g_sh = std::fmax(sun_share, 1e-6) * stc.g_sh};
}

/// The model's coefficient of V_oc [V/K]: the derivative, or the difference over the stated step.
double v_oc_slope(const Points& p, const Eliminated& r, const FitOptions& o, double alpha) {
  const FiveParameters f = parameters(p, r);
  const double step = o.step.si();
  if (step != 0) {
    const Curve warm(CellGroup{.cells = scaled(f, o, alpha, 1, t_0 + step, 1)});
    return (warm.v_oc().si() - p.v_oc) / step;
  }
  // −(∂I/∂T)/(∂I/∂V) at V_oc; I_0·e^(V_oc/a) = J_0.
  const double i_0 = f.i_0.si();
  const double di_dt = alpha - log_i_0_slope(o) * (r.j_0 - i_0) + r.j_0 * p.v_oc / (r.a * t_0);
  return di_dt / (r.j_0 / r.a + r.g);
}

/// The band gap that makes the derivative of V_oc what the sheet says, whatever `a` is.
double gap_that_meets(const Points& p, const Eliminated& r, const FitOptions& o, double alpha,
                      double beta) {
  const double i_0 = r.j_0 * std::exp(-p.v_oc / r.a);
  const double log_slope =
      (alpha + r.j_0 * p.v_oc / (r.a * t_0) - beta * (r.j_0 / r.a + r.g)) / (r.j_0 - i_0);
  return (log_slope * t_0 - 3) * o.constants.k_over_q() * t_0 / (1 - o.band_gap.per_kelvin * t_0);
}

struct Found {
  Eliminated point;
  bool clipped = false;
  double wanted = 0;  // `a` that the coefficient alone asks for
};

/// `a` that meets the coefficient of V_oc, or the nearest that still has R_s >= 0 and G_sh >= 0.
std::optional<Found> search(const Points& p, const FitOptions& o, double alpha, double beta) {
  const double thermal = o.band_gap.ev / (o.constants.k_over_q() * t_0);
  const double start = (p.v_oc - t_0 * beta) /
                       (3 + thermal * (1 - o.band_gap.per_kelvin * t_0) - alpha * t_0 / p.i_sc);
  const auto miss = [&](const Eliminated& r) { return v_oc_slope(p, r, o, alpha) - beta; };

  // The miss falls with a: a large a has a steep V_oc.
  double a_lo = start;
  std::optional<Eliminated> lo = with_a(p, a_lo);
  double a_bad = 0;  // smallest a known to have no solution
  for (int i = 0; !lo && i < 60; ++i) {
    a_bad = a_lo;
    a_lo *= 0.85;
    lo = with_a(p, a_lo);
  }
  if (!lo) return std::nullopt;
  double a_hi = a_lo;
  Eliminated hi = *lo;
  for (int i = 0; miss(*lo) < 0; ++i) {  // too steep: smaller a
    if (i == 60) return Found{*lo, true, start};
    a_hi = a_lo;
    hi = *lo;
    a_bad = 0;
    a_lo *= 0.93;
    const auto next = with_a(p, a_lo);
    if (!next) return Found{hi, true, start};
    lo = next;
  }
  // Now the miss at a_lo is >= 0. Look upwards for one below zero, or for the end of the feasible set.
  while (miss(hi) > 0) {
    const double a_try = a_bad > 0 ? a_hi + (a_bad - a_hi) / 2 : a_hi * 1.07;
    const auto next = with_a(p, a_try);
    if (next) {
      a_lo = a_hi;
      lo = hi;
      a_hi = a_try;
      hi = *next;
    } else {
      a_bad = a_try;
    }
    if (a_bad > 0 && a_bad - a_hi <= 1e-13 * a_hi) return Found{hi, true, start};
  }
  std::uintmax_t steps = 60;
  Eliminated best = hi;
  const auto bracket = toms748_solve(
      [&](double a) {
        if (const auto r = with_a(p, a)) {
          best = *r;
          return miss(best);
        }
        return -1.0;  // only rounding at the end of the feasible set gets here
      },
      a_lo, a_hi, miss(*lo), miss(hi), eps_tolerance<double>(50), steps);
  if (const auto r = with_a(p, bracket.first + (bracket.second - bracket.first) / 2)) best = *r;
  return Found{best, false, start};
}

Failure impossible(const parts::Module& m, std::string why) {
  return {"pv.impossible-sheet", fmt::format("module {}: {}", m.id, why)};
}

std::string percent_per_kelvin(double per_kelvin) {
  return units::print(units::per_kelvin(per_kelvin));
}

/// What no curve of this kind can do, before any number is sought.
std::optional<Failure> refuse(const parts::Module& m, const Points& p) {
  const auto v = [](double x) { return units::print(units::volts(x), 2); };
  const auto i = [](double x) { return units::print(units::amps(x)); };
  for (const double x : {p.v_oc, p.v_mp, p.i_sc, p.i_mp}) {
    if (!(x > 0) || !std::isfinite(x))
      return impossible(m, "voltages and currents must be above zero");
  }
  if (p.v_mp >= p.v_oc) {
    return impossible(
        m, fmt::format("v_mp {} is not below v_oc {}; are the two swapped?", v(p.v_mp), v(p.v_oc)));
  }
  if (p.i_mp >= p.i_sc) {
    return impossible(
        m, fmt::format("i_mp {} is not below i_sc {}; are the two swapped?", i(p.i_mp), i(p.i_sc)));
  }
  // The curve lies below its tangent at the maximum power point, which meets the axes at twice V_mp
  // and twice I_mp.
  if (p.v_oc >= 2 * p.v_mp) {
    return impossible(m, fmt::format("v_oc {} is not below twice v_mp {}: no curve bends that way",
                                     v(p.v_oc), v(p.v_mp)));
  }
  if (p.i_sc >= 2 * p.i_mp) {
    return impossible(m, fmt::format("i_sc {} is not below twice i_mp {}: no curve bends that way",
                                     i(p.i_sc), i(p.i_mp)));
  }
  return std::nullopt;
}

std::optional<Failure> refuse_coefficient(const parts::Module& m, std::string_view field,
                                          double value, double least, double most) {
  if (value >= least && value <= most) return std::nullopt;
  return impossible(
      m,
      fmt::format("{} is {}, outside {} … {}: check its sign and its unit (%/K, or V/K, A/K, W/K)",
                  field, percent_per_kelvin(value), percent_per_kelvin(least),
                  percent_per_kelvin(most)));
}

}  // namespace

Result<ModuleModel> fit(const parts::Module& sheet, const FitOptions& options) {
  {
    std::string missing;
    const auto need = [&](bool known, std::string_view field) {
      if (!known) missing += (missing.empty() ? "" : ", ") + std::string(field);
    };
    need(sheet.v_oc.known(), "v_oc");
    need(sheet.v_mp.known(), "v_mp");
    need(sheet.i_sc.known(), "i_sc");
    need(sheet.i_mp.known(), "i_mp");
    if (!missing.empty()) {
      return Failure{"pv.missing-value",
                     fmt::format("module {}: the curve needs {}, which the record does not give",
                                 sheet.id, missing)};
    }
  }
  const Points p{sheet.v_oc->si(), sheet.i_sc->si(), sheet.v_mp->si(), sheet.i_mp->si()};
  if (auto f = refuse(sheet, p)) return *f;

  ModuleModel model;
  model.id = sheet.id;
  model.options = options;
  FitReport& report = model.report;

  double beta = typical_b_voc, alpha = typical_a_isc;
  if (sheet.b_voc) {
    beta = sheet.b_voc->per_kelvin(*sheet.v_oc).si();
    if (auto f = refuse_coefficient(sheet, "b_voc", beta, b_voc_least, b_voc_most)) return *f;
  } else {
    report.missing.emplace_back("b_voc");
  }
  if (sheet.a_isc) {
    alpha = sheet.a_isc->per_kelvin(*sheet.i_sc).si();
    if (auto f = refuse_coefficient(sheet, "a_isc", alpha, a_isc_least, a_isc_most)) return *f;
  } else {
    report.missing.emplace_back("a_isc");
  }
  if (sheet.g_pmp) {
    const double gamma = sheet.g_pmp->per_kelvin(*sheet.v_mp * *sheet.i_mp).si();
    if (auto f = refuse_coefficient(sheet, "g_pmp", gamma, g_pmp_least, g_pmp_most)) return *f;
  } else {
    report.missing.emplace_back("g_pmp");
  }
  const bool scales = sheet.b_voc.known() && sheet.a_isc.known();
  if (!scales) {
    report.unavailable.emplace_back(
        "voltages, currents and power at cell temperatures other than 25 °C: the sheet gives no " +
        std::string(sheet.b_voc   ? "a_isc"
                    : sheet.a_isc ? "b_voc"
                                  : "b_voc and no a_isc"));
  }

  const auto found = search(p, options, alpha * p.i_sc, beta * p.v_oc);
  if (!found) {
    return impossible(
        sheet,
        fmt::format("no single-diode curve passes v_oc {}, i_sc {} and its maximum at {}, {}",
                    units::print(*sheet.v_oc), units::print(*sheet.i_sc), units::print(*sheet.v_mp),
                    units::print(*sheet.i_mp)));
  }
  model.stc = parameters(p, found->point);
  report.clipped = found->clipped && sheet.b_voc.known();

  const double slope = v_oc_slope(p, found->point, options, alpha * p.i_sc) / p.v_oc;
  if (sheet.b_voc) {
    report.b_voc_misfit = units::per_kelvin(slope - beta);
    if (found->point.a < least_share_of_a * found->wanted) {
      return impossible(sheet, fmt::format("a fill factor of {:.3f} with v_mp {} and i_mp {} needs "
                                           "a junction whose b_voc would be {}, not {}",
                                           p.v_mp * p.i_mp / (p.v_oc * p.i_sc),
                                           units::print(*sheet.v_mp), units::print(*sheet.i_mp),
                                           percent_per_kelvin(slope), percent_per_kelvin(beta)));
    }
    if (found->clipped)
      model.options.band_gap.ev =
          gap_that_meets(p, found->point, options, alpha * p.i_sc, beta * p.v_oc);
  }

  if (sheet.cells) {
    model.cells = *sheet.cells;
    const double thermal = options.constants.thermal_voltage(stc_temperature).si();
    const double n = found->point.a / (*sheet.cells * thermal);
    report.ideality = n;
    // Half-cut cells counted one by one, or a count of cells that are two and two in parallel.
    if (n < 0.65 && *sheet.cells % 2 == 0) report.cells_suggested = *sheet.cells / 2;
    if (n > 1.8) report.cells_suggested = *sheet.cells * 2;
  } else {
    report.missing.emplace_back("cells");
  }
  if (sheet.bypass) {
    model.groups = *sheet.bypass;
    model.bypass_fitted = true;
  } else {
    report.missing.emplace_back("bypass");
    report.unavailable.emplace_back(
        "what bypass diodes do in part shade: the sheet gives no bypass");
  }

  if (scales) {
    model.a_isc = units::amps_per_kelvin(alpha * p.i_sc);
    if (sheet.g_pmp) {
      // dP_mp/dT = V_mp · ∂I/∂T and dP_mp/dR_s = −I_mp², both at the maximum (envelope theorem).
      const double own =
          current_slope(model.stc, alpha * p.i_sc, log_i_0_slope(model.options), p.v_mp, p.i_mp) /
          p.i_mp;
      const double wanted = sheet.g_pmp->per_kelvin(*sheet.v_mp * *sheet.i_mp).si();
      const double share = p.i_mp * model.stc.r_s.si() / p.v_mp;  // of R_s in the power
      double k = 0;
      if (share > 1e-6) k = std::clamp((own - wanted) / share, -r_s_slope_most, r_s_slope_most);
      model.r_s_slope = units::per_kelvin(k);
      report.g_pmp_misfit = units::per_kelvin(own - k * share - wanted);
    }
  }
  return model;
}

Result<FiveParameters> scale(const ModuleModel& model, units::Irradiance sun,
                             units::Temperature cell, units::Ratio share) {
  if (!(sun.si() >= 0) || !std::isfinite(sun.si()) || !(share >= 0) || !std::isfinite(share)) {
    return Failure{
        "pv.out-of-range",
        fmt::format("module {}: the sun must be a number of W/m² that is not negative", model.id)};
  }
  if (!(cell >= units::celsius(-100) && cell <= units::celsius(200))) {
    return Failure{"pv.out-of-range",
                   fmt::format("module {}: a cell temperature of {} is outside −100 °C … 200 °C",
                               model.id, units::print(cell))};
  }
  const double t = cell.kelvin();
  if (!model.a_isc && std::fabs(t - t_0) > 1e-6) {
    return Failure{
        "pv.no-temperature-coefficient",
        fmt::format("module {}: nothing can be told at {}: the sheet gives no b_voc or no a_isc",
                    model.id, units::print(cell))};
  }
  const double alpha = model.a_isc ? model.a_isc->si() : 0;
  const double r_s_share = std::fmax(r_s_least_share, 1 + model.r_s_slope.si() * (t - t_0));
  FiveParameters f = scaled(model.stc, model.options, alpha, sun / stc_irradiance, t, r_s_share);
  f.i_ph *= share;
  return f;
}

Result<Curve> at(const ModuleModel& model, units::Irradiance sun, units::Temperature cell,
                 units::Ratio share) {
  const auto scaled_whole = scale(model, sun, cell, share);
  if (!scaled_whole) return scaled_whole.failure();
  const double n = model.groups;
  CellGroup group;
  group.cells = *scaled_whole;
  group.cells.a = group.cells.a / n;
  group.cells.r_s = group.cells.r_s / n;
  group.cells.g_sh = group.cells.g_sh * n;
  if (model.bypass_fitted) {
    group.bypass = BypassDiode{
        .i_s = model.options.bypass_saturation,
        .a = model.options.bypass_ideality * model.options.constants.thermal_voltage(cell)};
  }
  if (model.options.cell_breakdown && model.cells) {
    group.breakdown = *model.options.cell_breakdown;
    group.breakdown->v *= *model.cells / n;
  }
  return Curve(group, model.groups);
}

}  // namespace stringwright::pv
