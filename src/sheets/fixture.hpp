#pragma once

// For tests only: jobs of any number of strings, and a report with every kind of verdict.

#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

#include "job/read.hpp"
#include "sheets/sheet.hpp"
#include "wiring/wiring.hpp"

namespace stringwright::sheets::fixture {

struct Options {
  int strings = 2;
  std::string devices_in = "plus", scheme = "functional", pole = "minus", device = "breaker";
  bool arrester = true, outline = true, part = true;
  bool mixed = false;  ///< slot 1 has a wider fuse of its own
  std::string name = "Test field", ids = "S";
  std::string more_header = {};  ///< further lines of [job]
};

/// Smallest of a few box sizes that has a slot for each string: slots, width, height.
struct BoxSize {
  int slots, width, height;
};
inline BoxSize box_size(int strings) {
  for (const BoxSize b : {BoxSize{4, 250, 186}, {8, 406, 330}, {12, 548, 360}})
    if (strings <= b.slots) return b;
  return {std::max(16, strings), 760, 420};
}

inline std::string job_text(const Options& o) {
  const BoxSize size = box_size(o.strings);
  const int poles = o.devices_in == "both" ? 2 : 1;
  std::string s = fmt::format(
      "format = 1\n[job]\nname = \"{}\"\nid = \"T-1\"\nedition = \"nec_2023\"\ndate = "
      "\"2031-05-02\"\n"
      "place = \"test field\"\nrevision = \"A\"\n{}\n",
      o.name, o.more_header);
  s += "[site]\nt_min = \"-31 °C\"\nt_hot = \"32 °C\"\nrise = \"30 K\"\nplace = \"ground\"\n";
  s += fmt::format("[grounding]\nscheme = \"{}\"\ndevices_in = \"{}\"\n", o.scheme, o.devices_in);
  if (o.scheme != "ungrounded") s += fmt::format("pole = \"{}\"\nbond = \"CC1\"\n", o.pole);
  s +=
      "[module.M365]\np_max = \"365 W\"\nv_oc = \"40.9 V\"\nv_mp = \"34.1 V\"\ni_sc = \"11.35 A\"\n"
      "i_mp = \"10.71 A\"\nb_voc = \"-0.28 %/K\"\nfuse_max = \"20 A\"\nv_sys = \"1000 V\"\n"
      "size = [\"1.76 m\", \"1.04 m\"]\nfamily = \"K2\"\n";
  if (o.part) {
    s += fmt::format("[part.BX]\nkind = \"box\"\nslots = {}\nminus_holes = {}\nearth_holes = 4\n",
                     size.slots, size.slots + 2);
    if (o.outline) s += fmt::format("outline = [\"{} mm\", \"{} mm\"]\n", size.width, size.height);
    s += "minus = { wires = 2, torque = \"2.3 N·m\" }\nminus_out = { wires = 1, torque = \"4.0 "
         "N·m\" }\n"
         "bus_out = { wires = 1, torque = \"5.1 N·m\" }\nearth = { wires = 2, torque = \"2.3 N·m\" "
         "}\n";
  }
  s += fmt::format(
      "[part.dev]\nkind = \"{}\"\nrating = \"20 A\"\nv_dc_pole = \"150 V\"\npoles = {}\n"
      "line = {{ wires = 1, torque = \"2.8 N·m\" }}\nload = {{ torque = \"2.8 N·m\" }}\n"
      "size = [\"{} mm\", \"85 mm\"]\n",
      o.device, poles, 18 * poles);
  if (o.mixed)
    s += fmt::format(
        "[part.other]\nkind = \"fuse\"\nrating = \"8 A\"\nline = {{ wires = 1, torque = \"2.0 "
        "N·m\" }}\nsize = [\"{} mm\", \"81 mm\"]\n",
        22 * poles);
  s += "[part.arr]\nkind = \"arrester\"\nv_dc = \"200 V\"\nsize = [\"36 mm\", \"85 mm\"]\n";
  s += "[surface.rack]\ntilt = \"45 °\"\nazimuth = \"180 °\"\n[row]\n";
  for (int i = 1; i <= o.strings; ++i)
    s += fmt::format(
        "R{} = {{ on = \"rack\", module = \"M365\", count = 3, at = [\"0 m\", \"{} m\"], pitch = "
        "\"1.06 m\" }}\n",
        i, 2 * i);
  s += "[string]\n";
  for (int i = 1; i <= o.strings; ++i)
    s += fmt::format(
        "{}{} = {{ walk = \"R{}.1-R{}.3\", lands = \"A1.{}\", plus_end = \"{}.2 m\", minus_end = "
        "\"4.4 m\" }}\n",
        o.ids, i, i, i, i, i);
  s += fmt::format(
      "[box.A1]\n{}slot = {{ device = \"dev\", poles = {}{} }}\n"
      "home_run = {{ wire = \"10 AWG Cu PV\", tail = \"0.75 m\", segment = [{{ in = \"free-air\" "
      "}}] }}\n"
      "out = \"OUT\"\nrack_bond = \"6 AWG bare Cu\"\n{}",
      o.part ? "part = \"BX\"\n" : "", poles, o.mixed ? ", except.1 = { device = \"other\" }" : "",
      o.arrester ? "arrester = \"arr\"\narrester_wire = \"10 AWG Cu XHHW-2\"\n" : "");
  s += "[run.OUT]\nfrom = \"A1\"\nto = \"CC1.PV1\"\nwire = { poles = \"2 AWG Cu XHHW-2\", egc = "
       "\"choose\" }\n"
       "segment = [{ in = \"PVC40\", size = \"2 in\", length = \"36.5 m\", buried = \"0.6 m\" }]\n"
       "[equipment.CC1]\nkind = \"mppt-controller\"\nbattery = { v_max = \"54 V\", fault_current = "
       "\"5 kA\" }\n"
       "[equipment.CC1.input.PV1]\nv_max = \"150 V\"\nisc_max = \"250 A\"\n";
  return s;
}

/// A text of a job as a graph. Throws with the first message where the text is not usable.
inline wiring::Wiring wiring_of(const std::string& text) {
  const job::Reading reading = job::read(text, "fixture.toml");
  if (!reading.job) throw std::runtime_error(render(reading.diagnostics.at(0), text));
  Diagnostics diagnostics;
  wiring::Wiring w = wiring::build(*reading.job, diagnostics);
  if (any_error(diagnostics)) throw std::runtime_error(render(diagnostics.at(0), text));
  return w;
}

inline std::string file(const std::string& path) {
  std::ifstream in(std::string(STRINGWRIGHT_SOURCE_DIR) + "/" + path);
  if (!in) throw std::runtime_error("no file " + path);
  return {std::istreambuf_iterator<char>(in), {}};
}

/// A finding with one step of each kind.
inline check::Finding finding(const std::string& rule, const std::string& thing,
                              trail::Verdict verdict, double volts) {
  check::Finding f;
  f.rule = rule;
  f.thing = thing;
  f.id = rule + "@" + thing;
  f.title = "Cold voltage against the limit";
  auto n = f.trail.given("N", "number in series",
                         trail::Fact<units::Ratio>(units::Ratio(3), "string." + thing));
  auto v = f.trail.given("V_oc", "V_oc of a module",
                         trail::Fact<units::Voltage>(units::volts(volts), "module.M365"));
  auto k = f.trail.table("F_T", "cold factor", std::optional(units::Ratio(1.18)),
                         "−31 °C to −35 °C", {"NFPA 70-2023, Table 690.7(A)", "memory"});
  auto cold =
      f.trail.let("V_cold", "coldest", n * v * k, {"NFPA 70-2023, 690.7(A)(2)", "verified"});
  trail::Fact<units::Voltage> limit(units::volts(150), "equipment.CC1");
  if (verdict == trail::Verdict::cannot_tell) limit.value.reset();
  auto most = f.trail.given("V_in", "input limit", limit);
  f.trail.note("The limit is that of the data sheet.");
  f.trail.require(cold <= most, {"NFPA 70-2023, 110.3(B)", "memory"});
  f.outcome.verdict = verdict;
  f.outcome.so = "What follows from it, in one sentence.";
  f.outcome.also = {
      "Something else that is worth knowing, long enough to be wrapped at the right edge of the "
      "sheet, as some are."};
  if (verdict != trail::Verdict::cannot_tell)
    f.outcome.margin =
        trail::Margin{units::volts(150),
                      "150 V limit",
                      true,
                      {{units::volts(3 * volts * 1.18), "the design", trail::Margin::Mark::chosen},
                       {units::volts(150), "on the wall", trail::Margin::Mark::other},
                       {units::volts(150.4), "close to it", trail::Margin::Mark::record},
                       {units::volts(172), "too much", trail::Margin::Mark::refused}}};
  return f;
}

/// Every verdict once, a waived fail, two findings that are alike and one that differs in its numbers.
inline check::Report report() {
  using trail::Verdict;
  check::Report r;
  r.edition = "NEC 2023";
  r.findings = {finding("voltage.one", "S1", Verdict::pass, 40.9),
                finding("voltage.one", "S2", Verdict::pass, 40.9),
                finding("voltage.one", "S3", Verdict::pass, 41.3),
                finding("voltage.two", "OUT", Verdict::fail, 44),
                finding("voltage.three", "OUT", Verdict::fail, 45),
                finding("voltage.four", "CC1.PV1", Verdict::cannot_tell, 40.9),
                finding("voltage.five", "A1.Q1", Verdict::caution, 40.9),
                finding("voltage.six", "A1.Q1", Verdict::not_applicable, 40.9),
                finding("voltage.seven", "A1", Verdict::on_site, 40.9)};
  job::Waiver w;
  w.finding = std::string("voltage.three@OUT");
  w.reason = std::string("The authority accepts the old run until it is renewed.");
  w.by = std::string("the site office");
  w.date = std::string("2031-05-02");
  r.findings[4].waived = w;
  r.not_looked_at = {{"V3", "Maximum voltage by an engineer's stamped design"},
                     {"X1", "Single conductors in the open"}};
  return r;
}

/// A job with the report above.
struct Made {
  wiring::Wiring wiring;
  check::Report judged = report();

  explicit Made(const Options& o) : wiring(wiring_of(job_text(o))) {}
  explicit Made(const std::string& text) : wiring(wiring_of(text)) {}
  Material material() const {
    return {wiring,
            judged,
            {{"CC1.PV1", "maximum power, 25 °C cell, 1000 W/m²", "99.6 V", "21.36 A", "2128 W"}},
            {},
            "0.1.0"};
  }
};

}  // namespace stringwright::sheets::fixture
