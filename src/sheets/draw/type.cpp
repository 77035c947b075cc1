#include "sheets/draw/type.hpp"

#include <cmath>

namespace stringwright::sheets::draw {
namespace {

using ContextPtr = std::unique_ptr<PangoContext, Unref>;

/// Pango wants one context for many layouts; it is per thread because pango is.
PangoContext* context() {
  thread_local const ContextPtr made = [] {
    ContextPtr c(pango_font_map_create_context(pango_cairo_font_map_get_default()));
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(c.get(), options);
    cairo_font_options_destroy(options);
    pango_cairo_context_set_resolution(c.get(), 72);
    pango_context_set_round_glyph_positions(c.get(), FALSE);
    pango_context_set_base_dir(c.get(), PANGO_DIRECTION_LTR);
    pango_context_set_language(c.get(), pango_language_from_string("en"));
    return c;
  }();
  return made.get();
}

}  // namespace

LayoutPtr lay_out(std::string_view text, double points, Weight weight, bool mono) {
  LayoutPtr layout(pango_layout_new(context()));
  PangoFontDescription* font = pango_font_description_new();
  pango_font_description_set_family_static(font, mono ? mono_families : sans_families);
  pango_font_description_set_weight(font, static_cast<PangoWeight>(weight));
  pango_font_description_set_absolute_size(font, std::round(points * PANGO_SCALE));
  pango_layout_set_font_description(layout.get(), font);
  pango_font_description_free(font);
  pango_layout_set_auto_dir(layout.get(), FALSE);
  pango_layout_set_text(layout.get(), text.data(), static_cast<int>(text.size()));
  return layout;
}

}  // namespace stringwright::sheets::draw
