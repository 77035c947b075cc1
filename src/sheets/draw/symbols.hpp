#pragma once

#include <string>

#include "sheets/draw/canvas.hpp"

namespace stringwright::sheets::draw {

/// A screw seen from the front: black in use, open spare.
void screw(Canvas& c, Point at, double radius, bool used);

/// Letter of a bar, white in a block of ink, left edge and middle at `at`. Returns its width.
double letter(Canvas& c, Point at, const std::string& text);

/// A square to tick.
void tick_box(Canvas& c, Point centre);

/// Wires in a hole and room for more: filled and open dots; "?" where the part does not say. Returns
/// the width.
double occupancy(Canvas& c, Point at, int wires, int may_hold);

/// Triangle with a bolt.
void live_sign(Canvas& c, Point top, double height);

/// Verdict marks. Solid block: fail. Triangle: caution. Dashed ring: cannot tell. Bare tick: pass.
/// Empty square: check on site. Short bar: not applicable. A waived fail is the struck word with its reason; its mark is an open
/// block, struck through.
enum class Mark { pass, caution, fail, cannot_tell, on_site, not_applicable, waived };
void mark(Canvas& c, Point centre, double radius, Mark m);
std::string_view word(Mark m);

/// The word of a mark, right-aligned at `right`: "FAIL" struck and "WAIVED" where it is waived. Returns
/// its left edge.
double verdict_word(Canvas& c, Point right, double points, Mark m);
/// The same with the mark to its left.
double verdict(Canvas& c, Point right, double points, double radius, Mark m);

/// Dimension line with short strokes at its ends; the words stand in a gap of the line.
void dimension(Canvas& c, Point from, Point to, const std::string& words);

/// Our mark: a bus bar with three fingers and one way down. `at` is its top left, `scale` 1 on A3.
void our_mark(Canvas& c, Point at, double scale);

/// Strain relief under a wall: `x` of its wires, a black square for each plugged hole.
void relief(Canvas& c, double wall, double left, double right, const std::vector<double>& plugged);

/// Hub under a wall with the beginning of a raceway.
void hub(Canvas& c, double wall, double left, double right, double raceway);

/// Screws of a lid, one in each corner of an enclosure.
void enclosure(Canvas& c, Box wall);

/// Surge arrester: one element from plus, one from minus, both to earth.
void arrester(Canvas& c, Point centre, double height);

/// Fuse holder without its cartridge, with isolator bars, upright. Never a switch blade.
void empty_fuse_holder(Canvas& c, Point centre, double height);

}  // namespace stringwright::sheets::draw
