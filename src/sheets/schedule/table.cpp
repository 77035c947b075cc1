#include "sheets/schedule/table.hpp"

#include <algorithm>

#include "sheets/draw/frame.hpp"

namespace stringwright::sheets::schedule {
namespace {

using namespace draw;

constexpr double pitch = 4.8, after = 1.6, inset = 6, gap = 3, right_gap = 6;

double left_edge() { return field(Page{}).left + inset; }
double right_edge() { return field(Page{}).right - inset; }

double room_in(const Column& c) { return c.width - (c.align == Align::right ? right_gap : gap); }

}  // namespace

Tables::Tables(std::string title) : title_(std::move(title)) { next_page(); }

void Tables::next_page() {
  if (open_) {
    Page p;
    p.shapes = canvas_.take();
    canvas_ = {};
    pages_.push_back(std::move(p));
  }
  open_ = true;
  empty_ = true;
  y_ = field(Page{}).top + 4;
}

void Tables::room(double height) {
  if (y_ + height <= field(Page{}).bottom - 3) return;
  next_page();
  heads(true);
}

void Tables::heads(bool again) {
  if (head_.empty()) return;
  const double left = left_edge();
  canvas_.text({left, y_ + 5}, head_ + (again ? ", continued" : ""),
               {.points = size::head, .weight = Weight::bold});
  double x = left;
  for (const auto& c : columns_) {
    const bool right = c.align == Align::right;
    canvas_.text({right ? x + room_in(c) : x, y_ + 11.4}, c.head,
                 {.align = c.align, .ink = Ink::soft});
    x += c.width;
  }
  canvas_.line({left, y_ + 13.2}, {right_edge(), y_ + 13.2}, {Ink::ink, weight::rule});
  y_ += 13.8;
  empty_ = false;
}

void Tables::begin(std::string head, std::vector<Column> columns) {
  head_ = std::move(head);
  columns_ = std::move(columns);
  // Every table is as wide as the sheet.
  double sum = 0;
  for (const auto& c : columns_) sum += c.width;
  for (auto& c : columns_) c.width *= (right_edge() - left_edge()) / sum;
  if (!empty_) y_ += 6;
  // Not without a row or two below it.
  if (y_ + 30 > field(Page{}).bottom) next_page();
  heads(false);
}

void Tables::group(const std::string& words) {
  room(13);
  const double left = left_edge();
  canvas_.text({left, y_ + 5.2}, words, {.points = size::body, .weight = Weight::bold});
  y_ += 7;
}

void Tables::row(const std::vector<Cell>& cells, double indent,
                 void (*before)(Canvas&, Point, const void*), const void* what) {
  std::vector<std::vector<std::string>> lines;
  std::size_t most = 1;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const double width = room_in(columns_[i]) - (i == 0 ? indent : 0);
    lines.push_back(cells[i].words.empty()
                        ? std::vector<std::string>{}
                        : wrap(cells[i].words, width, size::caption, cells[i].weight));
    most = std::max(most, lines.back().size());
  }
  const double height = pitch * static_cast<double>(most) + after;
  room(height);
  const double left = left_edge();
  double x = left;
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const bool right = columns_[i].align == Align::right;
    const double start = right ? x + room_in(columns_[i]) : x + (i == 0 ? indent : 0);
    double y = y_ + 4.4;
    for (const auto& line : lines[i]) {
      canvas_.text({start, y}, line,
                   {.weight = cells[i].weight,
                    .align = columns_[i].align,
                    .ink = cells[i].soft ? Ink::soft : Ink::ink},
                   cells[i].name);
      y += pitch;
    }
    x += columns_[i].width;
  }
  if (before) before(canvas_, {left, y_ + 4.4 - half_capital(size::caption)}, what);
  y_ += height;
  canvas_.line({left, y_}, {right_edge(), y_}, {Ink::hair, weight::leader});
}

void Tables::sentence(const std::string& words) {
  for (const auto& line : wrap(words, 380, size::caption)) {
    room(pitch);
    canvas_.text({left_edge(), y_ + 4.6}, line, {.ink = Ink::soft});
    y_ += pitch;
  }
}

std::vector<Page> Tables::take() {
  next_page();
  for (std::size_t i = 0; i < pages_.size(); ++i)
    pages_[i].title = title_ + (pages_.size() > 1 ? ", " + std::to_string(i + 1) + " of " +
                                                        std::to_string(pages_.size())
                                                  : "");
  return std::move(pages_);
}

}  // namespace stringwright::sheets::schedule
