#include <ostream>

#include "cli/columns.hpp"
#include "cli/command.hpp"
#include "cli/events_text.hpp"
#include "units/print.hpp"

namespace stringwright::cli {
namespace {

using events::Bears;
using events::LiveAt;
using events::Row;
using events::Sees;
using events::Table;

/// "+658.3 V", "−12.0 V", or "-" where there is none.
std::string signed_volts(const std::optional<units::Voltage>& v) {
  if (!v) return "-";
  const double x = v->in(units::volts);
  return (x >= 0.05 ? "+" : x <= -0.05 ? "−" : "") + events::volts(*v);
}

std::string touch_words(const LiveAt& x) {
  return std::string(events::word(x.touch)) +
         (x.to_ground ? " " + signed_volts(x.to_ground) + " to ground" : "");
}

void print_lights(const Table& t, const Row& r, const Out& out) {
  const std::size_t half = t.skies.size() / 2;
  out.out << tone(out, Tone::strong, "Amps by light: coldest cells · hottest cells") << "\n";
  std::string head = "  " + padded("W/m²", 14);
  for (std::size_t k = 0; k < half; ++k)
    head += padded(units::print(units::Ratio(t.skies[k].sun.si()), 0), 12);
  out.out << tone(out, Tone::faint, head) << "\n";
  const auto number = [](units::Current i) {
    const auto size = units::abs(i).si();
    return (i.si() < 0 ? "−" : "") + units::print(units::Ratio(size), size < 100 ? 1 : 0);
  };
  for (const Sees& x : r.devices) {
    std::string line = "  " + padded(x.name, 14);
    for (std::size_t k = 0; k < half; ++k)
      line += padded(number(x.i[k]) + " · " + number(x.i[half + k]), 12);
    out.out << line << "\n";
  }
  out.out << "\n";
}

void print_bears(const Row& r, const Out& out) {
  if (r.bears.empty()) return;
  out.out << tone(out, Tone::strong, "What has to bear it") << "\n";
  for (const Bears& b : r.bears) {
    const char* what = b.what == Bears::What::module_reverse ? "modules, backwards"
                       : b.what == Bears::What::bypass_diode ? "bypass diodes"
                       : b.what == Bears::What::connector    ? "connectors"
                                                             : "conductors";
    const std::string more =
        b.like.size() > 1 ? " and " + std::to_string(b.like.size() - 1) + " more" : "";
    std::string limit = "cannot tell: its rating is not known";
    std::string amps = events::amps(b.i);
    if (b.limit) {
      const auto [i, most] = units::print_pair(b.i, *b.limit);
      amps = i;
      limit = (*b.holds() ? "of " : "BEYOND ") + most + " (" + b.limit_words + ")";
    }
    out.out << "  " << padded(what, 20) << padded(b.thing + more, 22) << padded(amps, 12) << limit
            << "\n";
  }
  out.out << "\n";
}

void print_openings(const Row& r, const Out& out) {
  if (r.devices.empty()) return;
  out.out << tone(out, Tone::strong,
                  "After each single opening, all others closed (coldest cells, 1000 W/m²)")
          << "\n";
  for (const Sees& x : r.devices) {
    if (!x.after) continue;
    const auto& a = *x.after;
    std::string line = "  " + padded(x.name, 14);
    line += padded(a.recovery ? events::volts(*a.recovery) + " across" : std::string("floats"), 18);
    line += padded(events::amps(a.left) + " in the fault", 22);
    line += a.most_at.empty() ? "nothing flows in any device"
                              : "at most " + events::amps(a.most) + ", in " + a.most_at;
    out.out << line << "\n";
    std::string sides = "line " + touch_words(a.line) + ", load " + touch_words(a.load);
    for (const auto& pole : a.still) sides += "; still closed: " + pole;
    out.out << paragraph(sides + ".", 16);
  }
  if (!r.opened.empty()) {
    std::string all;
    for (const auto& name : r.opened) all += (all.empty() ? "" : ", ") + name;
    out.out << paragraph("When all that has to open has opened (" + all + "), " +
                             events::amps(r.left) +
                             " stay in the fault (1000 W/m², hottest cells).",
                         2);
  }
  out.out << "\n";
}

void print_live(const Row& r, const Out& out) {
  if (r.live.empty()) return;
  out.out << tone(out, Tone::strong, "Terminals, every device closed (coldest cells, 1000 W/m²)")
          << "\n"
          << tone(out, Tone::faint,
                  "  " + padded("", 8) + padded("to ground", 12) + padded("to minus", 12) +
                      "terminals")
          << "\n";
  for (const LiveAt& x : r.live) {
    std::string names;
    for (std::size_t k = 0; k < x.terminals.size(); ++k) {
      if (k == 4) {
        names += " and " + std::to_string(x.terminals.size() - k) + " more";
        break;
      }
      names += (names.empty() ? "" : ", ") + x.terminals[k];
    }
    out.out << "  "
            << tone(out, x.touch == events::Touch::live ? Tone::bad : Tone::doubt,
                    padded(std::string(events::word(x.touch)), 8))
            << padded(signed_volts(x.to_ground), 12) << padded(signed_volts(x.to_minus), 12)
            << names << "\n";
  }
  out.out << paragraph(
                 "FLOAT: nothing but insulation, or a bond that may open, holds it at ground; "
                 "treat it as live. DEAD is not proven: prove it before you touch it.",
                 2)
          << "\n";
}

}  // namespace

void print_event_details(const Table& t, const Row& r, const Out& out) {
  if (r.failure) return;
  print_lights(t, r, out);
  print_bears(r, out);
  print_openings(r, out);
  print_live(r, out);
}

}  // namespace stringwright::cli
