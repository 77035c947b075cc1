#include "job/checks.hpp"

#include <algorithm>

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
  if (!w.finding) return;
  const auto at = w.finding->find('@');
  if (at == std::string::npos || at == 0 || at + 1 == w.finding->size())
    out.error("job.bad-form", w.finding.span, text::quoted(*w.finding) + " is no id of a finding",
              "a finding is rule@thing, such as conductor.voltage-drop@OUT");
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

void check_part(const parts::Part& part, Messages& out) {
  check_rising(part.curve, &parts::TimeCurrentPoint::times, "the curve of part " + part.id, out);
  check_rising(part.derating, &parts::DeratingPoint::ambient, "the derating of part " + part.id,
               out);
  if (!part.kind) return;
  parts::Part copy = part;  // field lists visit what can be written
  KindCheck check(part, name_of(*part.kind), out);
  describe(check, copy);
}

void check_segment(const Segment& s, const std::string& where, Messages& out) {
  if (s.in) {
    const std::vector<std::string> known(wiring_methods.begin(), wiring_methods.end());
    if (std::find(known.begin(), known.end(), *s.in) == known.end())
      out.error("job.unknown-choice", s.in.span,
                "'in' in " + where + " can't be " + text::quoted(*s.in),
                suggest(*s.in, known, "allowed: "));
  }
  const auto written = [&](const auto& field) { return field.span != s.span; };
  if (!written(s.junction)) {
    if (!written(s.in)) out.error("job.missing", s.span, where + " lacks 'in' (or 'junction')");
    if (s.wire)
      out.error("job.contradiction", s.wire.span, where + " changes the wire without a junction",
                "write junction = \"...\" beside it, in a segment of its own");
    return;
  }
  const auto refuse = [&](std::string_view key, const auto& field) {
    if (written(field))
      out.error("job.contradiction", field.span,
                where + " is a junction, so it has no '" + std::string(key) + "'",
                "write the junction and the stretch as two segments");
  };
  refuse("in", s.in);
  refuse("size", s.size);
  refuse("length", s.length);
  refuse("buried", s.buried);
  refuse("above_roof", s.above_roof);
  refuse("bends", s.bends);
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
  check_parts(job.part, out);
  for (const auto& run : job.run) check_segments(run.segment, "run." + run.id, out);
  for (const auto& box : job.box)
    check_segments(box.home_run.segment, "box." + box.id + ".home_run", out);
  for (const auto& waiver : job.waive) check_waiver(waiver, out);
}

}  // namespace stringwright::job
