#include "job/checks.hpp"

#include <algorithm>
#include <utility>

#include "base/text.hpp"
#include "job/fields.hpp"
#include "job/kinds.hpp"
#include "job/names.hpp"

namespace stringwright::job {
namespace {

void check_edition(const Header& header, Messages& out) {
  if (!header.edition) return;
  const std::string& found = *header.edition;
  const std::vector<std::string> known(editions.begin(), editions.end());
  if (std::find(known.begin(), known.end(), found) != known.end()) return;
  const std::vector<std::string> later{"nec_2008", "nec_2011", "nec_2026", "iec", "iec_2016"};
  if (std::find(later.begin(), later.end(), found) != later.end())
    out.error("job.edition", header.edition.span,
              "edition " + text::quoted(found) + " is not offered yet",
              "offered: " + text::join(known, ", "));
  else
    out.error("job.edition", header.edition.span, "there is no edition " + text::quoted(found),
              suggest(found, known, "offered: "));
}

void check_date(const Given<std::string>& date, Messages& out) {
  if (date && !is_date(*date))
    out.error("job.bad-form", date.span, text::quoted(*date) + " is no day of the calendar",
              "a date is year-month-day, such as 2031-05-02");
}

void check_waiver(const Waiver& w, Messages& out) {
  check_date(w.date, out);
  // A waiver is a person's word: without one it waives nothing.
  for (const auto& [key, said] : {std::pair{"reason", &w.reason}, std::pair{"by", &w.by}})
    if (*said && text::trim(**said).empty())
      out.error("job.bad-form", said->span,
                "a waiver says nothing under '" + std::string(key) + "'",
                "write why the finding is accepted, and who accepts it");
  if (!w.finding) return;
  const auto at = w.finding->find('@');
  if (at == std::string::npos || at == 0 || at + 1 == w.finding->size())
    out.error("job.bad-form", w.finding.span, text::quoted(*w.finding) + " is no id of a finding",
              "a finding is rule@thing, such as conductor.voltage-drop@OUT");
}

/// Load centres are named where a bond may stand, beside boxes and equipment.
void check_load_centres(const Job& job, Messages& out) {
  for (const auto& e : job.equipment) {
    if (!e.load_centre) continue;
    const std::string& id = *e.load_centre;
    if (const auto bad = bad_id(id))
      out.error("job.bad-id", e.load_centre.span,
                text::quoted(id) + " can't be the name of a load centre: " + *bad);
    const auto is_it = [&](const auto& thing) { return thing.id == id; };
    if (id == "battery" || std::any_of(job.box.begin(), job.box.end(), is_it) ||
        std::any_of(job.equipment.begin(), job.equipment.end(), is_it))
      out.error("job.duplicate", e.load_centre.span,
                "load centre " + text::quoted(id) + " of equipment " + e.id +
                    " has the name of another thing that may own the bond",
                "call it otherwise");
  }
}

void check_grounding(const Grounding& g, Messages& out) {
  if (g.scheme && *g.scheme == Scheme::ungrounded && g.pole)
    out.error("job.contradiction", g.pole.span,
              "the scheme is ungrounded, but a grounded pole is named",
              "leave 'pole' out, or choose another scheme");
}

/// What stands on a roof is on a building.
void check_site(const Site& s, Messages& out) {
  if (s.place && *s.place == Place::roof && s.on_building && !*s.on_building)
    out.error("job.contradiction", s.on_building.span,
              "nothing is on or in a building, but the array stands on a roof",
              "write on_building = true, or leave it out");
}

/// Refuses fields that do not belong to the part's kind.
class KindCheck {
 public:
  KindCheck(const parts::Part& part, std::string_view kind, Messages& out)
      : part_(part), kind_(kind), out_(out) {}

  template <class T>
  void operator()(std::string_view key, Given<T>& member, const About& about) {
    if (member) refuse(key, member.span, about);
  }
  template <Record R>
  void operator()(std::string_view key, R& member, const About& about) {
    if (member.span.known()) refuse(key, member.span, about);
  }
  template <Record R>
  void operator()(std::string_view key, std::vector<R>& member, const About& about) {
    if (!member.empty()) refuse(key, member.front().span, about);
  }

 private:
  void refuse(std::string_view key, Span span, const About& about) {
    if (about.only.empty()) return;
    std::vector<std::string> kinds;
    for (const auto kind : text::split(about.only, ' ')) {
      if (kind == kind_) return;
      kinds.emplace_back(kind);
    }
    out_.error("job.part-kind", span,
               "part " + part_.id + " is of kind " + std::string(kind_) + "; '" + std::string(key) +
                   "' belongs to " + listed(kinds));
  }

  const parts::Part& part_;
  std::string_view kind_;
  Messages& out_;
};

/// The points of a maker's table have to rise, or nothing can be read between them.
template <class Point, class Value>
void check_rising(const std::vector<Point>& points, Given<Value> Point::* along,
                  const std::string& what, Messages& out) {
  for (std::size_t k = 1; k < points.size(); ++k) {
    const auto &before = points[k - 1].*along, &here = points[k].*along;
    if (before && here && !(*before < *here))
      out.error("job.contradiction", here.span,
                what + " does not rise: point " + std::to_string(k + 1) +
                    " is not above the one before it",
                "write the points in rising order, each once");
  }
}

void check_method(const std::string& method, Span span, const std::string& what, Messages& out) {
  const std::vector<std::string> known(wiring_methods.begin(), wiring_methods.end());
  if (std::find(known.begin(), known.end(), method) != known.end()) return;
  out.error("job.unknown-choice", span, what + " can't be " + text::quoted(method),
            suggest(method, known, "allowed: "));
}

void check_part(const parts::Part& part, Messages& out) {
  check_rising(part.curve, &parts::TimeCurrentPoint::times, "the curve of part " + part.id, out);
  check_rising(part.derating, &parts::DeratingPoint::ambient, "the derating of part " + part.id,
               out);
  if (!part.kind) return;
  parts::Part copy = part;  // field lists visit what can be written
  KindCheck check(part, name_of(*part.kind), out);
  describe(check, copy);
  const std::string who = "part " + part.id;
  if (part.end && *part.end != "pin" && *part.end != "socket")
    out.error("job.unknown-choice", part.end.span,
              "'end' of " + who + " can't be " + text::quoted(*part.end), "allowed: pin, socket");
  if (part.method) check_method(*part.method, part.method.span, "'method' of " + who, out);
  if (part.clamp_min && part.clamp_max && *part.clamp_min > *part.clamp_max)
    out.error("job.contradiction", part.clamp_min.span,
              who + ": its thinnest cable is thicker than its thickest");
  check_date(part.price_date, out);
  if (part.price && !part.price_date)
    out.error(
        "job.missing", part.price.span, who + " has a price without the day it was read",
        "write price_date = \"2031-05-02\" beside it: a price is worth little without its date");
}

void check_segment(const Segment& s, const std::string& where, Messages& out) {
  if (s.in) check_method(*s.in, s.in.span, "'in' in " + where, out);
  const auto written = [&](const auto& field) { return field.span != s.span; };
  const bool pull_box = written(s.pull_box);
  if (!written(s.junction) && !pull_box) {
    if (!written(s.in)) out.error("job.missing", s.span, where + " lacks 'in' (or 'junction')");
    if (written(s.box_size) || written(s.pull))
      out.error("job.contradiction", written(s.box_size) ? s.box_size.span : s.pull.span,
                where + " has a box size or pull without a box",
                "write pull_box = \"...\" beside it, in a segment of its own");
    if (s.wire)
      out.error("job.contradiction", s.wire.span, where + " changes the wire without a junction",
                "write junction = \"...\" beside it, in a segment of its own");
    return;
  }
  const auto refuse = [&](std::string_view key, const auto& field) {
    if (written(field))
      out.error("job.contradiction", field.span,
                where + (pull_box ? " is a pull box" : " is a junction") + ", so it has no '" +
                    std::string(key) + "'",
                pull_box ? "write the pull box and the stretch as two segments"
                         : "write the junction and the stretch as two segments");
  };
  if (pull_box) {
    refuse("junction", s.junction);
    refuse("wire", s.wire);
  }
  refuse("in", s.in);
  refuse("size", s.size);
  refuse("length", s.length);
  refuse("buried", s.buried);
  refuse("above_roof", s.above_roof);
  refuse("bends", s.bends);
  refuse("raceways", s.raceways);
}

/// Parallel wires are shared by raceways; home runs of a box are single.
void check_raceways(const std::vector<Segment>& all, int parallel, const std::string& where,
                    Messages& out) {
  for (const auto& s : all) {
    const int raceways = s.raceways.value_or(1);
    if (raceways == 1 || parallel % raceways == 0) continue;
    out.error("job.contradiction", s.raceways.span,
              "[" + where + "] has " + std::to_string(parallel) +
                  (parallel == 1 ? " conductor" : " conductors") + " in each pole, which " +
                  std::to_string(raceways) + " raceways can't share evenly",
              "say wire.parallel, a multiple of the raceways");
  }
}

void check_segments(const std::vector<Segment>& all, const std::string& where, Messages& out) {
  for (std::size_t i = 0; i < all.size(); ++i)
    check_segment(all[i], "segment " + std::to_string(i + 1) + " of [" + where + "]", out);
}

}  // namespace

void check_parts(const std::vector<parts::Part>& parts, Messages& out) {
  for (const auto& part : parts) check_part(part, out);
}

void check_records(const Job& job, Messages& out) {
  check_edition(job.job, out);
  check_date(job.job.date, out);
  check_grounding(job.grounding, out);
  check_site(job.site, out);
  check_load_centres(job, out);
  check_parts(job.part, out);
  for (const auto& run : job.run) {
    check_segments(run.segment, "run." + run.id, out);
    check_raceways(run.segment, run.wire.parallel.value_or(1), "run." + run.id, out);
  }
  for (const auto& box : job.box) {
    check_segments(box.home_run.segment, "box." + box.id + ".home_run", out);
    check_raceways(box.home_run.segment, 1, "box." + box.id + ".home_run", out);
  }
  for (const auto& waiver : job.waive) check_waiver(waiver, out);
}

}  // namespace stringwright::job
