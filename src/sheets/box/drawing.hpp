#pragma once

#include "sheets/box/layout.hpp"
#include "sheets/draw/canvas.hpp"

namespace stringwright::sheets::box {

/// The inside of a box: enclosure, zones, rail, devices, bars, wires with their tags, entries, captions.
void draw_inside(draw::Canvas& c, const View& v, const Layout& l);

/// What the marks of the drawing mean, below `top`: in two rows, in one on a whole sheet.
void draw_key(draw::Canvas& c, const View& v, const Layout& l, double left, double right,
              double top);

}  // namespace stringwright::sheets::box
