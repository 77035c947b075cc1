#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sheets/box/view.hpp"
#include "sheets/draw/scene.hpp"
#include "sheets/draw/wires.hpp"

/// Places of everything in a box, in millimetres on paper. Source below, load above, way out at the
/// right; positives, negatives, ground, conduit from left to right; every entry from below.
namespace stringwright::sheets::box {

/// A terminal as drawn.
struct Spot {
  draw::Point at;
  double radius = 1.7;
  std::string number;  ///< hole number as drawn beside it
  bool wire_below = false, wire_above = false;
};

struct Face {
  int place = -1;  ///< index into View::places
  draw::Box box;
  std::vector<double> poles;  ///< centre line of each pole
};

struct Finger {
  double x = 0;
  bool used = false;
};

struct Metal {
  draw::Box box;
  draw::Point letter;  ///< left middle of its letter
  std::vector<Finger> fingers;
  double finger_end = 0, finger_width = 6;
};

struct Entry {
  enum class Kind { relief, ground, feeder, out } kind = Kind::relief;
  double left = 0, right = 0;
  std::vector<double> plugged;
  std::string caption;
  bool caption_below_group = true;
};

/// A caption under one entry or several.
struct Caption {
  double centre = 0, room = 0;
  std::string words;
};

struct Tag {
  draw::Point centre;
  bool upright = true;
};

struct Path {
  int conductor = -1;
  std::vector<draw::Point> points;
  std::vector<Tag> tags;
  bool front = false;  ///< drawn over the others where they cross
};

/// Metal that may be dangerous, and in which way.
struct Zone {
  enum class Kind { live, floating, closed } kind = Kind::live;
  std::vector<draw::Point> outline;
  std::optional<draw::Point> label;  ///< foot of the words, which read upwards
  std::string words;
};

struct Layout {
  double scale = 1;          ///< millimetres on paper for one of the box
  bool to_scale = true;      ///< outline and devices; where things sit inside is ours
  bool whole_sheet = false;  ///< the table has gone to the next sheet
  draw::Box wall;
  double column =
      0;            ///< left edge of the column beside the drawing; right edge of the frame if none
  double foot = 0;  ///< bottom of the drawing, captions included
  bool small = false;  ///< devices are too narrow for words across
  std::vector<Face> faces;
  std::vector<Metal> buses, bars;  ///< in the order of View
  std::optional<draw::Box> arrester;
  draw::Box rail;
  double load_row = 0, line_row = 0;     ///< of the screws
  double face_top = 0, face_bottom = 0;  ///< between the terminal rows of a device
  draw::Point load_letter, line_letter;
  std::map<int, Spot> spots;
  std::vector<Entry> entries;
  std::vector<Caption> captions;
  std::vector<Path> paths;
  std::vector<Zone> zones;
};

/// Finds the largest of our scales (1:1, 1:2, 1:3) that holds the box and everything in it on an A3
/// sheet beside the table, then on a sheet of its own; else the box is drawn not to scale. Empty where
/// no sheet is large enough.
/// @param column_fits  whether table and advice fit into a column of this width
std::optional<Layout> lay_out(const View& v, const std::function<bool(double)>& column_fits);

}  // namespace stringwright::sheets::box
