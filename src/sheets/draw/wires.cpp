#include "sheets/draw/wires.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace stringwright::sheets::draw {
namespace {

constexpr double bare_end = 1.2;  // of the white gap, so that it does not eat the screw

Ink ink(Pattern p) {
  switch (p) {
    case Pattern::plus:
    case Pattern::plus_grounded:
      return Ink::positive;
    case Pattern::minus:
    case Pattern::minus_grounded:
      return Ink::ink;
    case Pattern::ground:
      return Ink::ground;
  }
  return Ink::ink;
}

/// The path without `cut` at both ends, for the white gap below.
std::vector<Point> inner(std::vector<Point> path, double cut) {
  const auto pull = [&](Point& end, const Point& next) {
    const double length = std::hypot(next.x - end.x, next.y - end.y);
    if (length <= cut) return;
    end.x += (next.x - end.x) * cut / length;
    end.y += (next.y - end.y) * cut / length;
  };
  if (path.size() < 2) return path;
  pull(path.front(), path[1]);
  pull(path.back(), path[path.size() - 2]);
  return path;
}

void stroke(Canvas& c, Look look, const std::vector<Point>& path) {
  const double w = width(look);
  switch (look.pattern) {
    case Pattern::plus:
      c.polyline(path, {Ink::positive, w}, wire_bend);
      break;
    case Pattern::ground:
      c.polyline(path, {Ink::ground, w, {3.4, 1.1}}, wire_bend);
      break;
    case Pattern::minus:
      c.polyline(path, {Ink::ink, w}, wire_bend);
      c.polyline(path, {Ink::paper, w * 0.34, {2.4, 1.4}}, wire_bend);
      break;
    case Pattern::plus_grounded:
    case Pattern::minus_grounded:
      c.polyline(path, {ink(look.pattern), w}, wire_bend);
      c.polyline(path, {Ink::paper, w * 0.54}, wire_bend);
      break;
  }
}

}  // namespace

double width(Look look) {
  if (look.pattern == Pattern::ground) return weight::ground;
  if (look.output) return weight::output;
  if (look.pattern == Pattern::plus_grounded || look.pattern == Pattern::minus_grounded)
    return weight::hollow;
  return look.pattern == Pattern::plus ? weight::positive : weight::negative;
}

std::string_view css(Pattern p) {
  switch (p) {
    case Pattern::plus:
      return "pos";
    case Pattern::minus:
      return "negf";
    case Pattern::plus_grounded:
      return "poss";
    case Pattern::minus_grounded:
      return "negs";
    case Pattern::ground:
      return "egc";
  }
  return "";
}

Group wire(std::string id, Look look, std::vector<Point> path, std::string title,
           std::string name) {
  // A wire that ends where it began to bend would show a cap: drop points that repeat.
  path.erase(std::unique(path.begin(), path.end(),
                         [](const Point& a, const Point& b) {
                           return std::abs(a.x - b.x) < 0.01 && std::abs(a.y - b.y) < 0.01;
                         }),
             path.end());
  Canvas c;
  c.polyline(inner(path, bare_end), {Ink::paper, width(look) + 2 * crossing_gap}, wire_bend);
  stroke(c, look, path);
  std::string kind = "conductor " + std::string(css(look.pattern)) + (look.output ? " out" : "");
  return c.group(std::move(id), std::move(kind), std::move(title), {{"wire", std::move(name)}});
}

TagSize tag_size(Pattern p, const std::string& text) {
  const double words = measure(text, size::caption, Weight::semibold).width;
  const bool round = p == Pattern::minus || p == Pattern::minus_grounded;
  return {words + (round ? 2.6 : 2.2), 4.6};
}

Group tag(Pattern p, Point centre, const std::string& text, bool upright,
          const std::string& wire_id) {
  const TagSize s = tag_size(p, text);
  const double w = upright ? s.along : s.across;
  const double h = upright ? s.across : s.along;
  const Box box{centre.x - w / 2, centre.y - h / 2, w, h};
  Canvas c;
  switch (p) {
    case Pattern::plus:
    case Pattern::plus_grounded:
      c.rect(box, {Ink::positive, 0.5}, Ink::paper, 0.3);
      break;
    case Pattern::minus:
    case Pattern::minus_grounded:
      c.rect(box, {Ink::ink, 0.35}, Ink::paper, s.across / 2);
      break;
    case Pattern::ground:
      c.rect(box, {Ink::ground, 0.45, {1.4, 0.5}}, Ink::paper, 0.3);
      break;
  }
  const double drop = half_capital(size::caption);
  const Point at = upright ? Point{centre.x, centre.y + drop} : Point{centre.x + drop, centre.y};
  c.text(at, text, {.weight = Weight::semibold, .align = Align::middle, .turn = upright ? 0 : -90},
         wire_id);
  return c.group({}, "tagbox " + std::string(css(p)) + "-tag", {}, {{"wire", wire_id}});
}

void sample(Canvas& c, Look look, Point at, double length) {
  stroke(c, look, {at, {at.x + length, at.y}});
}

std::vector<int> nest(const std::vector<Jog>& jogs) {
  const std::size_t n = jogs.size();
  std::vector<int> level(n, -1);
  const auto straight = [&](std::size_t i) { return std::abs(jogs[i].from - jogs[i].to) < 0.05; };
  const auto span = [&](std::size_t i) {
    return std::pair{std::min(jogs[i].from, jogs[i].to), std::max(jogs[i].from, jogs[i].to)};
  };
  // Rightward wires are placed from the right, leftward ones from the left: each lies below those of
  // its direction that it would otherwise cross, and beside those of the other direction.
  std::vector<std::size_t> order(n);
  std::iota(order.begin(), order.end(), 0);
  const auto rightward = [&](std::size_t i) { return jogs[i].to > jogs[i].from; };
  std::sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (rightward(a) != rightward(b)) return rightward(a);
    if (jogs[a].from == jogs[b].from) return a < b;
    return rightward(a) ? jogs[a].from > jogs[b].from : jogs[a].from < jogs[b].from;
  });
  constexpr double clear = 2.4;
  for (std::size_t k = 0; k < n; ++k) {
    const std::size_t i = order[k];
    if (straight(i)) continue;
    int lowest = 0;
    for (std::size_t m = 0; m < k; ++m) {
      const std::size_t j = order[m];
      if (level[j] < 0) continue;
      const auto [a, b] = span(i);
      const auto [c, d] = span(j);
      if (a < d + clear && c < b + clear) lowest = std::max(lowest, level[j] + 1);
    }
    level[i] = lowest;
  }
  return level;
}

}  // namespace stringwright::sheets::draw
