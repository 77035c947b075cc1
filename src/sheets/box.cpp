#include <algorithm>

#include "base/text.hpp"
#include "sheets/box/advice.hpp"
#include "sheets/box/column.hpp"
#include "sheets/box/drawing.hpp"
#include "sheets/box/layout.hpp"
#include "sheets/draw/frame.hpp"
#include "sheets/sheet.hpp"
#include "sheets/words.hpp"

/// The inside of each combiner box, hole by hole: what lands where, how tight, and what stays live.
namespace stringwright::sheets {
namespace {

using namespace draw;
using namespace box;

constexpr double line_pitch = 4.7;

double advice_height(const Advice& a, double width) {
  double h = 6;
  for (const auto& s : a.lines)
    h += line_pitch * static_cast<double>(wrap(s, width - 5, size::caption).size()) + 0.5;
  return h;
}

/// Sentences with a copper dot, or numbered where their order matters. Returns where they end.
double draw_advice(Canvas& c, const Advice& a, double left, double right, double top,
                   bool numbered) {
  c.text({left, top + 3.4}, a.head, {.points = size::body, .weight = Weight::bold});
  double y = top + 8.6;
  for (std::size_t i = 0; i < a.lines.size(); ++i) {
    if (numbered)
      c.text({left, y}, std::to_string(i + 1), {.weight = Weight::bold, .ink = Ink::copper});
    else
      c.circle({left + 1.2, y - 1.3}, 0.7, no_stroke(), Ink::copper);
    y = c.lines({left + 4.6, y}, wrap(a.lines[i], right - left - 5, size::caption), line_pitch) +
        0.5;
  }
  return y - line_pitch + 1.4;
}

Scale scale_of(const Layout& l) {
  if (!l.to_scale) return {"NOT TO SCALE", 0, ""};
  if (l.scale > 0.99) return {"1 : 1", 20, "20 mm"};
  return l.scale > 0.4 ? Scale{"1 : 2", 20, "40 mm"} : Scale{"1 : 3", 20, "60 mm"};
}

std::string title_of(const View& v) {
  const int n = v.strings(), f = static_cast<int>(v.circuit().feeders.size());
  std::string s = "Combiner box " + v.circuit().id + ", inside";
  if (n > 0) s += ", " + std::to_string(n) + (n == 1 ? " string" : " strings");
  if (f > 0) s += ", " + std::to_string(f) + (f == 1 ? " box" : " boxes");
  return s;
}

constexpr double column_margin = 4, column_top = 2;

/// The rows of a column: each hole its own, shared where it must be, none where there is no room.
std::vector<Section> rows_for(const View& v, double width, double room) {
  const double inner = width - 2 * column_margin;
  double below = 3;
  for (const auto& a : advice(v)) below += advice_height(a, inner) + 2;
  for (const bool shared : {false, true}) {
    auto rows = table(v, shared);
    if (height(rows, inner) + below <= room) return rows;
  }
  return {};
}

double column_room() {
  const Field f = field(Page{});
  return f.bottom - f.top - column_top - 1;
}

bool column_fits(const View& v, double width) { return !rows_for(v, width, column_room()).empty(); }

/// Table and advice in one column.
void column(Canvas& c, const View& v, double left, double right, double top) {
  const auto words = advice(v);
  const auto rows = rows_for(v, right - left + 2 * column_margin, column_room());
  double y = draw_table(c, rows, left, right, top) + 4;
  for (std::size_t i = 0; i < words.size(); ++i)
    y = draw_advice(c, words[i], left, right, y, i == 0) + 2;
}

/// The hole table on sheets of its own, in three columns.
std::vector<Page> table_pages(const View& v, const std::string& title) {
  const Field f = field(Page{});
  constexpr double width = 122, gap = 8.5;
  const double top = f.top + 3, bottom = f.bottom - 3;
  std::vector<Page> pages;
  Canvas c;
  double x = f.left + 6;
  const auto next_page = [&] {
    Page page;
    page.title = title;
    page.shapes = c.take();
    c = {};
    pages.push_back(std::move(page));
    x = f.left + 6;
  };
  std::vector<Section> column;
  const auto next_column = [&] {
    if (x + width > f.right) next_page();
    draw_table(c, column, x, x + width, top);
    column.clear();
    x += width + gap;
  };
  for (const auto& s : table(v, false)) {
    column.push_back({s.letter, s.title, {}});
    for (const auto& r : s.rows) {
      column.back().rows.push_back(r);
      if (top + height(column, width) <= bottom) continue;
      // One row too many: it begins the next column, under its head again.
      column.back().rows.pop_back();
      if (column.back().rows.empty()) column.pop_back();
      next_column();
      column.push_back({s.letter, s.title, {r}});
    }
  }
  if (!column.empty()) next_column();
  next_page();
  return pages;
}

Paper paper_of(const View& v) {
  Paper paper;
  paper.name = "box-" + v.circuit().id;
  paper.title = "Combiner box " + v.circuit().id + ", inside";
  const auto layout = lay_out(v, [&](double width) { return column_fits(v, width); });
  if (!layout) {
    paper.pages = table_pages(v, title_of(v) + ": holes, too many to draw on one sheet");
    return paper;
  }
  Page page;
  page.title = title_of(v);
  page.scale = scale_of(*layout);
  const Field f = field(page);
  Canvas c;
  draw_inside(c, v, *layout);
  if (!layout->whole_sheet) {
    draw_key(c, v, *layout, f.left + 6, layout->column - 5, f.bottom - 13.4);
    c.line({layout->column, f.top}, {layout->column, f.bottom}, {Ink::ink, draw::weight::rule});
    column(c, v, layout->column + column_margin, f.right - column_margin, f.top + column_top);
    page.shapes = c.take();
    paper.pages.push_back(std::move(page));
    return paper;
  }
  draw_key(c, v, *layout, f.left + 6, f.right - 6, f.bottom - 8.4);
  const double top = f.bottom - 8.4 - 41;
  c.line({f.left, top}, {f.right, top}, {Ink::ink, draw::weight::rule});
  const auto words = advice(v);
  const double middle = f.left + 200;
  for (std::size_t i = 0; i < words.size(); ++i)
    draw_advice(c, words[i], i == 0 ? f.left + 6 : middle + 4, i == 0 ? middle - 4 : f.right - 6,
                top + 2.4, i == 0);
  page.shapes = c.take();
  paper.pages.push_back(std::move(page));
  for (auto& holes : table_pages(v, title_of(v) + ": holes"))
    paper.pages.push_back(std::move(holes));
  return paper;
}

std::vector<Paper> make(const Material& m) {
  std::vector<Paper> all;
  all.reserve(m.wiring.boxes.size());
  for (std::size_t i = 0; i < m.wiring.boxes.size(); ++i)
    if (!m.wiring.boxes[i].branch)  // connectors have no inside
      all.push_back(paper_of(view(m.wiring, static_cast<int>(i))));
  return all;
}

}  // namespace

extern const Sheet box_sheet{"box", "Combiner box, inside", make};

}  // namespace stringwright::sheets
