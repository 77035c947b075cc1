#include "sheets/draw/frame.hpp"

#include <algorithm>

#include "base/text.hpp"
#include "sheets/draw/symbols.hpp"

namespace stringwright::sheets::draw {
namespace {

constexpr double band = 5.8;  // height of the caution line above a strip

bool large(const Page& page) { return page.width > page.height; }

struct Measures {
  double frame, strip;  // distance of the frame from the edge, height of the title strip
};
Measures measures(const Page& page) { return large(page) ? Measures{10, 25} : Measures{12, 20}; }

const Type soft{.ink = Ink::soft};

/// Words of a list, joined by dots, in lines of at most `width`.
std::vector<std::string> flow(const std::vector<std::string>& words, double width, double points) {
  std::vector<std::string> lines;
  for (const auto& w : words) {
    if (w.empty()) continue;
    const std::string longer = lines.empty() ? w : lines.back() + " · " + w;
    if (!lines.empty() && measure(longer, points).width <= width)
      lines.back() = longer;
    else
      lines.push_back(fit(w, width, points));
  }
  return lines;
}

/// Cells of a strip, left to right.
class Strips {
 public:
  Strips(Canvas& c, double top, double bottom) : c_(c), top_(top), bottom_(bottom) {}

  void rule(double x) { c_.line({x, top_}, {x, bottom_}, {Ink::ink, weight::rule}); }

  void lines(double x, std::vector<double> at, const std::vector<std::string>& words,
             const Type& type) {
    for (std::size_t i = 0; i < std::min(at.size(), words.size()); ++i)
      c_.text({x, top_ + at[i]}, words[i], type);
  }

 private:
  Canvas& c_;
  double top_, bottom_;
};

/// The checks, and what nobody looked at below them, heavier; evenly between `top` and `bottom`. They
/// are never shortened: where they need more lines, the lines stand closer.
void checks(Canvas& c, const Strip& s, double x, double width, double top, double bottom) {
  const auto lines = flow(s.checks, width, size::caption);
  const double pitch = std::min(5.2, (bottom - top) / static_cast<double>(lines.size()));
  const double y = c.lines({x, bottom - pitch * static_cast<double>(lines.size())}, lines, pitch);
  c.text({x, y}, fit(s.not_looked_at, width, size::caption, Weight::bold),
         {.weight = Weight::bold});
}

void revision(Canvas& c, const Strip& s, double x, double right, std::vector<double> at) {
  const Type medium{.weight = Weight::medium};
  std::vector<std::string> first;
  if (!s.revision.empty()) first.push_back("Rev. " + s.revision);
  if (!s.date.empty()) first.push_back(s.date);
  // On one line where there is room.
  first = flow(first, right - x, size::caption);
  for (std::size_t i = 0; i < std::min<std::size_t>(first.size(), at.size() - 2); ++i)
    c.text({x, at[i]}, first[i], medium);
  c.text({x, at[at.size() - 2]}, "Checked by", soft);
  c.line({x, at.back()}, {right, at.back()}, {Ink::ink, weight::rule});
}

void sheet_number(Canvas& c, double x, double y, double below, double points, int number,
                  int total) {
  c.text({x, y}, std::to_string(number),
         {.points = points, .weight = Weight::bold, .align = Align::middle, .ink = Ink::copper});
  c.text({x, below}, "of " + std::to_string(total), {.align = Align::middle, .ink = Ink::soft});
}

void scale_cell(Canvas& c, const Scale& s, double x, double width, double top) {
  c.text({x, top + 5.6}, "Scale", soft);
  const bool shown = s.bar > 0;
  const double points = size::head;
  const auto lines = measure(s.text, points, Weight::semibold).width <= width
                         ? std::vector{s.text}
                         : wrap(s.text, width, size::body, Weight::bold);
  if (lines.size() == 1)
    c.text({x, top + 12.4}, s.text, {.points = points, .weight = Weight::semibold});
  else
    c.lines({x, top + 12}, lines, 5, {.points = size::body, .weight = Weight::bold});
  if (!shown) return;
  c.rect({x, top + 15.6, s.bar / 2, 1.2}, no_stroke(), Ink::ink);
  c.rect({x + s.bar / 2, top + 15.6, s.bar / 2, 1.2}, {Ink::ink, weight::part}, Ink::paper);
  c.text({x, top + 21.4}, s.bar_label, {});
}

void caution_line(Canvas& c, const Strip& s, double left, double right, double bottom) {
  c.line({left, bottom - band}, {right, bottom - band}, {Ink::ink, weight::rule});
  const double x = left + 4;
  mark(c, {x + 1.9, bottom - band / 2 + 0.1}, 1.7, Mark::caution);
  // As many sentences as the line holds, the first in any case.
  std::string words;
  for (const auto& sentence : s.caution) {
    const std::string longer = words.empty() ? sentence : words + " " + sentence;
    if (!words.empty() && measure(longer, size::caption, Weight::medium).width > right - x - 8)
      break;
    words = longer;
  }
  c.text({x + 6, bottom - band / 2 + half_capital(size::caption)},
         fit(words, right - x - 8, size::caption, Weight::medium), {.weight = Weight::medium});
}

void strip_a3(Canvas& c, const Page& page, const Strip& s, double left, double right, double top,
              double bottom, int number, int total) {
  Strips strips(c, top, bottom);
  const double sheet = left + 38, job = sheet + 122, basis = job + 64, check = basis + 50,
               scale = check + 50, issue = scale + 26, count = right - 18;
  for (const double x : {sheet, job, basis, check, scale, issue, count}) strips.rule(x);

  our_mark(c, {left + 4, top + 4}, 1);
  c.text({left + 18, top + 9.4}, fit(s.program, sheet - left - 20, size::caption), soft);
  c.text({left + 4, top + 21.2}, "Stringwright", {.points = size::head, .weight = Weight::bold});

  c.text({sheet + 3, top + 5.6}, "Sheet", soft);
  const double room = job - sheet - 6;
  double points = size::title;
  while (points > size::head && measure(page.title, points, Weight::bold).width > room) points -= 1;
  c.text({sheet + 3, top + 13.4}, fit(page.title, room, points, Weight::bold),
         {.points = points, .weight = Weight::bold});
  Canvas counts;
  double counted = size::body;
  if (measure(s.counts, counted, Weight::medium).width > room) counted = size::caption;
  const auto lines = fit_lines(s.counts, room, 2, counted, Weight::medium);
  counts.lines({sheet + 3, top + (lines.size() > 1 ? 18.2 : 21.2)}, lines, 4.6,
               {.points = counted, .weight = Weight::medium});
  c.add(counts.group("counts"));

  c.text({job + 3, top + 5.6}, "Job", soft);
  const double job_room = basis - job - 6;
  c.text({job + 3, top + 12}, fit(s.job, job_room, size::device, Weight::semibold),
         {.points = size::device, .weight = Weight::semibold});
  const auto about = fit_lines(text::join(s.about, " · "), job_room, 2, size::caption);
  strips.lines(job + 3, {16.8, 21.6}, about, {});

  c.text({basis + 3, top + 5.6}, "Basis", soft);
  const double basis_room = check - basis - 6;
  c.text({basis + 3, top + 11.4}, fit(s.edition, basis_room, size::body, Weight::semibold),
         {.points = size::body, .weight = Weight::semibold});
  strips.lines(basis + 3, {16.6, 21.6}, fit_lines(s.basis, basis_room, 2, size::caption), {});

  // More than two lines of them need the place of their caption.
  const bool captioned = flow(s.checks, scale - check - 5, size::caption).size() <= 2;
  if (captioned) c.text({check + 3, top + 5.6}, "Checks", soft);
  checks(c, s, check + 3, scale - check - 5, top + (captioned ? 10 : 5.6), top + 21.4);

  scale_cell(c, page.scale, scale + 3, issue - scale - 4, top);
  revision(c, s, issue + 3, count - 2, {top + 5.6, top + 10.4, top + 15.8, top + 22});
  sheet_number(c, (count + right) / 2, top + 14.6, top + 21.2, size::number, number, total);
}

void strip_a4(Canvas& c, const Strip& s, double left, double right, double top, double bottom,
              int number, int total) {
  Strips strips(c, top, bottom);
  const double job = left + 36, check = job + 51, issue = check + 51, count = right - 16;
  for (const double x : {job, check, issue, count}) strips.rule(x);

  our_mark(c, {left + 4, top + 3}, 0.62);
  c.text({left + 14, top + 8.2}, fit(s.program, job - left - 16, size::caption), soft);
  c.text({left + 4, top + 16.4}, "Stringwright", {.points = size::head, .weight = Weight::bold});

  c.text({job + 3, top + 5.8}, fit(s.job, check - job - 6, size::device, Weight::semibold),
         {.points = size::device, .weight = Weight::semibold});
  const auto about = fit_lines(text::join(s.about, " · "), check - job - 6, 2, size::caption);
  strips.lines(job + 3, {11.2, 16.4}, about, {});

  checks(c, s, check + 3, issue - check - 4.5, top + 4.4, top + 16.6);
  revision(c, s, issue + 3, count - 2, {top + 4.9, top + 9.4, top + 13.9, top + 18.2});
  sheet_number(c, (count + right) / 2, top + 11, top + 16.6, 22, number, total);
}

}  // namespace

Field field(const Page& page) {
  const Measures m = measures(page);
  return {m.frame, m.frame, page.width - m.frame,
          page.height - m.frame - m.strip - (large(page) ? band : 2 * band)};
}

void add_frame(Page& page, const Strip& strip, int number, int total) {
  const Measures m = measures(page);
  const double left = m.frame, right = page.width - m.frame, bottom = page.height - m.frame;
  const double top = bottom - m.strip;

  Canvas frame;
  frame.rect({left, left, right - left, bottom - left}, {Ink::ink, weight::frame});
  if (large(page)) {
    const Stroke fold{Ink::soft, weight::leader};
    frame.line({page.width / 2, left - 5}, {page.width / 2, left - 1}, fold);
    frame.line({page.width / 2, bottom + 1}, {page.width / 2, bottom + 5}, fold);
  }
  page.shapes.push_back(frame.group("frame"));

  Canvas c;
  c.line({left, top}, {right, top}, {Ink::ink, weight::frame});
  if (large(page)) {
    caution_line(c, strip, left, right, top);
    strip_a3(c, page, strip, left, right, top, bottom, number, total);
  } else {
    caution_line(c, strip, left, right, top);
    c.line({left, top - 2 * band}, {right, top - 2 * band}, {Ink::ink, weight::rule});
    Canvas counts;
    counts.text({left + 4, top - 1.5 * band + half_capital(size::caption)},
                fit(strip.counts, right - left - 8, size::caption, Weight::medium),
                {.weight = Weight::medium});
    c.add(counts.group("counts"));
    strip_a4(c, strip, left, right, top, bottom, number, total);
  }
  page.shapes.push_back(c.group("title-strip"));
}

}  // namespace stringwright::sheets::draw
