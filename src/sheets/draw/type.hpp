#pragma once

#include <pango/pangocairo.h>

#include <memory>
#include <string_view>

#include "sheets/draw/scene.hpp"

/// Setting of type: the one place where fonts are chosen, so that measuring and writing agree.
/// For draw/ and write/ only.
namespace stringwright::sheets::draw {

inline constexpr const char* sans_families = "Inter,DejaVu Sans";
inline constexpr const char* mono_families = "DejaVu Sans Mono";

struct Unref {
  void operator()(void* object) const { g_object_unref(object); }
};
using LayoutPtr = std::unique_ptr<PangoLayout, Unref>;

/// One line of text at `points`, in user units of one point: no hinting, no rounding to pixels, base
/// direction left to right whatever the script.
LayoutPtr lay_out(std::string_view text, double points, Weight weight, bool mono);

}  // namespace stringwright::sheets::draw
