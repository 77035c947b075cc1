#pragma once

#include <string_view>

#include "sheets/draw/scene.hpp"

/// The one place for colours, line weights and text sizes of papers and page. Lengths in mm on paper,
/// text in printer's points.
namespace stringwright::sheets::draw {

inline constexpr double mm_per_point = 25.4 / 72;

/// Colour as the web writes it; empty for `Ink::none`.
constexpr std::string_view hex(Ink ink) {
  switch (ink) {
    case Ink::none:
      return "";
    case Ink::ink:
      return "#1d2733";
    case Ink::soft:
      return "#566170";
    case Ink::copper:
      return "#b4622d";
    case Ink::positive:
      return "#b3261e";
    case Ink::ground:
      return "#2c7a3f";
    case Ink::metal:
      return "#e9ecef";
    case Ink::paper:
      return "#ffffff";
    case Ink::hair:
      return "#c9ced4";
  }
  return "";
}

namespace weight {
inline constexpr double output = 1.7;     ///< output conductor
inline constexpr double enclosure = 1.1;  ///< wall of a box
inline constexpr double positive = 1.1;   ///< string conductor
inline constexpr double negative = 1.25;  ///< the casing that holds a core
inline constexpr double hollow = 1.35;    ///< solidly grounded conductor
inline constexpr double ground = 0.9;     ///< equipment ground
inline constexpr double frame = 0.7;
inline constexpr double outline = 0.6;  ///< device, live-zone edge
inline constexpr double symbol = 0.5;
inline constexpr double part = 0.35;  ///< parts, metal, hidden lines
inline constexpr double rule = 0.25;
inline constexpr double fine = 0.2;
inline constexpr double leader = 0.18;
}  // namespace weight

namespace size {
inline constexpr double caption = 10;  ///< captions and tables; nothing is smaller
inline constexpr double body = 10.5;   ///< formulas, heads of groups
inline constexpr double device = 12;   ///< names of devices
inline constexpr double head = 13;     ///< title of a finding, job name
inline constexpr double title = 17;    ///< title of a sheet
inline constexpr double report = 20;   ///< title of a page of text
inline constexpr double number = 26;   ///< number of a sheet
}  // namespace size

inline constexpr double wire_bend = 2.2;     ///< radius
inline constexpr double crossing_gap = 0.9;  ///< white on each side of the wire in front

}  // namespace stringwright::sheets::draw
