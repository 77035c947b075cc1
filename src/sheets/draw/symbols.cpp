#include "sheets/draw/symbols.hpp"

#include <algorithm>
#include <cmath>

namespace stringwright::sheets::draw {

void screw(Canvas& c, Point at, double radius, bool used) {
  c.circle(at, radius, used ? no_stroke() : Stroke{Ink::ink, weight::part},
           used ? Ink::ink : Ink::paper);
  const double dx = radius * 0.574, dy = radius * 0.482;
  c.line({at.x - dx, at.y - dy}, {at.x + dx, at.y + dy},
         {used ? Ink::paper : Ink::ink, radius < 1.5 ? 0.15 : weight::fine});
}

double letter(Canvas& c, Point at, const std::string& text) {
  const double words = measure(text, size::caption, Weight::bold).width;
  const double w = std::max(4.8, words + 2);
  c.rect({at.x, at.y - 2.6, w, 5.2}, no_stroke(), Ink::ink, 0.6);
  c.text({at.x + w / 2, at.y + half_capital(size::caption)}, text,
         {.weight = Weight::bold, .align = Align::middle, .ink = Ink::paper});
  return w;
}

void tick_box(Canvas& c, Point p) {
  c.rect({p.x - 1.8, p.y - 1.8, 3.6, 3.6}, {Ink::ink, weight::part}, Ink::paper);
}

double occupancy(Canvas& c, Point at, int wires, int may_hold) {
  double x = at.x + 1;
  for (int i = 0; i < std::max(wires, may_hold); ++i, x += 3)
    c.circle({x, at.y}, 1, i < wires ? no_stroke() : Stroke{Ink::ink, weight::part},
             i < wires ? Ink::ink : Ink::paper);
  if (may_hold <= 0) {
    c.text({x - 0.2, at.y + half_capital(size::caption)}, "?", {});
    x += 3;
  }
  return x - at.x - 2;
}

void live_sign(Canvas& c, Point top, double h) {
  const double half = h * 0.57;
  c.polygon({top, {top.x + half, top.y + h}, {top.x - half, top.y + h}},
            {Ink::copper, 0.1 * h, {}, true}, Ink::paper);
  const auto p = [&](double x, double y) { return Point{top.x + x * h, top.y + y * h}; };
  c.polygon({p(0.03, 0.3), p(-0.13, 0.64), p(0.02, 0.64), p(-0.08, 0.9), p(0.18, 0.54),
             p(0.02, 0.54), p(0.13, 0.3)},
            no_stroke(), Ink::ink);
}

void mark(Canvas& c, Point p, double r, Mark m) {
  const auto at = [&](double x, double y) { return Point{p.x + x * r, p.y + y * r}; };
  const double pen = std::max(0.4, 0.17 * r);
  switch (m) {
    case Mark::pass:
      c.polyline({at(-0.78, 0.05), at(-0.22, 0.62), at(0.82, -0.66)},
                 {Ink::ink, pen * 1.3, {}, true});
      break;
    case Mark::fail:
      c.rect({p.x - r, p.y - r, 2 * r, 2 * r}, no_stroke(), Ink::ink);
      c.line(at(-0.45, -0.45), at(0.45, 0.45), {Ink::paper, pen * 1.4});
      c.line(at(-0.45, 0.45), at(0.45, -0.45), {Ink::paper, pen * 1.4});
      break;
    case Mark::caution:
      c.polygon({at(0, -0.95), at(1.08, 0.88), at(-1.08, 0.88)}, {Ink::ink, pen, {}, true},
                Ink::paper);
      c.line(at(0, -0.3), at(0, 0.28), {Ink::ink, pen * 1.1, {}, true});
      c.circle(at(0, 0.6), pen * 0.62, no_stroke(), Ink::ink);
      break;
    case Mark::cannot_tell: {
      // Eleven dashes to the ring, so that it reads as broken at any size.
      const double dash = 2 * 3.14159265358979 * r / 11;
      c.circle(p, r, {Ink::ink, pen, {dash * 0.6, dash * 0.4}}, Ink::paper);
      const double s = r * 0.9;
      const auto q = [&](double x, double y) { return Point{p.x + x * s, p.y + y * s}; };
      c.polyline({q(-0.34, -0.3), q(-0.24, -0.56), q(0.02, -0.66), q(0.3, -0.5), q(0.32, -0.24),
                  q(0.06, 0.02), q(0, 0.2)},
                 {Ink::ink, pen, {}, true}, 0.3 * s);
      c.circle(q(0, 0.56), pen * 0.6, no_stroke(), Ink::ink);
      break;
    }
    case Mark::on_site:
      c.rect({p.x - 0.8 * r, p.y - 0.8 * r, 1.6 * r, 1.6 * r}, {Ink::ink, pen}, Ink::paper);
      break;
    case Mark::not_applicable:
      c.line(at(-0.6, 0), at(0.6, 0), {Ink::soft, pen, {}, true});
      break;
    case Mark::waived:
      c.rect({p.x - 0.88 * r, p.y - 0.88 * r, 1.76 * r, 1.76 * r}, {Ink::ink, pen}, Ink::paper);
      c.line(at(-1.15, 0.62), at(1.15, -0.62), {Ink::ink, pen * 1.2});
      break;
  }
}

std::string_view word(Mark m) {
  switch (m) {
    case Mark::pass:
      return "PASS";
    case Mark::caution:
      return "CAUTION";
    case Mark::fail:
      return "FAIL";
    case Mark::cannot_tell:
      return "CANNOT TELL";
    case Mark::on_site:
      return "CHECK ON SITE";
    case Mark::not_applicable:
      return "NOT APPLICABLE";
    case Mark::waived:
      return "FAIL";
  }
  return "";
}

double verdict_word(Canvas& c, Point right, double points, Mark m) {
  const Type type{.points = points, .weight = Weight::bold, .align = Align::right};
  double x = right.x;
  if (m == Mark::waived) {
    c.text({x, right.y}, "WAIVED", type);
    x -= measure("WAIVED", points, Weight::bold).width + 2;
  }
  const std::string w(word(m));
  const double width = measure(w, points, Weight::bold).width;
  c.text({x, right.y}, w, type);
  if (m == Mark::waived) {
    const double middle = right.y - half_capital(points);
    c.line({x - width - 0.8, middle}, {x + 0.8, middle}, {Ink::ink, 0.06 * points});
  }
  return x - width;
}

double verdict(Canvas& c, Point right, double points, double radius, Mark m) {
  const double x = verdict_word(c, right, points, m) - 2.2 - radius;
  mark(c, {x, right.y - half_capital(points)}, radius, m);
  return x - radius;
}

void dimension(Canvas& c, Point a, Point b, const std::string& words) {
  const Stroke thin{Ink::soft, weight::leader};
  const Stroke cut{Ink::ink, weight::fine};
  const bool level = std::abs(a.y - b.y) < std::abs(a.x - b.x);
  c.line(a, b, thin);
  for (const Point& p : {a, b}) {
    if (level)
      c.line({p.x, p.y - 2}, {p.x, p.y + 2}, thin);
    else
      c.line({p.x - 2, p.y}, {p.x + 2, p.y}, thin);
    c.line({p.x - 1, p.y + 1}, {p.x + 1, p.y - 1}, cut);
  }
  const Point m{(a.x + b.x) / 2, (a.y + b.y) / 2};
  const double drop = half_capital(size::caption);
  const Type type{.align = Align::middle, .turn = level ? 0 : -90};
  c.text_on_paper(level ? Point{m.x, m.y + drop} : Point{m.x + drop, m.y}, words, type, 1.4);
}

void our_mark(Canvas& c, Point p, double s) {
  const auto at = [&](double x, double y) { return Point{p.x + s * x, p.y + s * y}; };
  for (const double x : {1.96, 5.56, 9.16}) c.line(at(x, 0), at(x, 5.76), {Ink::copper, 1.0 * s});
  c.line(at(0, 6.24), at(11.12, 6.24), {Ink::ink, 1.6 * s, {}, true});
  c.line(at(5.56, 6.24), at(5.56, 10), {Ink::ink, 1.2 * s, {}, true});
}

void relief(Canvas& c, double wall, double left, double right, const std::vector<double>& plugged) {
  const Stroke edge{Ink::ink, weight::part};
  c.rect({left + 2, wall - 3, right - left - 4, 3}, edge, Ink::metal);
  c.rect({left + 2.5, wall + 5.5, right - left - 5, 4}, edge, Ink::metal, 1.5);
  c.rect({left, wall, right - left, 5.5}, edge, Ink::metal, 0.8);
  const double width = right - left;
  for (const double share : {0.25, 0.5, 0.75})
    c.line({left + width * share, wall}, {left + width * share, wall + 5.5},
           {Ink::ink, weight::fine});
  for (const double x : plugged)
    c.rect({x - 1.8, wall + 8.4, 3.6, 3.4}, no_stroke(), Ink::ink, 0.5);
}

void hub(Canvas& c, double wall, double left, double right, double raceway) {
  const Stroke edge{Ink::ink, weight::part};
  c.rect({left + 1.5, wall - 3.6, right - left - 3, 3.6}, edge, Ink::metal);
  c.rect({left + 2.5, wall + 5, right - left - 5, raceway}, edge, Ink::paper);
  c.rect({left, wall, right - left, 5}, edge, Ink::metal, 0.8);
}

void enclosure(Canvas& c, Box b) {
  c.rect(b, {Ink::ink, weight::enclosure}, Ink::none, 4);
  c.rect({b.x + 2.2, b.y + 2.2, b.w - 4.4, b.h - 4.4}, {Ink::soft, weight::leader}, Ink::none, 3);
  for (const double x : {b.x + 6, b.right() - 6})
    for (const double y : {b.y + 6, b.bottom() - 6}) {
      c.circle({x, y}, 1.6, {Ink::ink, weight::part}, Ink::paper);
      c.line({x - 1, y}, {x + 1, y}, {Ink::ink, weight::fine});
      c.line({x, y - 1}, {x, y + 1}, {Ink::ink, weight::fine});
    }
}

void arrester(Canvas& c, Point p, double h) {
  const Stroke pen{Ink::ink, weight::symbol, {}, true};
  const double apart = 0.26 * h, top = p.y - 0.5 * h, join = p.y + 0.22 * h;
  for (const double sign : {-1.0, 1.0}) {
    const double x = p.x + sign * apart;
    // Small, the letters of the terminals say it.
    if (h > 15)
      c.text({x, top + 1.2}, sign < 0 ? "−" : "+",
             {.weight = Weight::semibold, .align = Align::middle});
    c.line({x, top + 2.2}, {x, top + 0.27 * h}, pen);
    c.rect({x - 0.1 * h, top + 0.2 * h, 0.2 * h, 0.42 * h}, {Ink::ink, weight::symbol}, Ink::paper);
    c.line({x, top + 2.2}, {x, top + 0.38 * h}, pen);
    c.polygon(
        {{x - 0.055 * h, top + 0.34 * h}, {x + 0.055 * h, top + 0.34 * h}, {x, top + 0.46 * h}},
        {Ink::ink, 0.3, {}, true}, Ink::ink);
    c.line({x, top + 0.62 * h}, {x, join}, pen);
  }
  c.line({p.x - apart, join}, {p.x + apart, join}, pen);
  c.line({p.x, join}, {p.x, p.y + 0.34 * h}, pen);
  for (int i = 0; i < 3; ++i) {
    const double y = p.y + (0.34 + 0.07 * i) * h, half = (0.17 - 0.055 * i) * h;
    c.line({p.x - half, y}, {p.x + half, y}, pen);
  }
}

void empty_fuse_holder(Canvas& c, Point p, double h) {
  const Stroke pen{Ink::ink, weight::symbol, {}, true};
  const double clip = h * 0.3;
  for (const double sign : {-1.0, 1.0}) {
    c.line({p.x, p.y + sign * h / 2}, {p.x, p.y + sign * clip}, pen);
    c.line({p.x - h * 0.14, p.y + sign * clip}, {p.x + h * 0.14, p.y + sign * clip}, pen);
  }
  c.rect({p.x - h * 0.11, p.y - h * 0.24, h * 0.22, h * 0.48}, {Ink::ink, weight::part, {1.2, 0.9}},
         Ink::paper);
}

}  // namespace stringwright::sheets::draw
