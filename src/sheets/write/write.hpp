#pragma once

#include <string>
#include <vector>

#include "sheets/draw/scene.hpp"

/// Scenes to bytes. No engineering here. Same scene, same bytes: no clock, no locale.
namespace stringwright::sheets::write {

/// Fonts on this machine can set our text: empty when all is well, else one sentence of what to
/// install. Ask before anything else: without any font the type library ends the program.
std::string font_trouble();

/// One SVG per page, with real <text>; groups carry ids, classes, data and titles.
std::string svg(const draw::Page& page);

struct PdfInfo {
  std::string title, subject;
  std::string
      date;  ///< "2031-05-02"; goes into the creation date, so that bytes do not depend on the clock
};
/// All papers in one vector PDF with searchable text, embedded fonts, bookmarks (one per page).
std::string pdf(const std::vector<draw::Paper>& papers, const PdfInfo& info);

/// One page as PNG.
std::string png(const draw::Page& page, double dots_per_inch = 110);

}  // namespace stringwright::sheets::write
