#include <cairo-pdf.h>

#include <string>
#include <string_view>

#include "sheets/draw/tokens.hpp"
#include "sheets/write/paint.hpp"
#include "sheets/write/write.hpp"

namespace stringwright::sheets::write {
namespace {

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
  static_cast<std::string*>(bytes)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

/// "2031-05-02".
bool is_date(const std::string& s) {
  constexpr const char* form = "dddd-dd-dd";
  if (s.size() != 10) return false;
  for (std::size_t i = 0; i < 10; ++i)
    if (form[i] == 'd' ? s[i] < '0' || s[i] > '9' : s[i] != '-') return false;
  return true;
}

/// cairo 1.16 leaves away the "D:" that a date begins with. Set in place without a change of length, so
/// that the table of offsets at the end stays right.
void mend_date(std::string& bytes) {
  const std::string_view key = "/CreationDate (";
  const std::size_t at = bytes.find(key);
  if (at == std::string::npos) return;
  const std::size_t digits = at + key.size();
  if (bytes.compare(digits + 14, 2, "Z)") != 0) return;
  bytes.replace(at, key.size() + 16, "/CreationDate(D:" + bytes.substr(digits, 14) + ")");
}

}  // namespace

std::string pdf(const std::vector<draw::Paper>& papers, const PdfInfo& info) {
  std::string bytes;
  cairo_surface_t* surface = cairo_pdf_surface_create_for_stream(append, &bytes, 1, 1);
  const auto set = [&](cairo_pdf_metadata_t key, const std::string& value) {
    if (!value.empty()) cairo_pdf_surface_set_metadata(surface, key, draw::plain(value).c_str());
  };
  set(CAIRO_PDF_METADATA_TITLE, info.title);
  set(CAIRO_PDF_METADATA_SUBJECT, info.subject);
  set(CAIRO_PDF_METADATA_CREATOR, "Stringwright");
  // Without a date that it can read cairo would ask the clock.
  set(CAIRO_PDF_METADATA_CREATE_DATE,
      (is_date(info.date) ? info.date : "2000-01-01") + "T00:00:00Z");

  cairo_t* cr = cairo_create(surface);
  int number = 0;
  for (const auto& paper : papers) {
    int parent = CAIRO_PDF_OUTLINE_ROOT;
    for (std::size_t i = 0; i < paper.pages.size(); ++i) {
      const draw::Page& page = paper.pages[i];
      constexpr double points = 1 / draw::mm_per_point;
      cairo_pdf_surface_set_size(surface, page.width * points, page.height * points);
      cairo_save(cr);
      cairo_scale(cr, points, points);
      paint(cr, page);
      cairo_restore(cr);
      cairo_show_page(cr);
      // Pages of one paper stand below its first one.
      const std::string place = "page=" + std::to_string(++number) + " pos=[0 0]";
      const int entry =
          cairo_pdf_surface_add_outline(surface, parent, draw::plain(page.title).c_str(),
                                        place.c_str(), CAIRO_PDF_OUTLINE_FLAG_OPEN);
      if (i == 0) parent = entry;
    }
  }
  cairo_destroy(cr);
  cairo_surface_finish(surface);
  cairo_surface_destroy(surface);
  mend_date(bytes);
  return bytes;
}

}  // namespace stringwright::sheets::write
