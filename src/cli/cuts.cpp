#include <algorithm>
#include <ostream>

#include "app/cuts.hpp"
#include "base/text.hpp"
#include "cli/columns.hpp"
#include "cli/command.hpp"
#include "cli/library.hpp"
#include "units/print.hpp"

namespace stringwright::cli {
namespace {

struct Options {
  std::string job, place;
  bool json = false, own = false, labels = false;
};

std::string right(const std::string& s, std::size_t width) {
  const std::size_t n = text::length(s);
  return (n < width ? std::string(width - n, ' ') : "") + s;
}

std::string metres(units::Length l) { return units::print(units::AnyQuantity(l), 2); }

void print_cable(const design::CutCable& c, const Out& out) {
  out.out << tone(out, Tone::strong, "Cable " + std::to_string(c.number)) << "  "
          << padded(c.part, 22) << metres(c.stock) << " plug to plug, " << c.wire.print()
          << ", family " << c.family << "\n";
  out.out << "  cut at " << tone(out, Tone::strong, metres(c.cut))
          << " from the plug that mates with module +\n";
  for (const auto* p : {&c.plus, &c.minus})
    if (*p)
      out.out << "    " << padded((*p)->tag, 8) << right(metres((*p)->length), 9) << "   needs "
              << right(metres((*p)->need), 9) << ", spare " << right(metres((*p)->spare()), 8)
              << "\n";
  for (const auto& f : c.flags) out.out << paragraph(tone(out, Tone::doubt, "! ") + f, 2);
}

void print_plan(const design::CutPlan& plan, bool labels, const Out& out) {
  out.out << paragraph(
      "Cut only a cable with both plugs unmated and in your hand: a cable that is plugged in at "
      "one "
      "end is live at the other as long as there is light. Tag both sides of the cut before the "
      "next cable; test continuity plug to cut end; then polarity at the box with a meter. A "
      "colour "
      "or a shape of plug proves nothing.",
      0);
  out.out << "\n";
  for (const auto& c : plan.cables) print_cable(c, out);
  for (const auto& r : plan.reel)
    out.out << tone(out, Tone::strong, "Reel") << "  " << padded(r.piece.tag, 8)
            << metres(r.piece.need) << " of " << r.wire.print() << ", one connector of family "
            << r.family << " that mates with module "
            << (r.piece.pole == wiring::Pole::plus ? "+" : "−") << "; "
            << (r.longest_stock ? "the longest stock cable is " + metres(*r.longest_stock)
                                : std::string("no stock cable of this family and wire is known"))
            << "\n";
  if (!plan.empty()) {
    out.out << "\n" << tone(out, Tone::strong, "Buy") << "\n";
    for (const auto& b : plan.buy)
      out.out << "  " << right(std::to_string(b.count), 3) << " x  " << padded(b.part, 22)
              << metres(b.length) << "  " << b.title << "\n";
    out.out << "  " << metres(plan.bought) << " of cable for " << metres(plan.needed)
            << " of need; ";
    if (plan.price) out.out << plan.price->print() << " at prices of " << plan.price_date << "; ";
    out.out << (plan.proved
                    ? std::string("proved: no plan ") +
                          (plan.by_price ? "costs less"
                                         : "takes fewer cables, or as many and less length,") +
                          " with this stock\n"
                    : std::string("not proved to be the least\n"));
  }
  for (const auto& a : plan.advice) out.out << "\n" << paragraph(a, 2);
  if (labels) {
    out.out << "\n" << tone(out, Tone::strong, "Labels, one for each end of each piece") << "\n";
    const auto pair = [&](const design::CutPiece& p) {
      out.out << "  at the string: " << padded(p.at_string, 28) << "in the box: " << p.at_box
              << "\n";
    };
    for (const auto& c : plan.cables) {
      if (c.plus) pair(*c.plus);
      if (c.minus) pair(*c.minus);
    }
    for (const auto& r : plan.reel) pair(r.piece);
  }
  if (!plan.cannot_tell.empty()) {
    out.out << "\n" << tone(out, Tone::doubt, "CANNOT TELL") << "\n";
    for (const auto& c : plan.cannot_tell) out.out << paragraph(c, 2);
  }
}

/// One line of a curve: where, how much, and as a bar.
void print_place(const design::PlaceCurve& c, const Out& out) {
  if (c.points.empty()) {
    out.out << "No curve: " << c.why_not << "\n";
    return;
  }
  double most = 0;
  for (const auto& p : c.points) most = std::max(most, p.bought.in(units::metres));
  const auto line = [&](const design::PlacePoint& p, const std::string& mark) {
    std::string cables;
    for (const auto& [count, length] : p.cables)
      cables += (cables.empty() ? "" : ", ") + std::to_string(count) + " x " + metres(length);
    if (p.reel > 0) cables += (cables.empty() ? "" : ", ") + std::to_string(p.reel) + " off a reel";
    constexpr double width = 24;
    const auto bar = static_cast<std::size_t>(width * p.bought.in(units::metres) / most);
    out.out << padded(mark, 8) << "x " << right(metres(p.x), 8) << ", y " << right(metres(p.y), 8)
            << "  bought " << right(metres(p.bought), 9) << ", needed "
            << right(metres(p.needed), 9) << "  " << padded(std::string(bar, '#'), 25) << cables
            << "\n";
  };
  for (std::size_t i = 0; i < c.points.size(); ++i)
    if (static_cast<int>(i) == c.best)
      line(c.points[i], "best");
    else if (i % 5 == 0)
      line(c.points[i], "");
  if (c.now) line(*c.now, "now");
  out.out << paragraph(
      "Ways by geometry: along the row's lower edge to the box, then straight to it, square. Look "
      "at "
      "shade, heat, reach and access of a place before its cable.",
      0);
  if (c.explicit_ends)
    out.out << paragraph(
        "The job gives end lengths of its own; they hold for one place only and are left aside "
        "here.",
        0);
}

int cuts(const Options& o, const Out& out) {
  const auto e = evaluate_file(o.job, out);
  if (!e) return input;
  if (!e->usable) {
    if (o.json)
      out.out << app::cuts_json(*e, nullptr);
    else
      print_diagnostics(*e, out);
    return input;
  }
  const auto library = whole_library(out);
  if (!library) return input;
  if (!o.place.empty()) {
    const auto curve = app::place(*e, o.place, *library);
    print_place(curve, out);
    return curve.points.empty() ? findings : fine;
  }
  design::CutOptions options;
  options.share = !o.own;
  const auto plan = app::cuts(*e, *library, options);
  if (o.json) {
    out.out << app::cuts_json(*e, &plan);
  } else {
    print_diagnostics(*e, out);
    print_plan(plan, o.labels, out);
  }
  return plan.cannot_tell.empty() ? fine : findings;
}

}  // namespace

void add_cuts(CLI::App& app, Action& chosen) {
  auto o = std::make_shared<Options>();
  auto* command = app.add_subcommand(
      "cuts", "Which connectorised cables to buy for the home runs, and where to cut them");
  command->add_option("JOB", o->job, "Job file")->required();
  command->add_flag("--labels", o->labels, "Print the labels of both ends of every piece");
  command->add_flag("--own-cables", o->own, "Every string from a cable of its own; none is shared");
  command->add_option("--place", o->place,
                      "Instead: cable against the position of this box along the array");
  command->add_flag("--json", o->json, "Reply as JSON (schema: stringwright schema reply)");
  command->callback([o, &chosen] { chosen = [o](const Out& out) { return cuts(*o, out); }; });
}

}  // namespace stringwright::cli
