#include <algorithm>

#include "job/find.hpp"
#include "wiring/builder.hpp"

namespace stringwright::wiring {

namespace {

bool lies_in(const std::vector<job::Segment>& segments, std::string_view raceway) {
  return std::any_of(segments.begin(), segments.end(),
                     [&](const job::Segment& s) { return s.raceway && *s.raceway == raceway; });
}

}  // namespace

int circuits_in(const job::Job& job, std::string_view raceway) {
  if (raceway.empty()) return 0;
  int circuits = 0;
  for (const auto& s : job.string) {
    if (!s.lands) continue;
    const job::Run* run = s.home_run ? job::find(job.run, *s.home_run) : nullptr;
    const job::Box* box = job::find(job.box, s.lands->owner);
    if (run ? lies_in(run->segment, raceway) : box && lies_in(box->home_run.segment, raceway))
      circuits += run ? run->wire.parallel.value_or(1) : 1;
  }
  for (const auto& run : job.run) {
    const bool output = std::any_of(job.box.begin(), job.box.end(), [&](const job::Box& b) {
      return (b.out && *b.out == run.id) || (run.from && *run.from == b.id);
    });
    if (output && lies_in(run.segment, raceway)) circuits += run.wire.parallel.value_or(1);
  }
  return circuits;
}

std::string stated_colour(const job::WireMarks& marks, Pole pole) {
  const auto& colour = pole == Pole::plus ? marks.plus_colour : marks.minus_colour;
  if (!colour) return "";
  return std::string(names(static_cast<job::Colour*>(nullptr), static_cast<int>(*colour)).first);
}

std::vector<std::vector<Stretch>> resolve(const std::vector<job::Segment>& segments,
                                          const job::Job& job, int wires, const std::string& where,
                                          std::vector<const job::Segment*>* junctions) {
  const job::Site& site = job.site;
  bool pull_point = true;
  std::vector<std::vector<Stretch>> parts(1);
  int number = 0;
  for (const auto& segment : segments) {
    if (segment.pull_box) {
      pull_point = true;
      continue;
    }
    if (segment.junction) {
      pull_point = true;
      parts.emplace_back();
      if (junctions) junctions->push_back(&segment);
      continue;
    }
    ++number;
    Stretch s;
    s.in = segment.in.value_or("");
    s.size = segment.size;
    s.length = segment.length.value_or(units::Length{});
    s.buried = segment.buried.value;
    s.above_roof = segment.above_roof.value;
    s.said = segment;
    s.after_pull_point = pull_point;
    pull_point = false;
    s.span = segment.span;
    const std::string here = where + ", stretch " + std::to_string(number);
    if (segment.ambient) {
      s.ambient = *segment.ambient;
      s.ambient_from = here;
    } else if (site.t_hot) {
      // Soil is cooler than the hottest air: the air's temperature errs on the safe side.
      s.ambient = *site.t_hot;
      s.ambient_from = s.buried ? "site t_hot, cautious for buried" : "site t_hot";
    }
    s.raceways = segment.raceways.value_or(1);
    // The raceway's own count holds whatever lies in it beside this circuit; an odd share counts as the
    // larger one.
    const int sharing = std::max(wires, 2 * circuits_in(job, segment.raceway.value_or("")));
    s.wires = segment.wires ? *segment.wires : (sharing + s.raceways - 1) / s.raceways;
    s.bends = segment.bends.value_or({});
    parts.back().push_back(std::move(s));
  }
  return parts;
}

}  // namespace stringwright::wiring
