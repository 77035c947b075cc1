#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sheets/draw/scene.hpp"
#include "sheets/draw/tokens.hpp"

namespace stringwright::sheets::draw {

/// How a text is set; say only what differs from plain caption type.
struct Type {
  double points = size::caption;
  Weight weight = Weight::regular;
  Align align = Align::left;
  Ink ink = Ink::ink;
  int turn = 0;
  bool mono = false;
};

/// Half the height of a capital: text set this far below a centre line stands in the middle of it.
inline constexpr double half_capital(double points) { return 0.3636 * points * mm_per_point; }

/// Collects shapes in the order of drawing.
class Canvas {
 public:
  void add(Shape s) { shapes_.push_back(std::move(s)); }
  void line(Point a, Point b, Stroke s = {}) { add(Polyline{{a, b}, std::move(s)}); }
  void polyline(std::vector<Point> points, Stroke s, double radius = 0) {
    add(Polyline{std::move(points), std::move(s), Ink::none, false, radius});
  }
  void polygon(std::vector<Point> points, Stroke s, Ink fill = Ink::none) {
    add(Polyline{std::move(points), std::move(s), fill, true, 0});
  }
  void rect(Box b, Stroke s, Ink fill = Ink::none, double corner = 0) {
    add(Rect{b, std::move(s), fill, corner});
  }
  void circle(Point centre, double radius, Stroke s, Ink fill = Ink::none) {
    add(Circle{centre, radius, std::move(s), fill});
  }
  void text(Point at, std::string words, const Type& type = {}, std::string name = {});

  /// Text with the paper's ground behind it, so that it may stand on hatch or on a line.
  void text_on_paper(Point at, std::string words, const Type& type = {}, double margin = 0.7);

  /// Lines of text below each other, the first on `at`. Returns the baseline after the last.
  double lines(Point at, const std::vector<std::string>& words, double pitch,
               const Type& type = {});

  std::vector<Shape>& shapes() { return shapes_; }
  std::vector<Shape> take() { return std::move(shapes_); }
  Group group(std::string id, std::string kind = {}, std::string title = {},
              std::vector<std::pair<std::string, std::string>> data = {}) {
    return {std::move(id), std::move(kind), std::move(title), std::move(data), take()};
  }

 private:
  std::vector<Shape> shapes_;
};

}  // namespace stringwright::sheets::draw
