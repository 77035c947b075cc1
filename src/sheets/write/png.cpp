#include <cairo.h>

#include <cmath>
#include <string>

#include "sheets/write/paint.hpp"
#include "sheets/write/write.hpp"

namespace stringwright::sheets::write {
namespace {

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

std::string png(const draw::Page& page, double dots_per_inch) {
  const double scale = dots_per_inch / 25.4;
  const auto pixels = [&](double mm) { return static_cast<int>(std::lround(mm * scale)); };
  cairo_surface_t* surface =
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, pixels(page.width), pixels(page.height));
  cairo_t* cr = cairo_create(surface);
  cairo_scale(cr, scale, scale);
  paint(cr, page);
  cairo_destroy(cr);
  std::string bytes;
  cairo_surface_write_to_png_stream(surface, append, &bytes);
  cairo_surface_destroy(surface);
  return bytes;
}

}  // namespace stringwright::sheets::write
