#pragma once

#include <cairo.h>

#include "sheets/draw/scene.hpp"

namespace stringwright::sheets::write {

/// Draws a page; the user unit of `cr` must be one millimetre.
void paint(cairo_t* cr, const draw::Page& page);

}  // namespace stringwright::sheets::write
