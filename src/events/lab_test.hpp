#pragma once

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <memory>
#include <sstream>
#include <string>
#include <vector>

#include "app/circuit_of.hpp"
#include "app/evaluate.hpp"
#include "check/ampacity.hpp"
#include "events/table.hpp"

/// For tests: jobs read, wired and ready for events.
namespace stringwright::events {

inline std::string slurp(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::ostringstream all;
  all << in.rdbuf();
  return all.str();
}

inline std::string example(const std::string& name) {
  return slurp(std::string(STRINGWRIGHT_SOURCE_DIR) + "/examples/" + name + ".toml");
}

inline const std::vector<std::string> examples{"north-cabin", "barn-roof", "school-roof",
                                               "two-box-field", "shed-repair"};

/// A job read, wired and ready for events.
struct Lab {
  app::Evaluation e;
  app::Circuit circuit;
  codebook::Edition edition;
  std::unique_ptr<Site> site;
  std::unique_ptr<Trials> trials;

  explicit Lab(const std::string& text, codebook::Convention convention = codebook::Convention::us)
      : e(app::evaluate(text, "test.toml")), edition(codebook::Edition::open("nec_2020").value()) {
    for (const auto& d : e.diagnostics)
      if (d.severity == Severity::error) ADD_FAILURE() << render(d, text);
    std::vector<std::string> remarks;
    circuit = app::circuit_of(e.wiring, edition, remarks);
    EXPECT_TRUE(circuit.solvable);
    site = std::make_unique<Site>(e.wiring, circuit.models, circuit.resistances, convention);
    trials = std::make_unique<Trials>(*site);
  }

  Event event(const std::string& id) const {
    auto x = find_event(*site, id);
    if (!x) ADD_FAILURE() << id << ": " << x.failure().message;
    return x ? *x : Event{};
  }
  Row row(const std::string& id) {
    TableOptions o;
    o.ampacity = check::conductor_ampacities(e.wiring, edition);
    return events::row(*trials, event(id), skies(*site, o), o);
  }
  /// Amps of one device under one sky, positive with normal service.
  double amps_of(const std::string& id, const std::string& device, double sun, double cell) {
    const auto solved =
        trials->solve(event(id), {units::watts_per_square_metre(sun), units::celsius(cell)});
    if (!solved) {
      ADD_FAILURE() << id << ": " << solved.failure().message;
      return 0;
    }
    const auto reading = trials->read(*solved);
    for (std::size_t p = 0; p < site->poles.size(); ++p)
      if (site->poles[p].name == device) return reading.poles[p].in(units::amps);
    ADD_FAILURE() << "no device " << device;
    return 0;
  }
  static const Sees& sees(const Row& r, const std::string& device) {
    for (const Sees& x : r.devices)
      if (std::find(x.like.begin(), x.like.end(), device) != x.like.end()) return x;
    ADD_FAILURE() << r.event.id << " sends nothing through " << device;
    static const Sees none;
    return none;
  }
};

/// `n` equal strings of `series` modules behind devices of `rating`, all cells at 25 °C whatever the season.
inline std::string equal_strings(int n, int series, const std::string& rating,
                                 const std::string& length = "5 m") {
  std::ostringstream t;
  t << R"(format = 1
job = { name = "Equal", edition = "nec_2020" }
site = { t_min = "25 °C", t_hot = "25 °C", rise = "0 K" }
grounding = { scheme = "functional", pole = "minus", bond = "CC1", devices_in = "plus" }
module.M = { v_oc = "40.9 V", v_mp = "34.1 V", i_sc = "11.35 A", i_mp = "10.71 A", b_voc = "-0.28 %/K", g_pmp = "-0.36 %/K", a_isc = "0.048 %/K", fuse_max = "20 A", cells = 60, bypass = 3 }
part.BX = { kind = "box", slots = )"
    << n << " }\npart.Q = { kind = \"breaker\", rating = \"" << rating
    << R"(", v_dc_pole = "150 V", poles = 1, polarised = false, load_break = true, interrupt = "5 kA" }
surface.F = { tilt = "25 °", azimuth = "180 °" }
rows.R = { on = "F", module = "M", rows = )"
    << n << ", count = " << series << R"(, at = ["0 m", "0 m"], step = ["0 m", "2 m"] }
strings.S = { count = )"
    << n << ", walk = \"R{i}.1-R{i}." << series << "\", lands = \"A1.{i}\", plus_end = \"" << length
    << "\", minus_end = \"" << length << R"(" }
box.A1 = { part = "BX", slot = { device = "Q", poles = 1 }, home_run = { wire = "10 AWG Cu PV" }, out = "OUT", lands = "CC1.PV1" }
run.OUT = { wire = { poles = "1/0 AWG Cu XHHW-2", egc = "6 AWG Cu XHHW-2" }, segment = [ { in = "buried", length = "20 m" } ] }
[equipment.CC1]
kind = "mppt-controller"
input.PV1 = { v_max = "600 V", isc_max = "600 A" }
)";
  return t.str();
}

// 1.5625 · 11.35 A: what the table of per-unit currents is for.
inline constexpr const char* exact_rating = "17.734375 A";

}  // namespace stringwright::events
