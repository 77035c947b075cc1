#pragma once

#include <string>
#include <vector>

#include "sheets/draw/canvas.hpp"

namespace stringwright::sheets::draw {

/// How a conductor looks. The pattern follows its electrical meaning, the colour only its pole, so
/// that one colour is enough: solid, dashed core, hollow, dashed.
enum class Pattern {
  plus,           ///< solid
  minus,          ///< dark with a dashed white core
  plus_grounded,  ///< solidly grounded: hollow
  minus_grounded,
  ground  ///< equipment ground: dashed
};

struct Look {
  Pattern pattern = Pattern::plus;
  bool output = false;  ///< heavier
};

double width(Look look);
std::string_view css(Pattern p);  ///< "pos", "negf", "poss", "negs", "egc"

/// A wire on its path, with the white gap that keeps it apart from what it crosses. `gap_ends` are
/// left without gap, so that it does not eat the screw it ends on.
Group wire(std::string id, Look look, std::vector<Point> path, std::string title,
           std::string name = {});

/// Tag on a wire, upright or along it (`turn` −90). Square ends: plus; round ends: minus; dashed: ground.
struct TagSize {
  double along = 0, across = 0;
};
TagSize tag_size(Pattern p, const std::string& text);
Group tag(Pattern p, Point centre, const std::string& text, bool upright,
          const std::string& wire_id);

/// A sample for the key, from `at` to the right.
void sample(Canvas& c, Look look, Point at, double length);

/// Wires that leave sources (sorted by x) downwards to targets below: the depth level at which each
/// makes its jog, so that they cross only where they must. Level 0 is the highest; −1 needs no jog.
struct Jog {
  double from = 0, to = 0;
};
std::vector<int> nest(const std::vector<Jog>& jogs);

}  // namespace stringwright::sheets::draw
