#pragma once

#include "sheets/box/layout.hpp"
#include "sheets/draw/canvas.hpp"

namespace stringwright::sheets::box {

/// The inside of a box: enclosure, zones, rail, devices, bars, wires with their tags, entries, captions.
void draw_inside(draw::Canvas& c, const View& v, const Layout& l);

/// What the marks of the drawing mean, in two rows at `top`.
void draw_key(draw::Canvas& c, const View& v, double left, double right, double top);

}  // namespace stringwright::sheets::box
