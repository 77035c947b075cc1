#include <cmath>
#include <vector>

#include "kinds.hpp"
#include "pv/cell_temperature.hpp"
#include "pv/module_model.hpp"
#include "pv/single_diode.hpp"
#include "pv/translate.hpp"

namespace stringwright::run_cases {
namespace {

using units::amps;
using units::kelvins;
using units::ohms;
using units::per_kelvin;
using units::volts;
using units::watts_per_square_metre;

units::Temperature temperature(double kelvin) { return units::Temperature::from_kelvin(kelvin); }

/// CODATA 1998, by which the points and fits of 1986 are recomputed in print.
constexpr pv::Constants codata_1998{.k = 1.3806503e-23, .q = 1.60217646e-19};

/// The constants of the publication where it names its own.
pv::Constants constants(Answers& a, pv::Constants c = {}) {
  c.k = a.number("k", "J/K").value_or(c.k);
  c.q = a.number("q", "C").value_or(c.q);
  return c;
}

/// Five parameters as a case lists them. The ideality `n` is that of the whole chain of cells.
std::optional<pv::FiveParameters> listed(Answers& a, const pv::Constants& c) {
  const auto i_ph = a.number("iph", "A"), i_0 = a.number("i0", "A"), r_s = a.number("rs", "ohm");
  const auto r_sh = a.number("rsh", "ohm"), n = a.number("n", "1"),
             t = a.number("temperature", "K");
  if (!i_ph || !i_0 || !r_s || !r_sh || !n || !t) return std::nullopt;
  return pv::FiveParameters{.i_ph = amps(*i_ph),
                            .i_0 = amps(*i_0),
                            .a = *n * c.thermal_voltage(temperature(*t)),
                            .r_s = ohms(*r_s),
                            .g_sh = pv::siemens(1 / *r_sh)};
}

pv::Curve curve_of(const pv::FiveParameters& p) { return pv::Curve(pv::CellGroup{.cells = p}); }

template <units::Dimension D>
parts::Coefficient<D> absolute(double si) {
  return {.relative = std::nullopt,
          .absolute = units::Quantity<D - units::dim::kelvin>::from_si(si)};
}

/// A fit with given ideality and resistances, as it was published before the shunt was part of it:
/// I_0 = I_sc/(e^(V_oc/a) − 1), I_ph = (R_p + R_s)/R_p · I_sc.
std::optional<pv::FiveParameters> with_resistances(Answers& a) {
  const auto i_sc = a.number("iscn", "A"), v_oc = a.number("vocn", "V"), n = a.number("a", "1");
  const auto r_s = a.number("rs", "ohm"), r_p = a.number("rp", "ohm"), t = a.number("t_ref", "K");
  const auto cells = a.number("cells_in_series", "1");
  if (!i_sc || !v_oc || !n || !r_s || !r_p || !t || !cells) return std::nullopt;
  // At the reference temperature itself the coefficients scale nothing.
  a.number("kv", "V/K");
  a.number("ki", "A/K");
  const units::Voltage whole = *n * *cells * pv::si_2019.thermal_voltage(temperature(*t));
  return pv::FiveParameters{.i_ph = amps((*r_p + *r_s) / *r_p * *i_sc),
                            .i_0 = amps(*i_sc / std::expm1(*v_oc / whole.si())),
                            .a = whole,
                            .r_s = ohms(*r_s),
                            .g_sh = pv::siemens(1 / *r_p)};
}

}  // namespace

void check_five_parameter(Answers& a) {
  if (a.gives("rp")) {
    const auto p = with_resistances(a);
    if (!p) return a.fail("needs iscn, vocn, a, rs, rp, t_ref and cells_in_series");
    const auto v_mp = a.number("vmp", "V"), i_mp = a.number("imp", "A");
    a.answer("i0", p->i_0.si(), "A");
    a.answer("ipv", p->i_ph.si(), "A");
    if (v_mp && i_mp) a.answer("pmax", *v_mp * *i_mp, "W");
    return;
  }
  parts::Module sheet;
  sheet.id = a.of().id;
  const auto v_oc = a.number("voc", "V"), v_mp = a.number("vmp", "V"), i_sc = a.number("isc", "A");
  const auto i_mp = a.number("imp", "A"), alpha = a.number("alpha_isc", "A/K"),
             beta = a.number("beta_voc", "V/K");
  if (!v_oc || !v_mp || !i_sc || !i_mp || !alpha || !beta)
    return a.fail("needs voc, vmp, isc, imp, alpha_isc and beta_voc");
  sheet.v_oc = volts(*v_oc);
  sheet.v_mp = volts(*v_mp);
  sheet.i_sc = amps(*i_sc);
  sheet.i_mp = amps(*i_mp);
  sheet.a_isc = absolute<units::dim::current>(*alpha);
  sheet.b_voc = absolute<units::dim::voltage>(*beta);
  if (const auto cells = a.number("cells_in_series", "1")) sheet.cells = static_cast<int>(*cells);
  pv::FitOptions options;
  options.step = kelvins(2);  // the publication's own
  const auto model = pv::fit(sheet, options);
  if (!model) return a.fail(model.failure().message);
  a.answer("a_ref", model->stc.a.si(), "V");
  a.answer("il_ref", model->stc.i_ph.si(), "A");
  a.answer("i0_ref", model->stc.i_0.si(), "A");
  a.answer("rs_ref", model->stc.r_s.si(), "ohm");
  a.answer("rsh_ref", 1 / model->stc.g_sh.si(), "ohm");
  const pv::CurvePoint best = curve_of(model->stc).maximum_power();
  a.answer("pmax", best.v.si() * best.i.si(), "W");
}

void check_iv_key_points(Answers& a) {
  const auto p = a.gives("rp") ? with_resistances(a) : listed(a, constants(a));
  if (!p) return a.fail("needs five parameters");
  const pv::Curve curve = curve_of(*p);
  const pv::CurvePoint best = curve.maximum_power();
  a.answer("isc", curve.i_sc().si(), "A");
  a.answer("voc", curve.v_oc().si(), "V");
  a.answer("vmp", best.v.si(), "V");
  a.answer("imp", best.i.si(), "A");
  for (const auto* name : {"pmp", "pmax"}) a.answer(name, best.v.si() * best.i.si(), "W");
  if (const auto v_mp = a.number("vmp", "V"))
    a.answer("imp_at_vmp", curve.current(volts(*v_mp)).si(), "A");
  a.number("imp", "A");  // stands beside vmp; the curve gives its own
}

void check_iv_point(Answers& a) {
  const auto p = listed(a, constants(a, codata_1998));
  if (!p) return a.fail("needs five parameters");
  const pv::Curve curve = curve_of(*p);
  std::vector<double> currents;
  for (const double v : a.numbers("v", "V")) currents.push_back(curve.current(volts(v)).si());
  a.answer("i", currents, "A");
  a.answer("i_measured", currents, "A");  // the resolution there is the fit's own scatter
}

void check_iv_fit_rmse(Answers& a) {
  const pv::Constants c = constants(a);
  const auto v = a.numbers("v", "V"), i = a.numbers("i", "A");
  if (v.empty() || v.size() != i.size()) return a.fail("needs as many currents as voltages");
  a.number("cells_in_series", "1");  // the idealities are those of the whole chain

  // Either the current is solved for, or the measured one stands on the right-hand side too: there the
  // junction has no resistance and sits at V + I · R_s. The title says which.
  std::vector<pv::Curve> junctions;
  double r_s = 0;
  const bool two_diodes = a.gives("i02");
  const bool explicit_current =
      !two_diodes && a.of().title.find("least-squares") == std::string::npos;
  if (two_diodes) {
    const auto i_ph = a.number("iph", "A"), i_01 = a.number("i01", "A"), n_1 = a.number("n1", "1");
    const auto i_02 = a.number("i02", "A"), n_2 = a.number("n2", "1"),
               t = a.number("temperature", "K");
    const auto r = a.number("rs", "ohm"), r_sh = a.number("rsh", "ohm");
    if (!i_ph || !i_01 || !n_1 || !i_02 || !n_2 || !t || !r || !r_sh)
      return a.fail("needs seven parameters");
    const units::Voltage thermal = c.thermal_voltage(temperature(*t));
    r_s = *r;
    junctions.push_back(
        curve_of({amps(*i_ph), amps(*i_01), *n_1 * thermal, ohms(0), pv::siemens(1 / *r_sh)}));
    junctions.push_back(curve_of({amps(0), amps(*i_02), *n_2 * thermal, ohms(0), pv::siemens(0)}));
  } else {
    auto p = listed(a, c);
    if (!p) return a.fail("needs five parameters");
    r_s = p->r_s.si();
    if (!explicit_current) p->r_s = ohms(0);
    junctions.push_back(curve_of(*p));
  }
  double sum = 0;
  for (std::size_t k = 0; k < v.size(); ++k) {
    const units::Voltage at = volts(explicit_current ? v[k] : v[k] + i[k] * r_s);
    double current = 0;
    for (const auto& j : junctions) current += j.current(at).si();
    sum += (current - i[k]) * (current - i[k]);
  }
  a.answer("rmse", std::sqrt(sum / static_cast<double>(v.size())), "A");
}

void check_iv_translation(Answers& a) {
  // One measured point, by procedure 1.
  const auto g_1 = a.number("g1", "W/m2"), t_1 = a.number("t1", "K"), i_1 = a.number("i1", "A");
  const auto v_1 = a.number("v1", "V"), i_sc = a.number("isc1", "A"), g_2 = a.number("g2", "W/m2");
  const auto t_2 = a.number("t2", "K"), alpha = a.number("alpha", "A/K"),
             beta = a.number("beta", "V/K");
  const auto r_s = a.number("rs", "ohm"), kappa = a.number("kappa", "ohm/K");
  if (g_1 && t_1 && i_1 && v_1 && i_sc && g_2 && t_2 && alpha && beta && r_s && kappa) {
    const pv::IvPoint there = pv::translate(
        {volts(*v_1), amps(*i_1)}, amps(*i_sc), {watts_per_square_metre(*g_1), temperature(*t_1)},
        {watts_per_square_metre(*g_2), temperature(*t_2)},
        {units::amps_per_kelvin(*alpha), units::volts_per_kelvin(*beta), ohms(*r_s),
         pv::ResistancePerKelvin::from_si(*kappa)});
    a.answer("i2", there.i.si(), "A");
    a.answer("v2", there.v.si(), "V");
  }
  // A sheet's I_sc and V_oc at another temperature: the same procedure from standard test conditions.
  const auto i_scn = a.number("iscn", "A"), v_ocn = a.number("vocn", "V"),
             k_v = a.number("kv", "V/K");
  const auto k_i = a.number("ki", "A/K"), sun = a.number("irradiance", "W/m2");
  const auto t_cell = a.number("t_cell", "K");
  if (i_scn && v_ocn && k_v && k_i && sun && t_cell) {
    const pv::Sky stc{pv::stc_irradiance, pv::stc_temperature};
    const pv::Sky there{watts_per_square_metre(*sun), temperature(*t_cell)};
    const pv::TranslationCoefficients c{
        units::amps_per_kelvin(*k_i), units::volts_per_kelvin(*k_v), ohms(0), {}};
    a.answer("isc", pv::translate({volts(0), amps(*i_scn)}, amps(*i_scn), stc, there, c).i.si(),
             "A");
    a.answer("voc", pv::translate({volts(*v_ocn), amps(0)}, amps(*i_scn), stc, there, c).v.si(),
             "V");
  }
  const auto power = a.number("p_stc", "W"), gamma = a.number("gamma", "1/K");
  if (power && gamma && t_cell) {
    a.answer(
        "power",
        pv::by_coefficient(units::watts(*power), per_kelvin(*gamma), temperature(*t_cell)).si(),
        "W");
  }
  const auto v_mp = a.number("vmp", "V"), gamma_v_mp = a.number("gamma_vmp", "1/K");
  const auto ambient = a.number("ambient", "K"), rise = a.difference("rise");
  if (ambient && rise) {
    const auto cell =
        pv::cell_temperature(kelvins(*rise), temperature(*ambient), pv::stc_irradiance);
    a.answer("t_cell", cell.kelvin(), "K");
    if (v_mp && gamma_v_mp)
      a.answer("vmp_hot", pv::by_coefficient(volts(*v_mp), per_kelvin(*gamma_v_mp), cell).si(),
               "V");
  }
}

void check_cell_temperature(Answers& a) {
  const auto noct = a.number("noct", "K"), ambient = a.number("ambient", "K");
  const auto sun = a.number("irradiance", "W/m2");
  if (!noct || !ambient || !sun) return a.fail("needs noct, ambient and irradiance");
  a.answer(
      "t_cell",
      pv::cell_temperature(temperature(*noct), temperature(*ambient), watts_per_square_metre(*sun))
          .kelvin(),
      "K");
}

void check_reverse_bias(Answers& a) {
  // A chain of cells with one in the dark: what it takes is its own resistances times the current.
  const auto cells = a.number("cells_in_series", "1"), v = a.number("voltage", "V"),
             i = a.number("current", "A");
  const auto r_p = a.number("rp_cell", "ohm"), r_s = a.number("rs_cell", "ohm");
  if (cells && v && i && r_p && r_s) {
    pv::FiveParameters dark{.i_0 = amps(1e-12), .a = volts(0.0257), .g_sh = pv::siemens(1 / *r_p)};
    const double shunt = -curve_of(dark).voltage(amps(*i)).si();
    dark.r_s = ohms(*r_s);
    const double cell = -curve_of(dark).voltage(amps(*i)).si();
    const double drop = *v / *cells + shunt;
    a.answer("voltage_drop", drop, "V");
    a.answer("module_voltage", *v - drop, "V");
    a.answer("module_power", (*v - drop) * *i, "W");
    a.answer("cell_voltage", cell, "V");
    a.answer("cell_power", cell * *i, "W");
    return;
  }
  // A reverse branch at given junction voltages, with or without the junction and its shunt.
  pv::CellGroup g;
  const auto i_ph = a.number("iph", "A"), breakdown = a.number("v_breakdown", "V");
  if (!i_ph || !breakdown) return a.fail("needs iph and v_breakdown");
  g.cells.i_ph = amps(*i_ph);
  std::vector<double> voltages;
  if (a.gives("b")) {
    const auto b = a.number("b", "S"), exponent = a.number("exponent", "1");
    if (!b || !exponent) return a.fail("needs b and exponent");
    constexpr double hardly_any = 1e-9;  // of a shunt: what counts is its product with the share
    g.cells.i_0 = amps(1e-30);
    g.cells.a = volts(0.0257);
    g.cells.g_sh = pv::siemens(hardly_any);
    g.breakdown =
        pv::Breakdown{.share = *b / hardly_any, .v = volts(*breakdown), .exponent = *exponent};
    voltages = a.numbers("v", "V");
  } else {
    const auto i_0 = a.number("i0", "A"), n = a.number("n", "1"), t = a.number("temperature", "K");
    const auto r_sh = a.number("rsh", "ohm"), share = a.number("a", "1"), m = a.number("m", "1");
    if (!i_0 || !n || !t || !r_sh || !share || !m)
      return a.fail("needs i0, n, temperature, rsh, a and m");
    g.cells.i_0 = amps(*i_0);
    g.cells.a = *n * pv::si_2019.thermal_voltage(temperature(*t));
    g.cells.g_sh = pv::siemens(1 / *r_sh);
    g.breakdown = pv::Breakdown{.share = *share, .v = volts(*breakdown), .exponent = *m};
    voltages = a.numbers("vj", "V");
  }
  const pv::Curve curve(g);
  std::vector<double> currents;
  currents.reserve(voltages.size());
  for (const double v_j : voltages) currents.push_back(curve.current(volts(v_j)).si());
  a.answer("i", currents, "A");
}

void check_diode_voltage(Answers& a) {
  // A diode under a current is an ideal cell at open circuit that gives this photocurrent.
  const auto v_oc = [](double i, double i_0, double thermal) {
    return curve_of({.i_ph = amps(i), .i_0 = amps(i_0), .a = volts(thermal)}).v_oc().si();
  };
  const auto j_l = a.number("jl", "A/cm2"), j_s = a.number("js", "A/cm2"),
             v_t = a.number("vt", "V");
  if (j_l && j_s && v_t) a.answer("voc", v_oc(*j_l, *j_s, *v_t), "V");
  const auto i_0 = a.number("i0", "A"), slope = a.number("q_over_kt", "1/V");
  if (i_0 && slope) {
    std::vector<double> voltages;
    for (const double i : a.numbers("current", "A")) voltages.push_back(v_oc(i, *i_0, 1 / *slope));
    a.answer("voltage", voltages, "V");
  }
}

}  // namespace stringwright::run_cases
