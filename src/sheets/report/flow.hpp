#pragma once

#include <string>
#include <vector>

#include "sheets/draw/canvas.hpp"

namespace stringwright::sheets::report {

/// A text that runs over A4 pages with the same head on each. Blocks ask for room before they draw, so
/// that nothing is torn across a page.
class Flow {
 public:
  static constexpr double left = 18, right = 192;

  /// @param title  large, on every page; @param right_head  "NEC 2023", @param right_caption below it
  Flow(std::string title, std::string right_head, std::string right_caption);

  /// Begins a new page with a caption below the title and a name for the bookmark.
  void page(std::string caption, std::string bookmark);
  /// Begins a new page like the last one unless `height` is left on this one. True if it did.
  bool room(double height);
  double left_over() const;  ///< height that is left on this page
  static double full();      ///< height of an empty page

  draw::Canvas& canvas() { return canvas_; }
  double y = 0;          ///< where the next block begins
  std::string bookmark;  ///< of this page; may be changed while it is open

  std::vector<draw::Page> take();

 private:
  void close();

  std::string title_, right_head_, right_caption_, caption_;
  draw::Canvas canvas_;
  std::vector<draw::Page> pages_;
  bool open_ = false;
};

}  // namespace stringwright::sheets::report
