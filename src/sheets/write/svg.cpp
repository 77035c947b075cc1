#include <fmt/format.h>

#include <string>
#include <string_view>

#include "base/text.hpp"
#include "sheets/draw/tokens.hpp"
#include "sheets/write/write.hpp"

namespace stringwright::sheets::write {
namespace {

using namespace draw;

/// Two decimals of a millimetre, no trailing zeros, never "-0".
std::string number(double v) {
  std::string s = fmt::format("{:.2f}", v);
  while (s.back() == '0') s.pop_back();
  if (s.back() == '.') s.pop_back();
  return s == "-0" ? "0" : s;
}

std::string escaped(std::string_view text) {
  std::string out;
  for (const char c : text::printable(text)) {
    switch (c) {
      case '&':
        out += "&amp;";
        break;
      case '<':
        out += "&lt;";
        break;
      case '>':
        out += "&gt;";
        break;
      case '"':
        out += "&quot;";
        break;
      default:
        out += c;
    }
  }
  // XML 1.0 knows neither of these two, whatever the encoding.
  out = text::replace_all(std::move(out), "\xEF\xBF\xBE", "\xEF\xBF\xBD");
  return text::replace_all(std::move(out), "\xEF\xBF\xBF", "\xEF\xBF\xBD");
}

/// Everything that a page writes; indented by the depth of its groups.
class Writer {
 public:
  explicit Writer(const Page& page) {
    const std::string w = number(page.width), h = number(page.height);
    out_ =
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + w + "mm\" height=\"" + h +
        "mm\" viewBox=\"0 0 " + w + " " + h + "\">\n<title>" + escaped(page.title) +
        "</title>\n<style>text{font-family:Inter,'DejaVu Sans',sans-serif;fill:" +
        std::string(hex(Ink::ink)) +
        ";white-space:pre}.mono{font-family:'DejaVu Sans Mono',monospace}</style>\n<rect width=\"" +
        w + "\" height=\"" + h + "\" fill=\"" + std::string(hex(Ink::paper)) + "\"/>\n";
    shapes(page.shapes);
    out_ += "</svg>\n";
  }

  std::string take() { return std::move(out_); }

 private:
  void shapes(const std::vector<Shape>& list) {
    for (const auto& s : list) std::visit([&](const auto& shape) { put(shape); }, s);
  }

  std::string paint(const Stroke& s, Ink fill) {
    std::string a = " fill=\"" + (fill == Ink::none ? "none" : std::string(hex(fill))) + "\"";
    if (s.ink == Ink::none || s.width <= 0) return a;
    a += " stroke=\"" + std::string(hex(s.ink)) + "\" stroke-width=\"" + number(s.width) + "\"";
    if (!s.dash.empty()) {
      a += " stroke-dasharray=\"";
      for (std::size_t i = 0; i < s.dash.size(); ++i) a += (i ? " " : "") + number(s.dash[i]);
      a += "\"";
    }
    if (s.round) a += " stroke-linecap=\"round\" stroke-linejoin=\"round\"";
    return a;
  }

  void put(const Polyline& p) {
    if (p.points.empty()) return;
    std::string d;
    for (const Step& s : outline(p)) {
      switch (s.kind) {
        case Step::Kind::move:
          d += "M" + number(s.to.x) + " " + number(s.to.y);
          break;
        case Step::Kind::line:
          d += "L" + number(s.to.x) + " " + number(s.to.y);
          break;
        case Step::Kind::bend:
          d += "Q" + number(s.control.x) + " " + number(s.control.y) + " " + number(s.to.x) + " " +
               number(s.to.y);
          break;
        case Step::Kind::close:
          d += "Z";
          break;
      }
    }
    out_ += "<path d=\"" + d + "\"" + paint(p.stroke, p.fill) + "/>\n";
  }

  void put(const Rect& r) {
    out_ += "<rect x=\"" + number(r.box.x) + "\" y=\"" + number(r.box.y) + "\" width=\"" +
            number(r.box.w) + "\" height=\"" + number(r.box.h) + "\"" +
            (r.corner > 0 ? " rx=\"" + number(r.corner) + "\"" : "") + paint(r.stroke, r.fill) +
            "/>\n";
  }

  void put(const Circle& c) {
    out_ += "<circle cx=\"" + number(c.centre.x) + "\" cy=\"" + number(c.centre.y) + "\" r=\"" +
            number(c.radius) + "\"" + paint(c.stroke, c.fill) + "/>\n";
  }

  void put(const Hatch& h) {
    std::string d;
    for (const auto& [a, b] : lines(h))
      d += "M" + number(a.x) + " " + number(a.y) + "L" + number(b.x) + " " + number(b.y);
    if (d.empty()) return;
    out_ += "<path class=\"hatch\" d=\"" + d + "\"" + paint(h.stroke, Ink::none) + "/>\n";
  }

  void put(const Text& t) {
    const std::string x = number(t.at.x), y = number(t.at.y);
    out_ += "<text x=\"" + x + "\" y=\"" + y + "\" font-size=\"" + number(t.points * mm_per_point) +
            "\"";
    if (t.weight != Weight::regular)
      out_ += " font-weight=\"" + std::to_string(static_cast<int>(t.weight)) + "\"";
    if (t.align != Align::left)
      out_ += t.align == Align::middle ? " text-anchor=\"middle\"" : " text-anchor=\"end\"";
    if (t.mono) out_ += " class=\"mono\"";
    if (t.ink != Ink::ink) out_ += " style=\"fill:" + std::string(hex(t.ink)) + "\"";
    if (t.turn != 0)
      out_ += " transform=\"rotate(" + std::to_string(t.turn) + " " + x + " " + y + ")\"";
    out_ += ">" + escaped(t.text) + "</text>\n";
  }

  void put(const Group& g) {
    out_ += "<g";
    if (!g.id.empty()) out_ += " id=\"" + escaped(g.id) + "\"";
    if (!g.kind.empty()) out_ += " class=\"" + escaped(g.kind) + "\"";
    for (const auto& [key, value] : g.data) out_ += " data-" + key + "=\"" + escaped(value) + "\"";
    out_ += ">\n";
    if (!g.title.empty()) out_ += "<title>" + escaped(g.title) + "</title>\n";
    shapes(g.shapes);
    out_ += "</g>\n";
  }

  std::string out_;
};

}  // namespace

std::string svg(const Page& page) { return Writer(page).take(); }

}  // namespace stringwright::sheets::write
