#pragma once

#include <string>
#include <vector>

#include "base/about.hpp"
#include "base/span.hpp"
#include "parts/price.hpp"
#include "units/quantity.hpp"
#include "units/sizes.hpp"

namespace stringwright::parts {

/// What a part is as a thing to buy, beside its electrical ratings: cable and wire by length, connectors,
/// raceways and their fittings, strain reliefs, and the price of any part. A piece of `Part`.
struct Goods {
  Given<std::string> family;  ///< connector family
  Given<std::string> end;     ///< of a connector: "pin" or "socket"
  Given<units::Wire> wire;
  Given<units::Length> length;   ///< of one cable, spool or stick
  Given<units::Length> outside;  ///< outside diameter of the insulated conductor
  Given<units::Length> clamp_min, clamp_max;
  Given<int> holes;
  Given<std::string> method, form;
  Given<units::TradeSize> trade_size;
  Given<std::string> curve_name;
  Given<units::Temperature> t_max;
  Given<units::Voltage> v_operating_min, v_operating_max;
  Given<units::Current> isc_max, i_max, i_out;
  Given<std::vector<units::Voltage>> battery;
  Given<Price> price;
  Given<units::Length> price_per;
  Given<std::string> price_date;
};

template <class V>
void describe_goods(V& visit, Goods& g) {
  visit("family", g.family,
        About{.doc = "Connector family of both its ends, by a neutral name of your own.",
              .example = "K2",
              .only = "cable connector"});
  visit("end", g.end,
        About{.doc = "Which half of a mated pair: pin or socket.",
              .example = "pin",
              .only = "connector"});
  visit("wire", g.wire,
        About{.doc = "Conductor it is made of; of a connector, the one it is crimped on.",
              .example = "10 AWG Cu PV",
              .only = "cable wire connector"});
  visit("length", g.length,
        About{.doc = "Length of one: plug to plug of a cable; of a spool of wire, a stick of "
                     "conduit. Left out, it is sold by length.",
              .example = "15.2 m",
              .min = 0.01,
              .max = 10000,
              .only = "cable wire conduit"});
  visit("outside", g.outside,
        About{.doc = "Outside diameter of the insulated conductor.",
              .example = "6.5 mm",
              .min = 0.0005,
              .max = 0.2,
              .only = "cable wire"});
  visit("clamp_min", g.clamp_min,
        About{.doc = "Thinnest cable it seals and holds.",
              .example = "5 mm",
              .min = 0.0005,
              .max = 0.2,
              .only = "relief"});
  visit("clamp_max", g.clamp_max,
        About{.doc = "Thickest cable it seals and holds.",
              .example = "8 mm",
              .min = 0.0005,
              .max = 0.2,
              .only = "relief"});
  visit("holes", g.holes,
        About{.doc = "Cables it takes, or holes of a bar.",
              .example = "4",
              .min = 1,
              .max = 48,
              .only = "relief ground-bar"});
  visit("method", g.method,
        About{.doc = "Raceway it is or goes with, by the names of a segment's 'in'.",
              .example = "PVC40",
              .only = "conduit fitting"});
  visit("form", g.form,
        About{.doc = "Which fitting or lug: hub, elbow 90°, coupling, bushing, one hole.",
              .example = "hub",
              .only = "fitting lug holder"});
  visit("trade_size", g.trade_size,
        About{.doc = "Trade size of the raceway, or of the knockout it goes into.",
              .example = "1 in",
              .only = "conduit fitting relief"});
  visit("curve_name", g.curve_name,
        About{.doc = "Name of its time-current curve, by its marking.",
              .example = "gPV",
              .only = "breaker fuse"});
  visit("t_max", g.t_max,
        About{.doc = "Highest ambient temperature it is marked for.",
              .example = "60 °C",
              .min = 273.15,
              .max = 473.15});
  visit("v_operating_min", g.v_operating_min,
        About{.doc = "Lowest voltage of the tracking window.",
              .example = "60 V",
              .min = 1,
              .max = 2000,
              .only = "controller inverter"});
  visit("v_operating_max", g.v_operating_max,
        About{.doc = "Highest voltage it works at.",
              .example = "145 V",
              .min = 1,
              .max = 2000,
              .only = "controller inverter"});
  visit("isc_max", g.isc_max,
        About{.doc = "Highest array short-circuit current allowed at its input.",
              .example = "50 A",
              .min = 0.1,
              .max = 10000,
              .only = "controller inverter"});
  visit("i_max", g.i_max,
        About{.doc = "Rated input current; more is clipped, not dangerous.",
              .example = "40 A",
              .min = 0.1,
              .max = 10000,
              .only = "controller inverter"});
  visit("i_out", g.i_out,
        About{.doc = "Charge current it can give.",
              .example = "60 A",
              .min = 0.1,
              .max = 10000,
              .only = "controller"});
  visit("battery", g.battery,
        About{.doc = "Nominal battery voltages it can charge.",
              .example = "[\"24 V\", \"48 V\"]",
              .min = 6,
              .max = 1500,
              .only = "controller"});
  visit("price", g.price,
        About{.doc = "Price of one, or of 'price_per' of it, with its currency.",
              .example = "12.50 EUR"});
  visit("price_per", g.price_per,
        About{.doc = "Length that the price is for, where it is sold by length.",
              .example = "1 m",
              .min = 0.001,
              .max = 10000,
              .only = "wire conduit"});
  visit("price_date", g.price_date,
        About{.doc = "Day the price was read, year-month-day.", .example = "2031-05-02"});
}

}  // namespace stringwright::parts
