#include "cli/events_text.hpp"

#include <algorithm>
#include <ostream>

#include "base/text.hpp"
#include "cli/columns.hpp"
#include "cli/command.hpp"
#include "units/print.hpp"

namespace stringwright::cli {
namespace {

using events::Danger;
using events::Row;
using events::Sees;

std::string danger_word(Danger d) {
  switch (d) {
    case Danger::breaks:
      return "DANGER";
    case Danger::silent:
      return "NOTHING TRIPS";
    case Danger::late:
      return "NOT ALWAYS";
    case Danger::seen:
      return "LIVE";
    case Danger::none:
      return "QUIET";
  }
  return "";
}

Tone tone_of(Danger d) {
  return d >= Danger::silent ? Tone::bad : d >= Danger::seen ? Tone::doubt : Tone::faint;
}

std::string load_words(events::Load l) {
  return l == events::Load::idle      ? "nothing taken at the input"
         : l == events::Load::working ? "equipment working"
                                      : "battery on the input";
}

/// "A1.Q2" or "A1.Q2 ... A1.Q4 (3)".
std::string names(const Sees& x) {
  if (x.like.size() == 1) return x.name;
  if (x.like.size() == 2) return x.like.front() + ", " + x.like.back();
  return x.like.front() + " … " + x.like.back() + " (" + std::to_string(x.like.size()) + ")";
}

std::string opens_words(const Sees& x) {
  if (!x.opens) return "rating not known";
  if (*x.opens != events::Opens::opens) return std::string(events::word(*x.opens));
  if (!x.above) return "opens at one end of the heat only";
  return x.above->si() <= 0 ? "opens" : "opens above " + units::print(*x.above, 0);
}

void print_device(const Sees& x, const Out& out) {
  std::string line = "  " + padded(names(x), 26);
  line += padded(events::amps(x.worst) + " " + x.towards, 28);
  line += padded(
      x.ratio ? units::print(*x.ratio, 2) + " × " + units::print(*x.rating, 0) : std::string("-"),
      14);
  line += padded(opens_words(x), 25);
  line += !x.after            ? "not solved"
          : x.after->recovery ? events::volts(*x.after->recovery)
                              : "floats";
  out.out << line << "\n";
}

void print_row(const Row& r, const Out& out) {
  const auto& e = r.event;
  out.out << tone(out, tone_of(r.danger), padded(danger_word(r.danger), 14))
          << tone(out, Tone::strong, e.title) << "  " << tone(out, Tone::faint, e.id) << "\n";
  std::string head = e.cause == events::Cause::work ? "work error" : "equipment fault";
  head += ", " + load_words(e.load);
  if (e.like.size() > 1)
    head += "; the same at each of " + std::to_string(e.like.size()) + " like places";
  out.out << "  " << tone(out, Tone::faint, head) << "\n";
  for (const Sees& x : r.devices) print_device(x, out);
  out.out << paragraph("→ " + r.verdict + ".", 2);
  for (const auto& note : r.notes) out.out << paragraph(note, 4);
  if (!e.gate.empty()) out.out << paragraph("Gate: " + e.gate + ".", 4);
  out.out << "\n";
}

}  // namespace

void print_events(const app::Evaluation& e, const app::EventsReply& reply, const Out& out) {
  const auto& t = reply.table;
  out.out << tone(out, Tone::strong, e.wiring.job.job.name.value_or("job without a name")) << " · "
          << wiring::counts_line(e.wiring) << " · " << t.rows.size()
          << (t.rows.size() == 1 ? " event\n" : " events\n");
  if (!t.skies.empty())
    out.out << paragraph(
        "Amps are the largest under " + units::print(t.skies.front().sun, 0) + " to " +
            units::print(t.skies.back().sun, 0) + ", cells at " +
            units::print(t.skies.front().cell) + " and at " + units::print(t.skies.back().cell) +
            "; the ratio is to the device's own rating. " +
            std::string(codebook::print(t.convention)) + " devices: " +
            (t.convention == codebook::Convention::us
                 ? "hold their rating, open at 1.35 of it within the hour, may do either between."
                 : "hold 1.13 of their rating, open at 1.45 of it, may do either between.") +
            " Last column: volts across the device when it alone opens, at the coldest under 1000 "
            "W/m².",
        0);
  for (const auto& r : reply.remarks) out.out << paragraph(r, 0);
  out.out << "\n";
  for (const Row& r : t.rows) print_row(r, out);
  if (t.rows.size() == 1) print_event_details(t, t.rows.front(), out);
  out.out << "CAUTION: no device clears a fault in weak light. What is not cleared burns until "
             "dark: cover the array or\n"
             "wait; open no plug and no bare fuse holder under current. Solved, not measured.\n";
}

}  // namespace stringwright::cli
