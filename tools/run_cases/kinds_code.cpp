// Kinds of published cases that the codebook answers. What is given becomes facts, tables and factors
// come from the edition that the case names, formulas are the library's.
#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include "codebook/edition.hpp"
#include "codebook/methods/ampacity.hpp"
#include "codebook/methods/currents.hpp"
#include "codebook/methods/drop.hpp"
#include "codebook/methods/ground.hpp"
#include "codebook/methods/iec.hpp"
#include "codebook/methods/voltages.hpp"
#include "kinds.hpp"

namespace stringwright::run_cases {
namespace {

using codebook::Edition;
using codebook::Fact;
using codebook::Facts;
using codebook::Subject;
using trail::Traced;
using trail::Trail;

/// The newest edition of the family "nec" that is not younger than the last year named in `text`
/// ("NEC 2011-2014" is 2014's); the newest offered where none is named.
Edition edition_named(const std::string& text) {
  int year = 0;
  for (std::size_t i = 0; i + 4 <= text.size(); ++i)
    if (std::all_of(text.begin() + static_cast<std::ptrdiff_t>(i),
                    text.begin() + static_cast<std::ptrdiff_t>(i) + 4,
                    [](unsigned char c) { return std::isdigit(c) != 0; }))
      year = std::stoi(text.substr(i, 4));
  std::string best = Edition::offered(codebook::Family::nec).back();
  if (year > 0) {
    int best_year = 0;
    for (const auto& id : Edition::known()) {
      const auto edition = Edition::open_any(id);
      if (!edition || id.rfind("nec_", 0) != 0 || edition->year() > year ||
          edition->year() < best_year)
        continue;
      best = id;
      best_year = edition->year();
    }
  }
  return Edition::open_any(best).value();
}

Edition edition_of(const Answers& a) { return edition_named(a.of().edition); }
Edition iec_edition() { return Edition::open_any("iec_2016").value(); }

std::optional<units::WireSize> size_named(Answers& a, const std::string& name) {
  auto size = units::WireSize::from_table(name);
  if (!size) a.fail("there is no conductor size " + name);
  return size;
}

template <class Q>
Traced<Q> plain(Q value) {
  Trail aside;
  return aside.given("x", "", Fact<Q>(value));
}

Facts with_current(Subject subject, double amps) {
  Facts f;
  f.subject = subject;
  f.i_sc = Fact<units::Current>(units::amps(amps));
  f.i_sc_total = f.i_sc;
  return f;
}

double max_amps(const Edition& edition, Subject subject, double i_sc) {
  Trail aside;
  return codebook::max_current(with_current(subject, i_sc), edition, aside)
      .value.value_or(units::Current{})
      .in(units::amps);
}

double device_amps(const Edition& edition, Subject subject, double i_sc) {
  Trail aside;
  return codebook::device_current(with_current(subject, i_sc), edition, aside)
      .value.value_or(units::Current{})
      .in(units::amps);
}

std::optional<double> standard_amps(const Edition& edition, double at_least) {
  const auto rating = edition.standard_rating_at_least(units::amps(at_least));
  if (!rating.value) return std::nullopt;
  return rating.value->in(units::amps);
}

/// One module or string in the cold.
Facts cold_facts(double voc, std::optional<double> beta, std::optional<double> t_min,
                 double count) {
  Facts f;
  codebook::SeriesGroup g;
  g.count = Fact<units::Ratio>(units::Ratio(count));
  g.v_oc = Fact<units::Voltage>(units::volts(voc));
  if (beta) g.b_voc = Fact<units::PerKelvin>(units::per_kelvin(*beta));
  f.series.push_back(g);
  if (t_min) f.t_min = Fact<units::Temperature>(units::celsius(*t_min));
  return f;
}

std::optional<double> cold_volts(const Edition& edition, const Facts& f) {
  Trail aside;
  const auto v = codebook::cold_by_coefficient(f, edition, aside);
  if (!v.value) return std::nullopt;
  return v.value->in(units::volts);
}

double corrected_volts(double n, double v, double factor) {
  return codebook::series_voltage(plain(units::Ratio(n)), plain(units::volts(v)),
                                  plain(units::Ratio(factor)))
      .value->in(units::volts);
}

/// Coefficient as a share per kelvin, whichever way it is given.
std::optional<double> share_per_kelvin(Answers& a, std::string_view name, double of_volts) {
  if (!a.gives(name)) return std::nullopt;
  if (a.unit_of(name).rfind("V/", 0) == 0 || a.unit_of(name).rfind("mV/", 0) == 0) {
    const auto volts = a.number(name, "V/K");
    return volts ? std::optional(*volts / of_volts) : std::nullopt;
  }
  return a.number(name, "1/K");
}

std::optional<double> ambient_factor(const Edition& edition, double celsius, double column) {
  const auto k = edition.ambient_factor(units::celsius(celsius), units::celsius(column));
  if (!k.value) return std::nullopt;
  return k.value->in(units::plain);
}

/// Adder over a roof in the unit of the case: the tables print both, each rounded on its own.
std::optional<double> adder_kelvins(Answers& a, const Edition& edition, const std::string& unit) {
  if (const auto given = a.difference("adder")) return given;
  const auto height = a.number("height_above_roof", "m");
  if (!height) return std::nullopt;
  const auto above = units::metres(*height);
  const auto adder = unit == "degF" ? edition.rooftop_adder_fahrenheit(above, "")
                                    : edition.rooftop_adder(above, "");
  if (!adder.value) {
    a.fail(adder.why);
    return std::nullopt;
  }
  return adder.value->in(units::kelvins);
}

double ampacity_under(double table, double k_t, double k_n) {
  return codebook::under_conditions(plain(units::amps(table)), plain(units::Ratio(k_t)),
                                    plain(units::Ratio(k_n)))
      .value->in(units::amps);
}

std::optional<double> table_amps(const Edition& edition, const units::WireSize& size, double column,
                                 bool free_air) {
  const auto t = units::celsius(column);
  const auto i = free_air ? edition.ampacity_free_air(size, units::Metal::copper, t)
                          : edition.ampacity(size, units::Metal::copper, t);
  if (!i.value) return std::nullopt;
  return i.value->in(units::amps);
}

double bundling(const Edition& edition, std::optional<double> count) {
  if (!count) return 1;
  return edition.bundling_factor(static_cast<int>(std::lround(*count)))
      .value.value_or(units::Ratio(1.0))
      .in(units::plain);
}

// One function for each kind; a case that gives lists is worked element by element.

void cold_voltage_coefficient(Answers& a) {
  const auto edition = edition_of(a);
  const auto voc = a.number("voc", "V");
  const auto t_min = a.number("t_min", "degC");
  const auto count = a.number("modules_in_series", "1");
  if (!voc || !t_min) return;
  const auto beta = share_per_kelvin(a, "beta_voc", *voc);
  if (const auto v = cold_volts(edition, cold_facts(*voc, beta, t_min, 1)))
    a.answer("cold_voc", *v, "V");
  if (const auto v = cold_volts(edition, cold_facts(*voc, beta, t_min, count.value_or(1))))
    a.answer("max_voltage", *v, "V");
}

void cold_voltage_table(Answers& a) {
  const auto table = a.text("edition_table");
  const auto edition = edition_named(table ? *table : a.of().edition);
  const auto voc = a.number("voc", "V");
  const auto count = a.number("modules_in_series", "1");
  const auto t_min = a.number("t_min", "degC");
  if (!t_min) return;
  const auto factor = edition.cold_voltage_factor(units::celsius(*t_min));
  if (!factor.value) return a.fail(factor.why);
  a.answer("factor", factor.value->in(units::plain), "1");
  if (!voc) return;
  Trail aside;
  const auto v =
      codebook::cold_by_table(cold_facts(*voc, {}, *t_min, count.value_or(1)), edition, aside);
  if (v.value) a.answer("max_voltage", v.value->in(units::volts), "V");
}

void circuit_current(Answers& a) {
  const auto edition = edition_of(a);
  std::optional<double> i_sc;
  for (const auto* name : {"isc", "isc_module", "isc_circuit"})
    if (const auto i = a.number(name, "A")) i_sc = i;
  std::optional<double> paths;
  for (const auto* name : {"strings", "parallel_paths"})
    if (const auto n = a.number(name, "1")) paths = n;
  if (i_sc) {
    const double total = *i_sc * paths.value_or(1);
    a.answer("source_circuit_current", max_amps(edition, Subject::string_circuit, *i_sc), "A");
    a.answer("output_circuit_current", max_amps(edition, Subject::output_circuit, total), "A");
    a.answer("short_circuit_current", total, "A");
    a.answer("continuous_current", max_amps(edition, Subject::output_circuit, total), "A");
    a.answer("eighty_percent_current", device_amps(edition, Subject::output_circuit, total), "A");
  }
  const auto power = a.number("load_power", "W");
  const auto volts = a.number("system_voltage", "V");
  if (power && volts) {
    const units::Current load = units::watts(*power) / units::volts(*volts);
    const auto continuous = edition.factor("load.continuous-factor");
    a.answer("load_current", load.in(units::amps), "A");
    if (continuous.value)
      a.answer("load_current_x125", (*continuous.value * load).in(units::amps), "A");
  }
  const auto count = a.number("modules_in_series", "1");
  const auto voc = a.number("voc_module", "V");
  const auto factor = a.number("cold_factor", "1");
  if (voc) {
    a.answer("string_voc", corrected_volts(count.value_or(1), *voc, 1), "V");
    if (factor)
      a.answer("cold_string_voltage", corrected_volts(count.value_or(1), *voc, *factor), "V");
  }
}

void string_sizing(Answers& a) {
  const auto edition = edition_of(a);
  std::optional<double> voc = a.number("voc", "V");
  if (!voc) voc = a.number("voc_module", "V");
  std::optional<double> limit = a.number("v_max_input", "V");
  if (!limit) limit = a.number("limit", "V");
  const auto t_min = a.number("t_min", "degC");
  const auto factor = a.number("cold_factor", "1");
  const auto count = a.number("modules_in_series", "1");
  // Read, and not needed for how many may stand in series in the cold.
  a.number("v_min_input", "V");
  a.number("vmp", "V");
  a.number("modules", "1");
  if (!voc) return;
  const auto beta = share_per_kelvin(a, "beta_voc", *voc);
  std::optional<double> cold;
  if (beta && t_min) cold = cold_volts(edition, cold_facts(*voc, beta, t_min, 1));
  if (!cold && factor) cold = corrected_volts(1, *voc, *factor);
  if (!cold && t_min)
    if (const auto table = edition.cold_voltage_factor(units::celsius(*t_min)); table.value)
      cold = corrected_volts(1, *voc, table.value->in(units::plain));
  if (!cold) return;
  a.answer("cold_voc", *cold, "V");
  if (count) a.answer("cold_string_voltage", corrected_volts(*count, *cold, 1), "V");
  if (limit)
    for (const auto* name : {"max_modules", "max_modules_in_series"})
      a.answer(name, codebook::most_in_series(units::volts(*cold), units::volts(*limit)), "1");
}

void ocpd_size(Answers& a) {
  const auto edition = edition_of(a);
  const auto i_sc = a.number("isc", "A");
  std::optional<double> strings = a.number("strings", "1");
  if (!strings) strings = a.number("source_circuits", "1");
  const auto irradiance = a.number("irradiance", "W/m2");
  const auto ambient = a.number("ambient", "degC");
  const auto module_limit = a.number("module_max_series_fuse", "A");
  const auto fuses = a.numbers("standard_fuses", "A");
  a.number("modules_in_series", "1");  // current does not depend on it
  if (!i_sc) return;

  const double source = device_amps(edition, Subject::string_circuit, *i_sc);
  for (const auto* name : {"source_min", "min_rating", "design_current", "min_ul"})
    a.answer(name, source, "A");
  a.answer("factor_ul", source / *i_sc, "1");
  for (const auto* name : {"source_device", "device"})
    if (const auto rating = standard_amps(edition, source)) a.answer(name, *rating, "A");
  if (strings) {
    const double output = device_amps(edition, Subject::output_device, *strings * *i_sc);
    a.answer("output_min", output, "A");
    if (const auto rating = standard_amps(edition, output)) a.answer("output_device", *rating, "A");
  }

  // The annex factor holds up to 1200 W/m² and 45 °C.
  const auto iec = iec_edition();
  const auto select = iec.factor("string-fuse.select");
  if (select.value && irradiance.value_or(0) <= 1200 && ambient.value_or(0) <= 45) {
    a.answer("factor_iec", select.value->in(units::plain), "1");
    a.answer("min_iec", (*select.value * units::amps(*i_sc)).in(units::amps), "A");
  }
  const auto window = codebook::iec::fuse_window(iec, units::amps(*i_sc));
  a.answer("lower", window.above.in(units::amps), "A");
  a.answer("upper", window.below.in(units::amps), "A");
  std::vector<double> allowed;
  for (double fuse : fuses)
    if (window.holds(units::amps(fuse), units::amps(module_limit.value_or(fuse))))
      allowed.push_back(fuse);
  if (!fuses.empty()) a.answer("allowed", allowed, "A");
}

void backfeed_current(Answers& a) {
  const auto edition = edition_of(a);
  const auto strings = a.number("strings", "1");
  const auto i_sc = a.number("isc", "A");
  const auto module_limit = a.number("module_max_series_fuse", "A");
  // A ground-fault device is in the path of the faulted string's own current too.
  const bool through_ground = a.number("gfpd_rating", "A").has_value();
  if (!i_sc || !strings) return;
  const int count = static_cast<int>(std::lround(*strings));
  const units::Current own = units::amps(*i_sc);
  const units::Current others = codebook::iec::backfeed(count, own);
  Facts f;
  f.i_sc_others = Fact<units::Current>(others);
  Trail aside;
  const auto i_rev = codebook::backfeed_current(f, edition, aside);
  if (!i_rev.value) return;
  a.answer("nec_backfeed", i_rev.value->in(units::amps), "A");
  a.answer("backfed_current", others.in(units::amps), "A");
  a.answer("fault_current", (through_ground ? others + own : others).in(units::amps), "A");
  if (!module_limit) return;
  const units::Current limit = units::amps(*module_limit);
  a.answer_flag("nec_needed", !units::at_most(*i_rev.value, limit));
  a.answer_flag("iec_needed", codebook::iec::protection_needed(count, own, limit));
}

void rooftop_temperature(Answers& a) {
  const auto edition = edition_of(a);
  const std::string unit = a.unit_of("ambient");
  const auto ambient = a.number("ambient", "degC");
  const auto column = a.number("insulation_rating", "degC");
  const auto adder = adder_kelvins(a, edition, unit);
  if (adder) a.answer_difference("adder", *adder);
  if (!ambient || !adder) return;
  const double conduit = *ambient + *adder;
  a.answer("conduit_temperature", conduit, "degC");
  if (const auto band = edition.ambient_band(units::celsius(conduit))) {
    if (band->low) a.answer("band_low", band->low->celsius(), "degC");
    a.answer("band_high", band->high.celsius(), "degC");
  }
  if (column)
    if (const auto k = ambient_factor(edition, conduit, *column)) a.answer("correction", *k, "1");
}

void conductor_ampacity(Answers& a) {
  const auto edition = edition_of(a);
  const auto name = a.text("awg");
  const auto column = a.number("insulation_rating", "degC");
  const auto wires = a.number("current_carrying", "1");
  const std::string unit = a.unit_of("ambient");
  const auto ambient = a.number("ambient", "degC");
  std::optional<double> at_conductor = a.number("conduit_temperature", "degC");
  const auto band_low = a.number("ambient_band_low", "degC");
  const auto band_high = a.number("ambient_band_high", "degC");
  std::optional<double> k_t = a.number("correction", "1");
  const auto base = a.number("base_ampacity", "A");
  std::optional<double> raceway = a.number("table_ampacity_raceway", "A");
  std::optional<double> free_air = a.number("table_ampacity_free_air_10awg", "A");

  const auto adder = adder_kelvins(a, edition, unit);
  if (adder) a.answer_difference("adder", *adder);
  if (!at_conductor && ambient) at_conductor = *ambient + adder.value_or(0);
  if (!at_conductor) at_conductor = band_high ? band_high : band_low;
  if (at_conductor) a.answer("corrected_ambient", *at_conductor, "degC");
  if (!k_t && at_conductor) {
    if (!column) return a.fail("the insulation's rating is not given");
    k_t = ambient_factor(edition, *at_conductor, *column);
    if (!k_t) return a.fail("no ambient factor");
  }
  if (k_t) a.answer("correction", *k_t, "1");

  const auto size = name ? size_named(a, *name) : std::nullopt;
  if (!raceway && size && column) raceway = table_amps(edition, *size, *column, false);
  if (!free_air && column)
    free_air = table_amps(edition, *units::WireSize::from_table("10"), *column, true);
  const auto adjusted = [&](double i) {
    return ampacity_under(i, k_t.value_or(1), bundling(edition, wires));
  };
  if (raceway) a.answer("table_ampacity", *raceway, "A");
  if (raceway) a.answer("ampacity_raceway", adjusted(*raceway), "A");
  if (free_air) a.answer("ampacity_free_air_10awg", adjusted(*free_air), "A");
  if (base || raceway) a.answer("ampacity", adjusted(base ? *base : *raceway), "A");
}

void terminal_temperature(Answers& a) {
  const auto edition = edition_of(a);
  const auto device = a.number("device", "A");
  const auto name = a.text("awg");
  const auto ambient = a.number("ambient", "degC");
  const auto wires = a.number("current_carrying", "1");
  const auto terminal = a.number("terminal_rating", "degC");
  const double insulation = a.number("insulation_rating", "degC").value_or(90);
  if (device) {
    for (double column : {60.0, 75.0}) {
      const auto size = codebook::smallest_in_column(edition, units::amps(*device),
                                                     units::Metal::copper, units::celsius(column));
      if (size)
        a.answer_text(column == 60 ? "awg_60c_raceway" : "awg_75c_raceway", size->table_name());
    }
  }
  if (!name) return;
  const auto size = size_named(a, *name);
  if (!size) return;
  std::optional<double> derated;
  if (const auto i = table_amps(edition, *size, insulation, false)) {
    const auto k_t = ambient ? ambient_factor(edition, *ambient, insulation) : std::optional(1.0);
    if (k_t) derated = ampacity_under(*i, *k_t, bundling(edition, wires));
  }
  const auto limit = terminal ? table_amps(edition, *size, *terminal, false) : std::nullopt;
  if (derated) a.answer("derated_90", *derated, "A");
  if (limit) a.answer("terminal_limit", *limit, "A");
  if (derated && limit)
    a.answer(
        "usable",
        lesser(plain(units::amps(*derated)), plain(units::amps(*limit))).value->in(units::amps),
        "A");
}

void conductor_resistance(Answers& a) {
  const auto edition = edition_of(a);
  const auto name = a.text("awg");
  const auto t = a.number("temperature", "degC");
  const auto length = a.number("conductor_length", "m");
  std::optional<double> per_metre = a.number("resistance", "ohm/m");
  if (!per_metre && name) {
    const auto size = size_named(a, *name);
    if (!size) return;
    // Wire tables give a solid wire at 20 °C; the code's table a stranded one at 75 °C.
    const auto at = units::celsius(t.value_or(75));
    const bool by_code = a.of().edition.rfind("NEC", 0) == 0 || (t && *t == 75) || !t;
    const auto r = by_code ? edition.resistance(*size, units::Metal::copper, at)
                           : codebook::annealed_copper(edition, *size, at);
    if (!r.value) return a.fail(r.why);
    per_metre = r.value->in(units::ohms_per_metre);
  }
  if (!per_metre) return;
  a.answer("resistance", *per_metre, "ohm/m");
  if (length)
    a.answer("resistance_total",
             (units::ohms_per_metre(*per_metre) * units::metres(*length)).in(units::ohms), "ohm");
}

void voltage_drop(Answers& a) {
  const auto edition = edition_of(a);
  const auto current = a.number("current", "A");
  const auto length = a.number("length_one_way", "m");
  const auto names = a.texts("awg");
  const auto resistance = a.number("resistance", "ohm/m");
  const auto total = a.number("resistance_total", "ohm");
  const auto k = a.number("k", "ohm cmil/ft");
  const auto areas = a.numbers("area", "cmil");
  const auto limit_percent = a.number("limit_percent", "%");
  std::optional<double> volts = a.number("source_voltage", "V");
  if (!volts) volts = a.number("system_voltage", "V");

  std::vector<double> drops;  // one a size
  if (current && total)
    drops.push_back((units::ohms(*total) * units::amps(*current)).in(units::volts));
  const auto drop_of = [&](units::ResistancePerLength r) {
    return codebook::voltage_drop(plain(units::metres(*length)), plain(r),
                                  plain(units::amps(*current)))
        .value->in(units::volts);
  };
  if (drops.empty() && current && length) {
    if (resistance) {
      drops.push_back(drop_of(units::ohms_per_metre(*resistance)));
    } else if (k && !areas.empty()) {
      const auto cmil = convert(1, "cmil", "m2");
      const auto rho = convert(*k, "ohm cmil/ft", "ohm m");
      if (!cmil || !rho) return a.fail("units of k and area");
      for (double area : areas)
        drops.push_back(drop_of(units::ohms_per_metre(*rho / (area * *cmil))));
    } else {
      for (const auto& name : names) {
        const auto size = size_named(a, name);
        const auto r = size ? edition.resistance(*size, units::Metal::copper, units::celsius(75))
                            : codebook::Looked<units::ResistancePerLength>{};
        if (!r.value) return a.fail("no resistance of " + name);
        drops.push_back(drop_of(*r.value));
      }
    }
  }
  for (std::size_t i = 0; i < drops.size() && i < names.size(); ++i)
    a.answer("drop_" + names[i] + "awg", drops[i], "V");
  if (drops.size() == 1) a.answer("voltage_drop", drops.front(), "V");
  if (drops.size() > 1) a.answer("voltage_drop", drops, "V");
  if (!volts) return;
  if (drops.size() == 1) {
    a.answer("load_voltage", *volts - drops.front(), "V");
    a.answer("percent", units::Ratio(drops.front() / *volts).in(units::percent), "%");
  }
  if (!limit_percent) return;
  const units::Voltage limit = units::percent(*limit_percent) * units::volts(*volts);
  a.answer("limit", limit.in(units::volts), "V");
  a.answer("minimum_voltage", *volts - limit.in(units::volts), "V");
  if (drops.size() != names.size()) return;
  std::optional<units::WireSize> smallest;
  for (std::size_t i = 0; i < drops.size(); ++i) {
    const auto size = size_named(a, names[i]);
    if (!size || !units::at_most(units::volts(drops[i]), limit)) continue;
    if (!smallest || *size < *smallest) smallest = size;
  }
  if (smallest) a.answer_text("minimum_awg", smallest->table_name());
}

void egc_size(Answers& a) {
  const auto edition = edition_of(a);
  const auto device = a.number("device", "A");
  std::optional<units::WireSize> by_device;
  if (device) {
    const auto size = edition.equipment_ground(units::amps(*device), units::Metal::copper);
    if (!size.value) return a.fail(size.why);
    by_device = size.value;
    a.answer_text("egc", by_device->table_name());
  }
  const auto before = a.text("phase_before");
  const auto after = a.text("phase_after");
  const auto ground = a.text("egc_before");
  if (!before || !after) return;
  const auto size_before = size_named(a, *before);
  const auto size_after = size_named(a, *after);
  const auto size_ground = ground ? size_named(a, *ground) : by_device;
  if (!size_before || !size_after) return;
  const auto growth = codebook::growth(edition, *size_before, *size_after);
  if (!growth) return;
  a.answer("ratio_percent", growth->in(units::percent), "%");
  if (!size_ground) return;
  // The area is printed from the rounded ratio, the size is chosen by the exact one.
  const double printed = a.as_printed("ratio_percent", growth->in(units::percent));
  const auto rounded = codebook::grown_ground(edition, *size_ground, units::percent(printed));
  const auto exact = codebook::grown_ground(edition, *size_ground, *growth);
  if (!rounded || !exact) return;
  a.answer("required_kcmil", rounded->in(units::square_metres), "m2");
  if (const auto size = codebook::smallest_of_area(edition, *exact))
    a.answer_text("egc_after", size->table_name());
}

}  // namespace

void check_backfeed_current(Answers& a) { a.for_each_element(backfeed_current); }
void check_circuit_current(Answers& a) { a.for_each_element(circuit_current); }
void check_cold_voltage_coefficient(Answers& a) { a.for_each_element(cold_voltage_coefficient); }
void check_cold_voltage_table(Answers& a) { a.for_each_element(cold_voltage_table); }
void check_conductor_ampacity(Answers& a) { a.for_each_element(conductor_ampacity); }
void check_conductor_resistance(Answers& a) { a.for_each_element(conductor_resistance); }
void check_egc_size(Answers& a) { a.for_each_element(egc_size); }
void check_ocpd_size(Answers& a) { a.for_each_element(ocpd_size, {"standard_fuses"}); }
void check_rooftop_temperature(Answers& a) { a.for_each_element(rooftop_temperature); }
void check_string_sizing(Answers& a) { a.for_each_element(string_sizing); }
void check_terminal_temperature(Answers& a) { a.for_each_element(terminal_temperature); }
// Sizes and their areas are candidates here.
void check_voltage_drop(Answers& a) { a.for_each_element(voltage_drop, {"awg", "area"}); }

}  // namespace stringwright::run_cases
