#include "sheets/draw/scene.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.hpp"
#include "sheets/draw/tokens.hpp"
#include "sheets/draw/type.hpp"

namespace stringwright::sheets::draw {
namespace {

double mm(int pango_units) { return pango_units * mm_per_point / PANGO_SCALE; }

void collect(const std::vector<Shape>& shapes, std::vector<const Text*>* texts,
             std::vector<const Group*>* groups) {
  for (const auto& s : shapes) {
    if (const auto* t = std::get_if<Text>(&s); t && texts) texts->push_back(t);
    if (const auto* g = std::get_if<Group>(&s)) {
      if (groups) groups->push_back(g);
      collect(g->shapes, texts, groups);
    }
  }
}

/// Byte offsets at which a text may be cut without tearing a character from its accents.
std::vector<std::size_t> cuts(std::string_view text) {
  const LayoutPtr layout = lay_out(text, 10, Weight::regular, false);
  int count = 0;
  const PangoLogAttr* attributes = pango_layout_get_log_attrs_readonly(layout.get(), &count);
  std::vector<std::size_t> at;
  std::size_t byte = 0;
  for (int i = 0; i < count; ++i) {
    if (attributes[i].is_cursor_position) at.push_back(byte);
    byte += text::code_point_bytes(text.substr(byte));
  }
  return at;
}

/// Invisible marks that change the direction or the joining of what follows.
bool turns_direction(std::string_view code_point) {
  // U+200B..U+200F, U+2028..U+202E, U+2060..U+206F, U+FEFF
  if (code_point.size() != 3) return false;
  const auto b = [&](std::size_t i) { return static_cast<unsigned char>(code_point[i]); };
  if (b(0) == 0xE2 && b(1) == 0x80)
    return (b(2) >= 0x8B && b(2) <= 0x8F) || (b(2) >= 0xA8 && b(2) <= 0xAE);
  if (b(0) == 0xE2 && b(1) == 0x81) return b(2) >= 0xA0 && b(2) <= 0xAF;
  return b(0) == 0xEF && b(1) == 0xBB && b(2) == 0xBF;
}

}  // namespace

Extent measure(std::string_view text, double points, Weight weight, bool mono) {
  if (text.empty()) return {};
  const LayoutPtr layout = lay_out(text, points, weight, mono);
  PangoRectangle ink, logical;
  pango_layout_line_get_extents(pango_layout_get_line_readonly(layout.get(), 0), &ink, &logical);
  return {mm(logical.width), mm(-ink.y), mm(ink.y + ink.height)};
}

Box bounds(const Text& t) {
  const Extent e = measure(t.text, t.points, t.weight, t.mono);
  const double back = t.align == Align::left ? 0 : t.align == Align::middle ? e.width / 2 : e.width;
  if (t.turn == 0) return {t.at.x - back, t.at.y - e.ascent, e.width, e.ascent + e.descent};
  // Corners of the unturned box, turned around the point on the baseline.
  const double radians = t.turn * std::numbers::pi / 180;
  const double c = std::cos(radians), s = std::sin(radians);
  double left = 1e9, right = -1e9, top = 1e9, bottom = -1e9;
  for (const double dx : {-back, e.width - back})
    for (const double dy : {-e.ascent, e.descent}) {
      const double x = t.at.x + c * dx - s * dy;
      const double y = t.at.y + s * dx + c * dy;
      left = std::min(left, x);
      right = std::max(right, x);
      top = std::min(top, y);
      bottom = std::max(bottom, y);
    }
  return {left, top, right - left, bottom - top};
}

std::vector<std::string> wrap(std::string_view text, double width, double points, Weight weight) {
  const LayoutPtr layout = lay_out(text, points, weight, false);
  pango_layout_set_width(layout.get(), static_cast<int>(width / mm_per_point * PANGO_SCALE));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  std::vector<std::string> result;
  for (GSList* l = pango_layout_get_lines_readonly(layout.get()); l; l = l->next) {
    const auto* line = static_cast<PangoLayoutLine*>(l->data);
    const auto piece = text.substr(static_cast<std::size_t>(line->start_index),
                                   static_cast<std::size_t>(line->length));
    result.emplace_back(text::trim(piece));
  }
  return result;
}

std::string fit(std::string_view text, double width, double points, Weight weight) {
  if (measure(text, points, weight).width <= width) return std::string(text);
  const std::vector<std::size_t> at = cuts(text);
  const auto shortened = [&](std::size_t cut) {
    return std::string(text::trim(text.substr(0, cut))) + "…";
  };
  // The widest beginning that fits; widths grow with the cut.
  std::size_t low = 0, high = at.size();
  while (low + 1 < high) {
    const std::size_t middle = (low + high) / 2;
    (measure(shortened(at[middle]), points, weight).width <= width ? low : high) = middle;
  }
  return shortened(at.empty() ? 0 : at[low]);
}

std::vector<std::string> fit_lines(std::string_view text, double width, std::size_t lines,
                                   double points, Weight weight) {
  std::vector<std::string> all = wrap(text, width, points, weight);
  if (all.size() <= lines) return all;
  std::string rest = all[lines - 1];
  for (std::size_t i = lines; i < all.size(); ++i) rest += " " + all[i];
  all.resize(lines);
  all.back() = fit(rest, width, points, weight);
  return all;
}

std::string plain(std::string_view text) {
  std::string spaced(text);
  for (char& c : spaced)
    if (c == '\n' || c == '\r' || c == '\t') c = ' ';
  const std::string clean = text::printable(spaced);
  std::string result;
  for (std::size_t i = 0; i < clean.size();) {
    const std::string_view rest = std::string_view(clean).substr(i);
    const std::size_t n = std::max<std::size_t>(1, text::code_point_bytes(rest));
    if (!turns_direction(rest.substr(0, n))) result.append(rest.substr(0, n));
    i += n;
  }
  return result;
}

std::vector<const Text*> texts(const Page& page) {
  std::vector<const Text*> all;
  collect(page.shapes, &all, nullptr);
  return all;
}

std::vector<const Group*> groups(const Page& page) {
  std::vector<const Group*> all;
  collect(page.shapes, nullptr, &all);
  return all;
}

std::vector<Step> outline(const Polyline& p) {
  std::vector<Step> steps;
  const auto& q = p.points;
  for (std::size_t i = 0; i < q.size(); ++i) {
    if (i == 0) {
      steps.push_back({Step::Kind::move, q[0], {}});
      continue;
    }
    if (p.radius <= 0 || i + 1 == q.size()) {
      steps.push_back({Step::Kind::line, q[i], {}});
      continue;
    }
    const double in = std::hypot(q[i].x - q[i - 1].x, q[i].y - q[i - 1].y);
    const double out = std::hypot(q[i + 1].x - q[i].x, q[i + 1].y - q[i].y);
    const double r = std::min({p.radius, in / 2, out / 2});
    if (r <= 0) continue;
    const Point before{q[i].x + (q[i - 1].x - q[i].x) * r / in,
                       q[i].y + (q[i - 1].y - q[i].y) * r / in};
    const Point after{q[i].x + (q[i + 1].x - q[i].x) * r / out,
                      q[i].y + (q[i + 1].y - q[i].y) * r / out};
    steps.push_back({Step::Kind::line, before, {}});
    steps.push_back({Step::Kind::bend, after, q[i]});
  }
  if (p.closed) steps.push_back({Step::Kind::close, {}, {}});
  return steps;
}

std::vector<std::pair<Point, Point>> lines(const Hatch& h) {
  std::vector<std::pair<Point, Point>> result;
  if (h.outline.size() < 3 || h.pitch <= 0) return result;
  const double radians = h.degrees * std::numbers::pi / 180;
  const double c = std::cos(radians), s = std::sin(radians);
  // In turned axes the lines are level: u along the line, v across.
  std::vector<Point> turned;
  double low = 1e9, high = -1e9;
  for (const Point& p : h.outline) {
    turned.push_back({c * p.x + s * p.y, -s * p.x + c * p.y});
    low = std::min(low, turned.back().y);
    high = std::max(high, turned.back().y);
  }
  // Counted from the origin of the sheet, so that neighbouring zones share their lines.
  const int first = static_cast<int>(std::floor(low / h.pitch));
  const int last = static_cast<int>(std::floor(high / h.pitch));
  for (int n = first; n <= last; ++n) {
    const double v = (n + 0.5) * h.pitch;
    std::vector<double> hits;
    for (std::size_t i = 0; i < turned.size(); ++i) {
      const Point& a = turned[i];
      const Point& b = turned[(i + 1) % turned.size()];
      if ((a.y <= v) == (b.y <= v)) continue;
      hits.push_back(a.x + (v - a.y) / (b.y - a.y) * (b.x - a.x));
    }
    std::sort(hits.begin(), hits.end());
    for (std::size_t i = 0; i + 1 < hits.size(); i += 2) {
      const auto back = [&](double u) { return Point{c * u - s * v, s * u + c * v}; };
      if (hits[i + 1] - hits[i] > 0.1) result.emplace_back(back(hits[i]), back(hits[i + 1]));
    }
  }
  return result;
}

}  // namespace stringwright::sheets::draw
