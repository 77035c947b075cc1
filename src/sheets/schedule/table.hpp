#pragma once

#include <string>
#include <vector>

#include "sheets/draw/canvas.hpp"

namespace stringwright::sheets::schedule {

struct Column {
  std::string head;
  double width = 20;
  draw::Align align = draw::Align::left;
};

struct Cell {
  std::string words;
  draw::Weight weight = draw::Weight::regular;
  bool soft = false;
  std::string name = {};  ///< what it stands for, for counting
};

/// Tables that run over A3 sheets: a row stays whole, heads are repeated, what is long is wrapped.
class Tables {
 public:
  Tables(std::string title);

  void begin(std::string head, std::vector<Column> columns);
  /// A line across the table that names the rows below it.
  void group(const std::string& words);
  /// `before` draws into the first column, before its words (a sample of a wire), and takes `indent` mm.
  void row(const std::vector<Cell>& cells, double indent = 0,
           void (*before)(draw::Canvas&, draw::Point, const void*) = nullptr,
           const void* what = nullptr);
  void sentence(const std::string& words);

  std::vector<draw::Page> take();

 private:
  void room(double height);
  void heads(bool again);
  void next_page();

  std::string title_, head_;
  std::vector<Column> columns_;
  std::vector<draw::Page> pages_;
  draw::Canvas canvas_;
  double y_ = 0;
  bool open_ = false, empty_ = true;
};

}  // namespace stringwright::sheets::schedule
