#include "sheets/write/paint.hpp"

#include <pango/pangocairo.h>

#include <algorithm>
#include <charconv>
#include <numbers>
#include <string_view>

#include "base/text.hpp"
#include "sheets/draw/tokens.hpp"
#include "sheets/draw/type.hpp"

namespace stringwright::sheets::write {
namespace {

using namespace draw;

void choose(cairo_t* cr, Ink ink) {
  const std::string_view digits = hex(ink).substr(1);
  const auto channel = [&](std::size_t i) {
    int value = 0;
    std::from_chars(digits.data() + 2 * i, digits.data() + 2 * i + 2, value, 16);
    return value / 255.0;
  };
  cairo_set_source_rgb(cr, channel(0), channel(1), channel(2));
}

bool visible(const Stroke& s) { return s.ink != Ink::none && s.width > 0; }

void pen(cairo_t* cr, const Stroke& s) {
  choose(cr, s.ink);
  cairo_set_line_width(cr, s.width);
  cairo_set_dash(cr, s.dash.data(), static_cast<int>(s.dash.size()), 0);
  cairo_set_line_cap(cr, s.round ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
  cairo_set_line_join(cr, s.round ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
}

/// Fills and strokes the current path.
void finish(cairo_t* cr, const Stroke& s, Ink fill) {
  if (fill != Ink::none) {
    choose(cr, fill);
    cairo_fill_preserve(cr);
  }
  if (visible(s)) {
    pen(cr, s);
    cairo_stroke_preserve(cr);
  }
  cairo_new_path(cr);
}

void put(cairo_t* cr, const Polyline& p) {
  Point now;
  for (const Step& s : outline(p)) {
    switch (s.kind) {
      case Step::Kind::move:
        cairo_move_to(cr, s.to.x, s.to.y);
        break;
      case Step::Kind::line:
        cairo_line_to(cr, s.to.x, s.to.y);
        break;
      case Step::Kind::bend: {
        const auto towards = [&](const Point& from) {
          return Point{from.x + 2.0 / 3 * (s.control.x - from.x),
                       from.y + 2.0 / 3 * (s.control.y - from.y)};
        };
        const Point a = towards(now), b = towards(s.to);
        cairo_curve_to(cr, a.x, a.y, b.x, b.y, s.to.x, s.to.y);
        break;
      }
      case Step::Kind::close:
        cairo_close_path(cr);
        break;
    }
    now = s.to;
  }
  finish(cr, p.stroke, p.fill);
}

void put(cairo_t* cr, const Rect& r) {
  const Box& b = r.box;
  const double c = std::min({r.corner, b.w / 2, b.h / 2});
  if (c <= 0) {
    cairo_rectangle(cr, b.x, b.y, b.w, b.h);
  } else {
    constexpr double quarter = std::numbers::pi / 2;
    cairo_new_sub_path(cr);
    cairo_arc(cr, b.right() - c, b.y + c, c, -quarter, 0);
    cairo_arc(cr, b.right() - c, b.bottom() - c, c, 0, quarter);
    cairo_arc(cr, b.x + c, b.bottom() - c, c, quarter, 2 * quarter);
    cairo_arc(cr, b.x + c, b.y + c, c, 2 * quarter, 3 * quarter);
    cairo_close_path(cr);
  }
  finish(cr, r.stroke, r.fill);
}

void put(cairo_t* cr, const Circle& c) {
  cairo_new_sub_path(cr);
  cairo_arc(cr, c.centre.x, c.centre.y, c.radius, 0, 2 * std::numbers::pi);
  finish(cr, c.stroke, c.fill);
}

void put(cairo_t* cr, const Hatch& h) {
  for (const auto& [a, b] : lines(h)) {
    cairo_move_to(cr, a.x, a.y);
    cairo_line_to(cr, b.x, b.y);
  }
  finish(cr, h.stroke, Ink::none);
}

void put(cairo_t* cr, const Text& t) {
  if (t.text.empty()) return;
  const LayoutPtr layout = lay_out(text::printable(t.text), t.points, t.weight, t.mono);
  PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), 0);
  PangoRectangle logical;
  pango_layout_line_get_extents(line, nullptr, &logical);
  const double width = static_cast<double>(logical.width) / PANGO_SCALE;
  cairo_save(cr);
  cairo_translate(cr, t.at.x, t.at.y);
  if (t.turn != 0) cairo_rotate(cr, t.turn * std::numbers::pi / 180);
  cairo_scale(cr, mm_per_point, mm_per_point);
  const double back = t.align == Align::left ? 0 : t.align == Align::middle ? width / 2 : width;
  cairo_move_to(cr, -back, 0);
  choose(cr, t.ink);
  pango_cairo_show_layout_line(cr, line);
  cairo_restore(cr);
  cairo_new_path(cr);
}

void put(cairo_t* cr, const Group& g) {
  for (const auto& s : g.shapes) std::visit([&](const auto& shape) { put(cr, shape); }, s);
}

}  // namespace

void paint(cairo_t* cr, const Page& page) {
  choose(cr, Ink::paper);
  cairo_paint(cr);
  for (const auto& s : page.shapes) std::visit([&](const auto& shape) { put(cr, shape); }, s);
}

}  // namespace stringwright::sheets::write
