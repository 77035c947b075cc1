#include "sheets/report/labels.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include "check/labels.hpp"
#include "sheets/words.hpp"

namespace stringwright::sheets::report {
namespace {

using namespace draw;

constexpr double pitch = 4.7;
constexpr double face = 78;  ///< width of the label's face on this page
constexpr double gap = 6;

/// The label as it reads, in a frame; not its true size.
double draw_face(Canvas& c, double y, const codebook::Label& l) {
  std::vector<std::string> lines;
  for (const auto& line : l.lines)
    for (auto& part : wrap(plain(line), face - 6, size::caption, Weight::semibold))
      lines.push_back(std::move(part));
  const double height = pitch * static_cast<double>(lines.size()) + 4;
  c.rect({Flow::left, y, face, height}, {Ink::ink, weight::rule}, Ink::paper);
  for (std::size_t i = 0; i < lines.size(); ++i)
    c.text({Flow::left + face / 2, y + 5.2 + pitch * static_cast<double>(i)}, lines[i],
           {.weight = Weight::semibold, .align = Align::middle});
  return height;
}

void draw_one(Flow& flow, const check::LikeLabels& like) {
  const auto& l = like.first.label;
  const double x = Flow::left + face + gap, width = Flow::right - x;
  struct Line {
    std::string words;
    Type type;
  };
  std::vector<Line> lines;
  const auto say = [&](const std::string& words, const Type& type = {}) {
    for (auto& part : wrap(plain(words), width, size::caption, type.weight))
      lines.push_back({std::move(part), type});
  };
  say(l.title, {.weight = Weight::bold});
  if (!like.first.due.holds)
    say("CANNOT TELL whether it is due: depends on " + like.first.due.why + ".",
        {.weight = Weight::semibold});
  std::string places;
  for (const auto& place : like.places) places += (places.empty() ? "" : "; ") + place;
  say(places);
  if (const auto demands = check::demands(l); !demands.empty()) say(demands);
  say(check::whose_words(l) + "; " + l.source.cite +
          (l.source.status == "memory" ? " (from memory)" : ""),
      {.ink = Ink::soft});
  const double text_height = pitch * static_cast<double>(lines.size());
  // The face's own height is known only once it is broken into lines.
  Canvas aside;
  const double height = std::max(text_height, draw_face(aside, 0, l)) + 5;
  flow.room(height);
  Canvas c;
  draw_face(c, flow.y + 1, l);
  double y = flow.y + 4.6;
  for (const auto& line : lines) {
    c.text({x, y}, line.words, line.type);
    y += pitch;
  }
  flow.canvas().add(c.group({}, "label"));
  flow.y += height;
  flow.canvas().line({Flow::left, flow.y - 1.6}, {Flow::right, flow.y - 1.6},
                     {Ink::hair, weight::leader});
}

}  // namespace

void labels_due(Flow& flow, const check::Report& r) {
  const auto all = check::like_labels(r.labels);
  if (all.empty()) return;
  flow.page(
      "What this design needs; durable, put on for good, not written by hand. Not at true size.",
      "Labels due");
  for (const auto& like : all) draw_one(flow, like);
}

}  // namespace stringwright::sheets::report
