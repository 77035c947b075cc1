#include "cli/report_text.hpp"

#include <algorithm>
#include <ostream>

#include "base/order.hpp"
#include "cli/columns.hpp"
#include "cli/command.hpp"

namespace stringwright::cli {
namespace {

using trail::Verdict;

Tone tone_of(const check::Finding& f) {
  if (f.waived) return Tone::doubt;
  switch (f.outcome.verdict) {
    case Verdict::fail:
      return Tone::bad;
    case Verdict::cannot_tell:
    case Verdict::caution:
    case Verdict::on_site:
      return Tone::doubt;
    case Verdict::pass:
      return Tone::good;
    case Verdict::not_applicable:
      return Tone::faint;
  }
  return Tone::plain;
}

std::string verdict_word(const check::Finding& f) {
  return f.waived ? "WAIVED" : std::string(trail::word(f.outcome.verdict));
}

/// Worst first: what must be mended, then what is not known, then advice, then the rest.
int rank(const check::Finding& f) {
  if (f.waived) return 3;
  switch (f.outcome.verdict) {
    case Verdict::fail:
      return 0;
    case Verdict::cannot_tell:
      return 1;
    case Verdict::caution:
      return 2;
    case Verdict::on_site:
      return 4;
    case Verdict::pass:
      return 5;
    case Verdict::not_applicable:
      return 6;
  }
  return 7;
}

/// Findings that say the same of several things, once, with the names of all of them.
void print_like(const app::Evaluation& e, const std::vector<const check::Finding*>& like,
                bool trail, const app::Flips* flips, const Out& out) {
  const check::Finding& f = *like.front();
  std::string things;
  for (const auto* one : like) things += (things.empty() ? "@" : " @") + one->thing;
  out.out << tone(out, tone_of(f), padded(verdict_word(f), 14)) << " "
          << tone(out, Tone::strong, f.title) << "  " << tone(out, Tone::faint, f.rule + things)
          << "\n";
  if (!f.outcome.so.empty()) out.out << paragraph(f.outcome.so, 15);
  for (const auto& sentence : f.outcome.also) out.out << paragraph(sentence, 15);
  if (flips)
    if (const auto known = flips->find(f.id); known != flips->end()) {
      constexpr std::size_t most = 4;
      for (std::size_t i = 0; i < known->second.size() && i < most; ++i)
        out.out << paragraph("~ " + known->second[i].sentence, 15);
    }
  if (f.waived)
    out.out << paragraph("waived by " + f.waived->by.value_or("?") + ", " +
                             f.waived->date.value_or("?") + ": " + f.waived->reason.value_or("?"),
                         15);
  if (f.span.known() &&
      (f.outcome.verdict == Verdict::fail || f.outcome.verdict == Verdict::cannot_tell))
    out.out << std::string(15, ' ')
            << tone(
                   out, Tone::faint,
                   e.file + ":" + std::to_string(f.span.line) + ":" + std::to_string(f.span.column))
            << "\n";
  if (trail)
    for (const auto& s : f.trail.steps())
      out.out << std::string(17, ' ') << trail::render(s) << "\n";
}

bool alike(const check::Finding& x, const check::Finding& y) {
  return x.rule == y.rule && x.outcome.verdict == y.outcome.verdict &&
         x.waived.has_value() == y.waived.has_value() && !x.waived &&
         x.outcome.so == y.outcome.so && x.outcome.also == y.outcome.also;
}

void print_operating(const app::Evaluation& e, const Out& out) {
  if (e.operating.empty()) return;
  out.out << "\n"
          << tone(out, Tone::strong, "What the circuit gives") << " (solved, not measured)\n";
  for (const auto& p : e.operating) {
    out.out << "  " << padded(p.thing, 10) << padded(p.load, 15)
            << padded(units::print(p.cell) + " cell, " + units::print(p.sun), 26)
            << padded(p.v ? units::print(*p.v) : "-", 10)
            << padded(p.i ? units::print(*p.i) : "-", 10) << (p.p ? units::print(*p.p) : "");
    if (p.lost) out.out << "  (" << units::print(*p.lost) << " lost in the wires)";
    out.out << "\n";
  }
}

void print_not_looked_at(const app::Evaluation& e, bool titles, const Out& out) {
  const auto& rest = e.report.not_looked_at;
  if (rest.empty()) return;
  out.out << "\n"
          << tone(out, Tone::strong, "NOT LOOKED AT") << ": " << rest.size()
          << " rules are not built yet; the report says nothing about them\n";
  if (titles) {
    for (const auto& r : rest) out.out << "  " << padded(r.id, 6) << r.title << "\n";
    return;
  }
  std::string ids;
  for (const auto& r : rest) ids += r.id + " ";
  out.out << paragraph(ids, 2) << "  (--all prints their titles)\n";
}

}  // namespace

void print_finding(const app::Evaluation& e, const check::Finding& f, bool trail,
                   const app::Flips* flips, const Out& out) {
  print_like(e, {&f}, trail, flips, out);
}

void print_report(const app::Evaluation& e, const ReportOptions& options, const Out& out) {
  out.out
      << tone(out, Tone::strong, e.wiring.job.job.name.value_or("job without a name")) << " · "
      << e.report.edition << " · " << wiring::counts_line(e.wiring) << "\n"
      << tone(out, Tone::faint,
              "Like findings of several things stand together; the counts at the end count each.")
      << "\n";
  if (options.flips)
    out.out
        << tone(out, Tone::faint,
                "\"~\": what alone would flip that finding, cheapest first. Proved for it alone: "
                "check the job again after a change.")
        << "\n";
  out.out << "\n";
  std::vector<const check::Finding*> sorted;
  for (const auto& f : e.report.findings) sorted.push_back(&f);
  sort_keeping_order(sorted, [](const auto* x, const auto* y) { return rank(*x) < rank(*y); });
  for (std::size_t i = 0; i < sorted.size();) {
    std::vector<const check::Finding*> like{sorted[i]};
    while (++i < sorted.size() && alike(*like.front(), *sorted[i])) like.push_back(sorted[i]);
    if (options.trails)
      for (const auto* f : like) print_like(e, {f}, true, options.flips, out);
    else
      print_like(e, like, false, options.flips, out);
  }

  if (!e.choices.empty()) {
    out.out << "\n" << tone(out, Tone::strong, "Chosen where the job left it open") << "\n";
    for (const auto& c : e.choices)
      out.out << "  " << c.key << " = \"" << c.value << "\": " << c.reason << "\n";
  }
  print_operating(e, out);
  for (const auto& r : e.remarks) out.out << paragraph(r, 2);
  print_not_looked_at(e, options.not_looked_at, out);
  out.out << "\n" << tone(out, Tone::strong, check::tally_line(e.report)) << "\n";
  out.out << "Looked at: the PV side up to the equipment's PV input. Not looked at: a.c. side, "
             "battery bank, structure.\n"
             "CAUTION: strings are live as long as there is light, breakers off or on. The local "
             "code, the\n"
             "authority having jurisdiction and a licensed person decide; this report does not.\n";
}

}  // namespace stringwright::cli
