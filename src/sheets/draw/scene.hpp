#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

/// A sheet as a scene: shapes and text in millimetres on paper. Origin top left, y down. A scene knows
/// no engineering; writers turn it into bytes; tests read it (overlaps, counts).
///
/// Lengths here are plain numbers because there is one unit only: millimetres on paper. Text size is in
/// printer's points (1 pt = 0.3528 mm).
namespace stringwright::sheets::draw {

/// Colours by what they mean; draw/tokens.hpp maps them to values once for papers and page.
enum class Ink { none, ink, soft, copper, positive, ground, metal, paper, hair };

struct Point {
  double x = 0, y = 0;
  friend bool operator==(const Point&, const Point&) = default;
};

struct Box {
  double x = 0, y = 0, w = 0, h = 0;
  double right() const { return x + w; }
  double bottom() const { return y + h; }
  Point centre() const { return {x + w / 2, y + h / 2}; }
  bool overlaps(const Box& o, double slack = 0.05) const {
    return x < o.x + o.w - slack && o.x < x + w - slack && y < o.y + o.h - slack &&
           o.y < y + h - slack;
  }
};

struct Stroke {
  Ink ink = Ink::ink;
  double width = 0.25;  ///< mm; 0 = no line
  std::vector<double> dash = {};
  bool round = false;  ///< round caps and joins
};
inline Stroke no_stroke() { return {Ink::none, 0}; }

/// Closed or open path of straight segments; `radius` rounds every bend (wires bend at 2.2 mm).
struct Polyline {
  std::vector<Point> points;
  Stroke stroke;
  Ink fill = Ink::none;
  bool closed = false;
  double radius = 0;
};

struct Rect {
  Box box;
  Stroke stroke;
  Ink fill = Ink::none;
  double corner = 0;
};

struct Circle {
  Point centre;
  double radius = 1;
  Stroke stroke;
  Ink fill = Ink::none;
};

/// Parallel lines inside a polygon: live, floating or forbidden zones.
struct Hatch {
  std::vector<Point> outline;
  double pitch = 2.6;
  double degrees = 45;
  Stroke stroke;
};

enum class Align { left, middle, right };
enum class Weight { regular = 400, medium = 500, semibold = 600, bold = 700 };

struct Text {
  Point at;  ///< on the baseline
  std::string text;
  double points = 10;
  Weight weight = Weight::regular;
  Align align = Align::left;
  Ink ink = Ink::ink;
  bool mono = false;
  int turn = 0;  ///< degrees; −90 reads upwards
  std::string name =
      {};  ///< what it stands for, for counting: the wire of a tag, the id of a finding
};

struct Group;
using Shape = std::variant<Polyline, Rect, Circle, Hatch, Text, Group>;

/// Named part of a sheet. `id` is unique on the sheet ("S1p", "Q1", "title-strip"), `kind` says what it
/// is ("conductor pos", "device", "verdict"), `title` is what a screen reader says, `data` links it to
/// the graph ("wire" -> "S1+"). Each may be empty.
struct Group {
  std::string id, kind, title;
  std::vector<std::pair<std::string, std::string>> data;
  std::vector<Shape> shapes;
};

/// What the title strip says of the scale of a page; `bar` is the length of the scale bar on paper.
struct Scale {
  std::string text = "none";  ///< "1 : 2", "NOT TO SCALE"
  double bar = 0;
  std::string bar_label = {};  ///< "50 mm"
};

struct Page {
  double width = 420, height = 297;
  std::string title;  ///< bookmark and SVG title
  Scale scale;
  std::vector<Shape> shapes;
};

/// A paper: one or more pages of one document.
struct Paper {
  std::string name;   ///< file stem: "box-A1"
  std::string title;  ///< "Combiner box A1, inside"
  std::vector<Page> pages;
};

/// Width of a text as it will be set, by the same shaping that the writers use, and how far its ink
/// stands above and below the baseline.
struct Extent {
  double width = 0, ascent = 0, descent = 0;
};
Extent measure(std::string_view text, double points, Weight weight = Weight::regular,
               bool mono = false);

/// Box that the ink of a text covers, turned as it is.
Box bounds(const Text& t);

/// `text` broken into lines no wider than `width` mm; a word that is too long is broken.
std::vector<std::string> wrap(std::string_view text, double width, double points,
                              Weight weight = Weight::regular);

/// `text`, or as much of its beginning as fits into `width` mm, with "…".
std::string fit(std::string_view text, double width, double points,
                Weight weight = Weight::regular);

/// The same over at most `lines` lines; only the last may end in "…".
std::vector<std::string> fit_lines(std::string_view text, double width, std::size_t lines,
                                   double points, Weight weight = Weight::regular);

/// Text of a stranger as it may stand on a sheet: no control characters, no line breaks, none of the
/// invisible marks that turn the direction of what follows.
std::string plain(std::string_view text);

/// Every text of a page, flat, in the order of drawing; for tests and counts.
std::vector<const Text*> texts(const Page& page);
/// Every group of a page, outer before inner.
std::vector<const Group*> groups(const Page& page);

/// One piece of an outline with its bends rounded.
struct Step {
  enum class Kind { move, line, bend, close } kind = Kind::move;
  Point to, control;  ///< a bend is a quadratic curve
};
std::vector<Step> outline(const Polyline& p);

/// The lines of a hatch, clipped to its outline.
std::vector<std::pair<Point, Point>> lines(const Hatch& h);

}  // namespace stringwright::sheets::draw
