#include "sheets/report/flow.hpp"

#include "sheets/draw/frame.hpp"

namespace stringwright::sheets::report {
namespace {

using namespace draw;

constexpr double head_bottom = 36, first = 38.4;

Page empty_page() {
  Page p;
  p.width = 210;
  p.height = 297;
  return p;
}

double bottom() { return field(empty_page()).bottom - 2; }

}  // namespace

Flow::Flow(std::string title, std::string right_head, std::string right_caption)
    : title_(std::move(title)),
      right_head_(std::move(right_head)),
      right_caption_(std::move(right_caption)) {}

void Flow::page(std::string caption, std::string bookmark_) {
  close();
  open_ = true;
  caption_ = std::move(caption);
  bookmark = std::move(bookmark_);
  canvas_.text({left, 24}, title_, {.points = size::report, .weight = Weight::bold});
  const double edge = right - measure(right_head_, size::head, Weight::bold).width;
  canvas_.text({left, 31}, fit(caption_, 116, size::caption), {.ink = Ink::soft});
  canvas_.text({edge, 24}, right_head_, {.points = size::head, .weight = Weight::bold});
  canvas_.text({right, 31}, right_caption_, {.align = Align::right, .ink = Ink::soft});
  canvas_.line({12, head_bottom}, {198, head_bottom}, {Ink::ink, 0.5});
  y = first;
}

bool Flow::room(double height) {
  if (left_over() >= height - 1e-6) return false;
  page(caption_, bookmark);
  return true;
}

double Flow::left_over() const { return bottom() - y; }
double Flow::full() { return bottom() - first; }

void Flow::close() {
  if (!open_) return;
  Page p = empty_page();
  p.title = bookmark;
  p.shapes = canvas_.take();
  canvas_ = {};
  pages_.push_back(std::move(p));
  open_ = false;
}

std::vector<Page> Flow::take() {
  close();
  return std::move(pages_);
}

}  // namespace stringwright::sheets::report
