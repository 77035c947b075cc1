#include "design/place.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "job/find.hpp"

namespace stringwright::design {
namespace {

PlacePoint measure(job::Job job, const std::string& box, units::Length x, units::Length y,
                   const parts::Library& stock, std::string& why_not) {
  for (auto& b : job.box)
    if (b.id == box) {
      b.at.x = Given<units::Length>(x);
      b.at.y = Given<units::Length>(y);
    }
  Diagnostics ignored;
  const auto plan = cut_plan(wiring::build(job, ignored), stock);
  PlacePoint p;
  p.x = x;
  p.y = y;
  p.needed = plan.needed;
  p.bought = plan.bought;
  p.price = plan.price;
  p.reel = static_cast<int>(plan.reel.size());
  for (const auto& r : plan.reel) p.needed += r.piece.need, p.bought += r.piece.need;
  std::map<double, int> counts;
  for (const auto& c : plan.cables) ++counts[c.stock.si()];
  for (const auto& [length, count] : counts) p.cables.emplace_back(count, units::metres(length));
  if (!plan.cannot_tell.empty()) why_not = plan.cannot_tell.front();
  return p;
}

}  // namespace

std::optional<PlaceLine> usual_line(const job::Job& job, const std::string& box) {
  const auto* b = job::find(job.box, box);
  if (!b || !b->at.on || !b->at.x || !b->at.y) return {};
  std::optional<units::Length> left, right;
  for (const auto& row : job.row) {
    if (!row.on || *row.on != *b->at.on || !row.at || row.at->size() != 2 || !row.count) continue;
    const auto* m = row.module ? job::find(job.module, *row.module) : nullptr;
    const auto width = row.pitch ? *row.pitch
                       : m && m->size && m->size->size() == 2
                           ? units::max((*m->size)[0], (*m->size)[1])
                           : units::metres(1);
    const auto x0 = (*row.at)[0], x1 = x0 + *row.count * width;
    left = left ? units::min(*left, x0) : x0;
    right = right ? units::max(*right, x1) : x1;
  }
  if (!left) return {};
  const auto beyond = units::metres(0.5);
  return PlaceLine{*left - beyond, *b->at.y, *right + beyond, *b->at.y};
}

PlaceCurve place_box(const job::Job& job, const std::string& box, const PlaceLine& line,
                     const parts::Library& stock) {
  PlaceCurve curve;
  curve.box = box;
  const auto* b = job::find(job.box, box);
  if (!b) {
    curve.why_not = "the job has no box " + box;
    return curve;
  }
  job::Job by_geometry = job;
  // Strings of other boxes are none of its business.
  auto& strings = by_geometry.string;
  strings.erase(
      std::remove_if(strings.begin(), strings.end(),
                     [&](const job::String& s) { return !s.lands || s.lands->owner != box; }),
      strings.end());
  for (auto& s : strings) {
    curve.explicit_ends = curve.explicit_ends || s.plus_end || s.minus_end;
    s.plus_end = {};
    s.minus_end = {};
  }
  if (b->at.x && b->at.y)
    curve.now = measure(by_geometry, box, *b->at.x, *b->at.y, stock, curve.why_not);
  if (!curve.why_not.empty()) {
    curve.now.reset();
    return curve;
  }
  for (int i = 0; i <= line.steps; ++i) {
    const double t = static_cast<double>(i) / line.steps;
    curve.points.push_back(measure(by_geometry, box, line.from_x + t * (line.to_x - line.from_x),
                                   line.from_y + t * (line.to_y - line.from_y), stock,
                                   curve.why_not));
  }
  const auto key = [](const PlacePoint& p) {
    return std::tuple(p.reel, p.price ? p.price->hundredths : 0, p.bought.si(), p.needed.si());
  };
  for (int i = 0; i < static_cast<int>(curve.points.size()); ++i)
    if (curve.best < 0 || key(curve.points[static_cast<std::size_t>(i)]) <
                              key(curve.points[static_cast<std::size_t>(curve.best)]))
      curve.best = i;
  return curve;
}

}  // namespace stringwright::design
