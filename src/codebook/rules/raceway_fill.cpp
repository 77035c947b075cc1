#include <cmath>

#include "codebook/methods/fill.hpp"
#include "codebook/raceways.hpp"
#include "codebook/rule.hpp"

namespace stringwright::codebook {
namespace {

bool applies(const Facts& f) {
  return f.subject == Subject::stretch && f.laid.method.known() && is_raceway(*f.laid.method);
}

struct Contents {
  Traced<units::Area> area;
  int count = 0;
  bool typical = false, alike = true;
  units::Area each;
  units::Length od;  ///< mean of all
};

/// Everything that lies in the raceway; empty where something of it is not known.
std::optional<Contents> contents(const Facts& f, const Edition& edition, Trail& trail,
                                 bool with_margin, std::vector<std::string>& missing) {
  Contents all;
  double sum_od = 0;
  for (const auto& wires : f.laid.wires) {
    const auto room = room_of(wires, edition, trail, with_margin, missing);
    if (!room) continue;
    const int n = static_cast<int>(std::lround(wires.count->in(units::plain)));
    const bool first = all.count == 0;
    all.area = first ? room->area : all.area + room->area;
    all.alike = all.alike && (first || room->each == all.each);
    all.each = room->each;
    all.typical = all.typical || room->typical;
    all.count += n;
    sum_od += n * room->od.si();
  }
  if (!missing.empty() || all.count == 0) return std::nullopt;
  all.od = units::Length::from_si(sum_od / all.count);
  return all;
}

/// Three conductors of an unlucky diameter lie side by side in a bend and jam.
void warn_of_jam(const Contents& all, units::Length inside, const Edition& edition,
                 Outcome& outcome) {
  const auto from = edition.factor("fill.jam-from"), to = edition.factor("fill.jam-to");
  const units::Ratio ratio = inside / all.od;
  if (all.count != 3 || !units::at_least(ratio, *from.value) || !units::at_most(ratio, *to.value))
    return;
  if (outcome.verdict == Verdict::pass) outcome.verdict = Verdict::caution;
  outcome.also.push_back("Three conductors can jam: inside to conductor diameter is " +
                         units::print(ratio) + ", between 2.8 and 3.2 (" + from.source.cite +
                         "). Take the next size.");
}

/// The smallest trade size of the type that takes it.
std::string smallest_that_fits(const Facts& f, const Edition& edition, units::Area area,
                               units::Ratio share) {
  for (const auto& size : units::TradeSize::all()) {
    const auto inside = raceway_inside(edition, *f.laid.method, size);
    if (!inside.value) continue;
    Trail aside;
    const auto room = share * *inside_area(aside, inside).value;
    if (units::at_most(area, room)) return size.print();
  }
  return "";
}

/// The conductors fill no more of a raceway than a share of its inside, equipment grounds counted.
///
///     A_sum = Σ n · A_each ≤ k_fill · A_in
///
/// A_in    inside area from the table's diameter, unrounded [mm²]; k_fill 53 %, 31 %, 40 % for one, two,
///         more conductors, 60 % in a nipple up to 24 in [-]
/// A_each  by chapter 9, table 5; from the measured diameter where the job gives it. PV wire without one:
///         a typical value and 8 %, and then never a pass.
///
/// Source: NFPA 70, chapter 9, tables 1, 4, 5, notes 3 to 7. Conductors of one size: note 7 counts up
/// from a remainder of 0.8. Proved: cases/rules/raceway_fill.toml, cases/published/nec_annexC.toml.
Outcome check(const Facts& f, const Edition& edition, Trail& trail) {
  if (!f.laid.size.known())
    return cannot_tell("cannot tell: the trade size of the raceway is not known.");
  const auto inside = raceway_inside(edition, *f.laid.method, *f.laid.size);
  const auto a_in = inside_area(trail, inside);
  if (!a_in.value) return cannot_tell("cannot tell: " + inside.why + ".");
  std::vector<std::string> missing;
  const auto all = contents(f, edition, trail, true, missing);
  if (!all) {
    if (missing.empty()) missing.push_back("what lies in it");
    return cannot_tell("cannot tell: " + words::list(missing) +
                       (missing.size() == 1 ? " is" : " are") + " not known.");
  }
  const auto sum = trail.let("A_sum", "all conductors", all->area);
  const auto share = fill_share(edition, all->count, f.laid.length);
  const auto k = read_table(trail, "k_fill", "share", share);
  const auto limit = trail.let("A_fill", "may be filled", k * a_in);
  Outcome outcome = demand_at_most(trail, sum, limit, share.source);
  outcome.so = units::print_percent(*sum.value / *a_in.value) + " of " + *f.laid.method + " " +
               f.laid.size->print() + " is filled by " + std::to_string(all->count) +
               (all->count == 1 ? " conductor, " : " conductors, ") +
               units::print_percent(*k.value, 0) +
               " may be: " + (outcome.verdict == Verdict::pass ? "passes." : "fails.");
  if (outcome.verdict == Verdict::fail && all->alike && !all->typical) {
    const int most = most_wires(edition, *inside.value, all->each);
    if (most >= all->count) {
      const auto note = edition.factor("fill.count-up-from");
      trail.note(std::to_string(most) + " conductors of this size may lie in it.", note.source);
      outcome.verdict = Verdict::pass;
      outcome.so +=
          " By the count for like conductors " + std::to_string(most) + " are allowed: passes.";
    }
  }
  if (all->typical) {
    Trail aside;
    std::vector<std::string> none;
    const auto bare = contents(f, edition, aside, false, none);
    const bool fits = outcome.verdict == Verdict::pass;
    const bool may_fit = bare && units::at_most(*bare->area.value, *limit.value);
    outcome.also.push_back(
        "PV wire is in no table: a typical diameter and 8 % stand in. Give the cable's own "
        "outside diameter (od).");
    if (fits) {
      outcome.verdict = Verdict::caution;
    } else {
      outcome.verdict = Verdict::cannot_tell;
      outcome.so = "cannot tell: with a typical PV wire it " +
                   std::string(may_fit ? "fits, with one 8 % thicker it does not."
                                       : "does not fit; the cable's own diameter decides.");
    }
  }
  if (outcome.verdict == Verdict::pass) warn_of_jam(*all, *inside.value, edition, outcome);
  if (outcome.verdict == Verdict::fail || outcome.verdict == Verdict::cannot_tell) {
    const auto fits = smallest_that_fits(f, edition, *sum.value, *k.value);
    if (!fits.empty())
      outcome.also.push_back(fits + " is the smallest " + *f.laid.method + " that takes them.");
  }
  outcome.margin =
      trail::Margin{*limit.value,
                    words::plain(*limit.value) + " may be filled",
                    true,
                    {{*sum.value, words::plain(*sum.value), trail::Margin::Mark::chosen}}};
  return outcome;
}

}  // namespace

extern const Rule raceway_fill{
    .id = "raceway.fill",
    .title = "Fill of the raceway",
    .aliases = "X8",
    .asks = "Do the conductors, equipment grounds among them, fit the raceway by its own table?",
    .applies = applies,
    .check = check,
    .cites =
        "fill.table fill.nipple fill.like-wires fill.jam fill.typical table.raceway-inside "
        "table.insulated-wires"};

}  // namespace stringwright::codebook
