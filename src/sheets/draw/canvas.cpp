#include "sheets/draw/canvas.hpp"

namespace stringwright::sheets::draw {
namespace {

Text made(Point at, std::string words, const Type& type, std::string name = {}) {
  return {at,       std::move(words), type.points, type.weight,    type.align,
          type.ink, type.mono,        type.turn,   std::move(name)};
}

}  // namespace

void Canvas::text(Point at, std::string words, const Type& type, std::string name) {
  if (!words.empty()) add(made(at, std::move(words), type, std::move(name)));
}

void Canvas::text_on_paper(Point at, std::string words, const Type& type, double margin) {
  if (words.empty()) return;
  Text t = made(at, std::move(words), type);
  Box b = bounds(t);
  b = {b.x - margin, b.y - margin, b.w + 2 * margin, b.h + 2 * margin};
  rect(b, no_stroke(), Ink::paper, 0.6);
  add(std::move(t));
}

double Canvas::lines(Point at, const std::vector<std::string>& words, double pitch,
                     const Type& type) {
  for (const auto& w : words) {
    text(at, w, type);
    at.y += pitch;
  }
  return at.y;
}

}  // namespace stringwright::sheets::draw
