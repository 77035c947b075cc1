#include <algorithm>
#include <string_view>

#include "sheets/draw/type.hpp"
#include "sheets/write/write.hpp"

namespace stringwright::sheets::write {

std::string font_trouble() {
  PangoFontFamily** families = nullptr;
  int count = 0;
  pango_font_map_list_families(pango_cairo_font_map_get_default(), &families, &count);
  const auto has = [&](std::string_view name) {
    return std::any_of(families, families + count,
                       [&](PangoFontFamily* f) { return pango_font_family_get_name(f) == name; });
  };
  const bool inter = has("Inter");
  const bool dejavu = has("DejaVu Sans") && has("DejaVu Sans Mono");
  g_free(static_cast<void*>(families));
  if (!inter && !dejavu)
    return "the fonts Inter and DejaVu are missing: install fonts-inter and fonts-dejavu-core";
  if (!inter) return "the font Inter is missing: install fonts-inter";
  if (!dejavu) return "the DejaVu fonts are missing: install fonts-dejavu-core";
  return {};
}

}  // namespace stringwright::sheets::write
