#include "codebook/methods/time_current.hpp"

#include <cmath>

namespace stringwright::codebook {
namespace {

/// Along a straight line from (x1, y1) to (x2, y2).
double between(double x, double x1, double y1, double x2, double y2) {
  return y1 + (x - x1) * (y2 - y1) / (x2 - x1);
}

}  // namespace

std::optional<units::Time> opening_time(const std::vector<TimeCurrent>& points,
                                        units::Ratio times) {
  if (points.empty() || times < points.front().times) return std::nullopt;
  for (std::size_t k = 1; k < points.size(); ++k) {
    const auto &a = points[k - 1], &b = points[k];
    if (times > b.times) continue;
    return units::seconds(
        std::exp(between(std::log(times.si()), std::log(a.times.si()), std::log(a.within.si()),
                         std::log(b.times.si()), std::log(b.within.si()))));
  }
  return points.back().within;
}

std::optional<units::Ratio> opens_within(const std::vector<TimeCurrent>& points,
                                         units::Time limit) {
  for (std::size_t k = 0; k < points.size(); ++k) {
    if (points[k].within > limit) continue;
    if (k == 0) return points.front().times;
    const auto &a = points[k - 1], &b = points[k];
    return units::Ratio(
        std::exp(between(std::log(limit.si()), std::log(a.within.si()), std::log(a.times.si()),
                         std::log(b.within.si()), std::log(b.times.si()))));
  }
  return std::nullopt;
}

std::optional<units::Ratio> derating(const std::vector<Derating>& points,
                                     units::Temperature ambient) {
  for (std::size_t k = 0; k < points.size(); ++k) {
    if (ambient == points[k].ambient) return points[k].factor;
    if (ambient > points[k].ambient) continue;
    if (k == 0) return std::nullopt;
    const auto &a = points[k - 1], &b = points[k];
    return units::Ratio(between(ambient.kelvin(), a.ambient.kelvin(), a.factor.si(),
                                b.ambient.kelvin(), b.factor.si()));
  }
  return std::nullopt;
}

}  // namespace stringwright::codebook
