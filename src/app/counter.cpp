#include "app/counter.hpp"

#include <algorithm>
#include <sstream>

#include "app/bom.hpp"
#include "base/text.hpp"
#include "job/find.hpp"
#include "units/print.hpp"

namespace stringwright::app {
namespace {

constexpr std::size_t columns = 80;

/// Cells above air by mounting. Common practice, no source.
const char* rise(const std::string& mount) {
  return mount == "pole" ? "20 K" : mount == "ground" ? "30 K" : "35 K";
}

std::string quoted(const std::string& s) {
  std::string all = "\"";
  for (const char c : s) {
    if (c == '"' || c == '\\') all += '\\';
    all += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
  }
  return all + "\"";
}

/// The job behind the slip, its parts left to "choose".
std::string job_text(const CounterFacts& f, const parts::Library& library, int series,
                     int parallel) {
  const auto* known = job::find(library.parts, f.equipment);
  std::string v_max = f.v_max, isc_max = f.isc_max;
  if (known && v_max.empty() && known->v_dc)
    v_max = text::shortest(known->v_dc->in(units::volts)) + " V";
  if (known && isc_max.empty() && known->isc_max)
    isc_max = text::shortest(known->isc_max->in(units::amps)) + " A";
  const bool inverter = known && known->kind && *known->kind == parts::PartKind::inverter;
  std::string s = "format = 1\n[job]\nname = \"At the counter\"\nedition = " + quoted(f.edition) +
                  "\nvoltage_by = \"coefficient\"\n\n[site]\nt_min = " + quoted(f.cold) +
                  "\nt_hot = " + quoted(f.hot) + "\nrise = " + quoted(rise(f.mount)) +
                  "\nplace = " + quoted(f.mount) +
                  "\n\n[grounding]\nscheme = \"functional\"\npole = \"minus\"\nbond = "
                  "\"E\"\ndevices_in = \"plus\"\n\n[row]\n";
  for (int i = 1; i <= parallel; ++i)
    s += "R" + std::to_string(i) + " = { module = " + quoted(f.module) +
         ", count = " + std::to_string(series) + " }\n";
  s += "\n[string]\n";
  for (int i = 1; i <= parallel; ++i) {
    const std::string n = std::to_string(i);
    s += "S" + n + " = { walk = \"R" + n + ".1-R" + n + "." + std::to_string(series) +
         "\", lands = \"A." + n + "\", plus_end = " + quoted(f.end) +
         ", minus_end = " + quoted(f.end) + " }\n";
  }
  s += "\n[box.A]\npart = \"choose\"\nslot = { device = \"choose\" }\nhome_run = { wire = "
       "\"choose\", tail = "
       "\"0.75 m\", segment = [{ in = \"free-air\" }] }\nout = \"OUT\"\narrester = \"choose\"\n"
       "arrester_wire = \"10 AWG Cu XHHW-2\"\n\n[run.OUT]\nto = \"E.PV\"\nwire = { poles = "
       "\"choose\", egc = \"choose\" }\nsegment = [{ in = \"PVC40\", size = \"choose\", length = " +
       quoted(f.far) + " }]\n\n[equipment.E]\nkind = \"" +
       (inverter ? "inverter" : "mppt-controller") + "\"\n";
  if (!f.battery.empty()) s += "battery = { v_max = " + quoted(f.battery) + " }\n";
  s += "input.PV = { v_max = " + quoted(v_max);
  if (!isc_max.empty()) s += ", isc_max = " + quoted(isc_max);
  return s + ", device = \"choose\" }\n";
}

class Slip {
 public:
  void rule() { text_ += std::string(columns, '-') + "\n"; }
  void line(const std::string& words, std::size_t indent = 0, std::size_t hang = 0) {
    std::istringstream in(words);
    std::string row(indent, ' ');
    bool empty = true;
    for (std::string word; in >> word;) {
      if (!empty && text::length(row) + 1 + text::length(word) > columns) {
        text_ += row + "\n";
        row = std::string(indent + hang, ' ');
        empty = true;
      }
      row += (empty ? "" : " ") + word;
      empty = false;
    }
    text_ += row + "\n";
  }
  std::string take() { return std::move(text_); }

 private:
  std::string text_;
};

void verdict(Slip& slip, const design::Layouts& all, const design::Layout& l, int count) {
  slip.line(std::to_string(l.series) + " in series, " + std::to_string(l.parallel) +
            (l.parallel == 1 ? " string" : " strings") + " of " + all.module + ": " +
            units::print(l.v_cold) + " at the coldest" +
            (l.margin_cold ? ", " + units::print(*l.margin_cold) + " to spare" : "") + "; " +
            units::print(l.v_hot) + " and " + units::print(l.p_hot) + " at the hottest.");
  if (l.v_table && l.margin_cold && *l.v_table > l.v_cold + *l.margin_cold)
    slip.line("By the code's table it would be " + units::print(*l.v_table) +
                  ", over the limit: keep the maker's coefficient with the papers.",
              2);
  if (!all.first_refused.empty()) slip.line("Refused: " + all.first_refused, 2);
  if (l.series * l.parallel < count)
    slip.line(std::to_string(count - l.series * l.parallel) +
                  " modules are left over: no count that passes takes them all.",
              2);
  slip.line(!l.needs_devices ? "Whether string devices are needed can't be told: see below."
            : *l.needs_devices
                ? "String devices are needed: the others drive back more than the label allows."
                : "No string devices are needed for back-feed; they still isolate.",
            2);
}

}  // namespace

CounterReply counter(const CounterFacts& facts, const parts::Library& library) {
  CounterReply reply;
  const auto refuse = [&](const Diagnostics& all) {
    for (const auto& d : all)
      if (d.severity == Severity::error) reply.mistakes.push_back(d.message);
  };
  if (!facts.equipment.empty() && !job::find(library.parts, facts.equipment)) {
    reply.mistakes.push_back("the library has no equipment " + text::quoted(facts.equipment));
    return reply;
  }
  const auto start = evaluate(job_text(facts, library, facts.count, 1), "the facts", {}, library);
  if (!start.usable) {
    refuse(start.diagnostics);
    return reply;
  }
  const auto edition = codebook::Edition::open(facts.edition);
  if (!edition) return reply;
  const auto inputs = design::layouts(start.wiring, *edition);
  Slip slip;
  slip.rule();
  slip.line("STRINGWRIGHT, at the counter. What was told decides: check it against the labels.");
  slip.line(std::to_string(facts.count) + " x " + facts.module + "; coldest " + facts.cold +
            ", hottest " + facts.hot + ", on a " + facts.mount + "; " + facts.far +
            " to the equipment; " + start.report.edition + ".");
  slip.rule();
  reply.usable = true;
  // All modules if it can be, then the yield, then the fewest strings.
  const design::Layout* pick = nullptr;
  if (!inputs.empty())
    for (const auto& l : inputs[0].fits) {
      const auto key = [](const design::Layout& x) {
        return std::pair(x.series * x.parallel, x.series);
      };
      if (!pick || key(*pick) < key(l)) pick = &l;
    }
  if (!pick) {
    slip.line("NO: no count of these modules passes on this equipment.");
    if (!inputs.empty() && !inputs[0].first_refused.empty()) slip.line(inputs[0].first_refused, 2);
    slip.rule();
    reply.slip = slip.take();
    return reply;
  }
  verdict(slip, inputs[0], *pick, facts.count);
  const auto designed =
      design_job(job_text(facts, library, pick->series, pick->parallel), "the facts", library);
  if (!designed.usable) {
    refuse(designed.diagnostics);
    reply.usable = false;
    return reply;
  }
  reply.job = designed.written;
  for (const auto& c : designed.proposal.chosen) {
    slip.line(c.key.substr(c.key.find('.') + 1) + ": " + c.value, 0, 2);
    if (!c.reason.empty()) slip.line("not smaller: " + c.reason, 4);
  }
  for (const auto& o : designed.proposal.open) slip.line(o.key + " is left to you: " + o.why, 0, 2);
  const auto e = evaluate(designed.written, "the facts", {}, library);
  slip.rule();
  slip.line("CART");
  if (e.usable)
    for (const auto& l : bom(e, library).lines)
      if (l.group != "Tools" && l.group != "Modules") slip.line(quantity(l) + " x " + l.what, 2, 4);
  slip.rule();
  for (const auto& f : e.report.findings)
    if (f.outcome.verdict == trail::Verdict::fail)
      slip.line("FAIL " + f.title + ": " + f.outcome.so, 0, 2);
  const auto t = check::tally(e.report);
  slip.line(check::tally_line(e.report));
  if (t.cannot_tell > 0)
    slip.line("What can't be told is not passed. Ask for the papers of the equipment and the box.");
  slip.line(
      "We supply no adapter between unlike plugs: unlike families never mate; both cables are cut "
      "and meet at "
      "terminals in the box.");
  slip.line(
      "A string is live whenever there is light. The local code and a licensed person decide.");
  slip.rule();
  reply.slip = slip.take();
  reply.fine = check::fine(e.report);
  return reply;
}

}  // namespace stringwright::app
