#pragma once

#include "sheets/draw/canvas.hpp"
#include "trail/outcome.hpp"

namespace stringwright::sheets::report {

/// The margin line of a finding, to scale: the limit as a wall, its forbidden side hatched, one shape
/// per value (dot chosen, square other, diamond record, ringed cross refused).
class MarginLine {
 public:
  MarginLine(const trail::Margin& margin, double left, double right);
  double height() const;
  /// @param top  of the room it takes
  void draw(draw::Canvas& c, double top) const;

 private:
  struct Label {
    std::string words;
    double x = 0;   ///< of the mark
    draw::Box box;  ///< of the words, from the axis upwards: y is negative
    bool bold = false;
    int level = 0;
  };
  double place(double value) const;

  const trail::Margin& margin_;
  double left_, right_;
  double low_ = 0, high_ = 1, step_ = 1;
  int decimals_ = 0;
  std::vector<Label> labels_;  ///< the limit first, then the points
  int levels_ = 1;
};

}  // namespace stringwright::sheets::report
