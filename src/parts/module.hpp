#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "units/quantity.hpp"

namespace stringwright::parts {

/// A temperature coefficient as the data sheet gives it: relative ("-0.28 %/K") or absolute
/// ("-0.115 V/K"). Exactly one is set.
template <units::Dimension D>
struct Coefficient {
  std::optional<units::PerKelvin> relative;
  std::optional<units::Quantity<D - units::dim::kelvin>> absolute;

  /// As a share per kelvin of the value at standard test conditions, `at_stc` > 0.
  units::PerKelvin per_kelvin(units::Quantity<D> at_stc) const {
    return relative ? *relative : *absolute / at_stc;
  }
};

/// A photovoltaic module as its data sheet and label describe it, at standard test conditions
/// (1000 W/m², 25 °C cell, AM 1.5) unless said otherwise. STC values are of the front side.
struct Module {
  std::string id;
  Span span;
  Given<units::Voltage> v_oc, v_mp;
  Given<units::Current> i_sc, i_mp;
  Given<units::Power> p_max;
  Given<Coefficient<units::dim::voltage>> b_voc, b_vmp;
  Given<Coefficient<units::dim::power>> g_pmp;
  Given<Coefficient<units::dim::current>> a_isc;
  Given<units::Current> fuse_max;
  Given<units::Voltage> v_sys;
  Given<int> cells, bypass;
  Given<units::Temperature> noct;
  Given<units::Ratio> rear_gain, bifaciality;
  Given<std::vector<units::Length>> size;
  Given<units::Length> lead_plus, lead_minus;
  Given<std::string> family;
  Given<units::Current> bypass_rating, connector_rating;
};

template <class V>
void describe(V& visit, Module& m) {
  visit("v_oc", m.v_oc,
        About{.doc = "Open-circuit voltage at STC.",
              .required = true,
              .example = "40.9 V",
              .min = 0.1,
              .max = 1500});
  visit("v_mp", m.v_mp,
        About{.doc = "Voltage at the maximum power point at STC.",
              .required = true,
              .example = "34.1 V",
              .min = 0.1,
              .max = 1500});
  visit("i_sc", m.i_sc,
        About{.doc = "Short-circuit current at STC; the highest printed value where the module is "
                     "bifacial.",
              .required = true,
              .example = "11.35 A",
              .min = 0.01,
              .max = 100});
  visit("i_mp", m.i_mp,
        About{.doc = "Current at the maximum power point at STC.",
              .required = true,
              .example = "10.71 A",
              .min = 0.01,
              .max = 100});
  visit("p_max", m.p_max,
        About{.doc = "Rated power at STC; checked against V_mp · I_mp.",
              .example = "365 W",
              .min = 0.1,
              .max = 2000});
  visit("b_voc", m.b_voc,
        About{.doc = "Temperature coefficient of the open-circuit voltage, %/K or V/K.",
              .example = "-0.28 %/K"});
  visit("b_vmp", m.b_vmp,
        About{.doc = "Temperature coefficient of V_mp, %/K or V/K; where left out the power "
                     "coefficient stands in for it.",
              .example = "-0.36 %/K"});
  visit("g_pmp", m.g_pmp,
        About{.doc = "Temperature coefficient of the maximum power, %/K or W/K.",
              .example = "-0.36 %/K"});
  visit("a_isc", m.a_isc,
        About{.doc = "Temperature coefficient of the short-circuit current, %/K or A/K.",
              .example = "0.048 %/K"});
  visit("fuse_max", m.fuse_max,
        About{.doc = "Maximum series fuse rating on the module's label.",
              .example = "20 A",
              .min = 0.5,
              .max = 200});
  visit("v_sys", m.v_sys,
        About{.doc = "Maximum system voltage on the module's label.",
              .example = "1000 V",
              .min = 10,
              .max = 2000});
  visit("cells", m.cells,
        About{.doc = "Cells in series between the module's terminals (half-cut cells in two "
                     "parallel halves count once).",
              .example = "60",
              .min = 1,
              .max = 400});
  visit("bypass", m.bypass,
        About{.doc = "Bypass diode groups in series.", .example = "3", .min = 1, .max = 24});
  visit("noct", m.noct,
        About{.doc = "Nominal operating cell temperature.",
              .example = "45 °C",
              .min = 293.15,
              .max = 353.15});
  visit(
      "bifaciality", m.bifaciality,
      About{.doc = "φ: short-circuit current of the rear side alone over that of the front alone. "
                   "With the surface's rear_sun it gives the rear gain, where i_sc is the front's "
                   "value.",
            .example = "70 %",
            .min = 0,
            .max = 1.2});
  visit(
      "rear_gain", m.rear_gain,
      About{
          .doc =
              "Gain of the short-circuit current by light on the rear side, beyond the i_sc above.",
          .example = "10 %",
          .min = 0,
          .max = 1});
  visit("size", m.size,
        About{.doc = "Long side and short side.",
              .example = "[\"1.76 m\", \"1.04 m\"]",
              .min = 0.05,
              .max = 5,
              .items = 2});
  visit("lead_plus", m.lead_plus,
        About{.doc = "Length of the positive lead.", .example = "1.1 m", .min = 0, .max = 10});
  visit("lead_minus", m.lead_minus,
        About{.doc = "Length of the negative lead.", .example = "1.1 m", .min = 0, .max = 10});
  visit("family", m.family,
        About{.doc = "Connector family, by a neutral name of your own; unlike families never mate.",
              .example = "K2"});
  visit("bypass_rating", m.bypass_rating,
        About{.doc = "Current that a bypass diode carries without end, by the maker.",
              .example = "15 A",
              .min = 0.1,
              .max = 200});
  visit("connector_rating", m.connector_rating,
        About{.doc = "Rated current of the connectors, by the maker.",
              .example = "30 A",
              .min = 0.1,
              .max = 200});
}

}  // namespace stringwright::parts
