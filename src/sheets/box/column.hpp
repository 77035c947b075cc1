#pragma once

#include <string>
#include <vector>

#include "sheets/box/view.hpp"
#include "sheets/draw/canvas.hpp"

namespace stringwright::sheets::box {

/// One line of the hole table: a hole, or several that are alike in wire, size and torque.
struct Row {
  std::string holes, wire, size;
  std::string newton_metres, pound_force_inches;  ///< both empty: by marking
  int wires = 0, may_hold = 0;                    ///< may_hold 0: not known
  bool spare = false;
  std::vector<int> terminals;
  std::vector<std::string> labels;  ///< of the terminals
};
struct Section {
  std::string letter, title;
  std::vector<Row> rows;
};

/// The table of all holes; with `shared` rows that are alike stand together.
std::vector<Section> table(const View& v, bool shared);

/// Height of a table as drawn at this width.
double height(const std::vector<Section>& sections, double width);
/// Draws it between `left` and `right` from `top` down; returns where it ends. Each hole in use has a
/// square to tick: at the end of its row, or below it with its number where rows are shared.
double draw_table(draw::Canvas& c, const std::vector<Section>& sections, double left, double right,
                  double top);

}  // namespace stringwright::sheets::box
