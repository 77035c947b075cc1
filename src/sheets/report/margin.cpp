#include "sheets/report/margin.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"
#include "sheets/report/findings.hpp"
#include "units/print.hpp"

namespace stringwright::sheets::report {
namespace {

using namespace draw;

constexpr double level_height = 5, above_axis = 5.6, below_axis = 9.8;

/// 1, 2 or 5 times a power of ten, at least `least`.
double round_step(double least) {
  const double power = std::pow(10.0, std::floor(std::log10(least)));
  for (const double f : {1.0, 2.0, 5.0})
    if (f * power >= least * (1 - 1e-9)) return f * power;
  return 10 * power;
}

}  // namespace

MarginLine::MarginLine(const trail::Margin& margin, double left, double right)
    : margin_(margin), left_(left), right_(right) {
  std::vector<double> values{units::shown_number(margin.limit)};
  for (const auto& p : margin.points) values.push_back(units::shown_number(p.at));
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  double span = *most - *least;
  // Values that coincide still need a line around them.
  if (span < 1e-6 * std::max(1.0, std::abs(*most))) span = std::max(1.0, std::abs(*most) * 0.1);
  step_ = round_step(span / 4.5);
  low_ = std::floor((*least - span * 0.14) / step_) * step_;
  high_ = std::ceil((*most + span * 0.14) / step_) * step_;
  if (*least >= 0) low_ = std::max(low_, 0.0);
  decimals_ = std::clamp(static_cast<int>(std::ceil(-std::log10(step_) - 1e-9)), 0, 6);

  // Labels stand over their marks, in the lowest row in which they are free; the limit is set first.
  struct Wanted {
    std::string words;
    double x;
    bool bold;
  };
  std::vector<Wanted> wanted{{flat(margin.limit_label), place(values[0]), true}};
  for (std::size_t i = 0; i < margin.points.size(); ++i)
    wanted.push_back({flat(margin.points[i].label), place(values[i + 1]), false});
  labels_.resize(wanted.size());
  std::vector<std::size_t> order(wanted.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::sort(order.begin() + 1, order.end(), [&](std::size_t a, std::size_t b) {
    return wanted[a].x != wanted[b].x ? wanted[a].x < wanted[b].x : a < b;
  });
  std::rotate(order.begin(), order.begin() + 1,
              order.end());  // the limit last: its wall reaches up
  std::vector<Box> taken;
  const double wall = place(values[0]);
  for (const std::size_t i : order) {
    Label& l = labels_[i];
    l.bold = wanted[i].bold;
    l.x = wanted[i].x;
    const Weight weight = l.bold ? Weight::bold : Weight::semibold;
    l.words = fit(wanted[i].words, right - left, size::caption, weight);
    const double w = measure(l.words, size::caption, weight).width;
    for (int level = 0; level < 12; ++level) {
      bool set = false;
      for (const double wished :
           {l.x - 0.5 * w, l.x - 1.5, l.x + 1.5 - w, wall - 2 - w, wall + 2}) {
        const double x = std::clamp(wished, left, std::max(left, right - w));
        // Beside the wall only what stands at it.
        if ((wished == wall - 2 - w || wished == wall + 2) && std::abs(l.x - wall) > w) continue;
        const Box box{x, -above_axis - level * level_height - 2.7, w, 3.6};
        // Not through the wall, unless it is the wall's own label, which stands on top of it.
        const bool free = std::none_of(taken.begin(), taken.end(), [&](const Box& o) {
          return Box{box.x - 1.6, box.y, box.w + 3.2, box.h}.overlaps(o);
        });
        const bool through = !l.bold && x < wall + 1.2 && x + w > wall - 1.2;
        if (!free || through) continue;
        l.box = box;
        l.level = level;
        set = true;
        break;
      }
      if (set) break;
      l.level = level + 1;
    }
    if (l.bold) {
      // On top of all that its wall passes.
      for (const auto& o : labels_)
        if (!o.words.empty() && !o.bold) l.level = std::max(l.level, o.level);
    }
    taken.push_back(l.box);
    levels_ = std::max(levels_, l.level + 1);
  }
  // A mark that lies on the wall may have been pushed to its side; the wall's label has a row of its own.
  Label& limit = labels_[0];
  const double w =
      limit.box.w > 0 ? limit.box.w : measure(limit.words, size::caption, Weight::bold).width;
  const bool free = std::none_of(labels_.begin() + 1, labels_.end(),
                                 [&](const Label& o) { return o.level == levels_ - 1; });
  if (!free) ++levels_;
  limit.level = levels_ - 1;
  limit.box = {std::clamp(limit.x - w / 2, left, std::max(left, right - w)),
               -above_axis - limit.level * level_height - 2.7, w, 3.6};
}

double MarginLine::place(double value) const {
  return left_ + 4 + (value - low_) / (high_ - low_) * (right_ - left_ - 8);
}

double MarginLine::height() const { return 3 + above_axis + levels_ * level_height + below_axis; }

void MarginLine::draw(Canvas& page, double top) const {
  Canvas c;
  const double axis = top + height() - below_axis;
  const double wall = labels_[0].x, first = place(low_), last = place(high_);
  const double a = margin_.forbidden_above ? wall : first,
               b = margin_.forbidden_above ? last : wall;
  c.add(Hatch{
      {{a, axis - 4}, {b, axis - 4}, {b, axis + 4}, {a, axis + 4}}, 1.4, -45, {Ink::ink, 0.25}});
  c.line({first, axis}, {last, axis}, {Ink::ink, weight::symbol});
  const auto unit = units::shown(margin_.limit).unit;
  const int ticks = static_cast<int>(std::lround((high_ - low_) / step_));
  for (int i = 0; i <= ticks; ++i) {
    const double value = low_ + i * step_, x = place(value);
    c.line({x, axis - 1}, {x, axis + 1}, {Ink::ink, weight::rule});
    std::string words = text::fixed(value, decimals_);
    if (i == 0 && !unit.empty()) words += " " + std::string(unit);
    c.text({x, axis + 8.4}, words, {.align = Align::middle, .ink = Ink::soft});
  }
  c.line({wall, axis + labels_[0].box.y + 4.6}, {wall, axis + 4.2}, {Ink::ink, 1.1, {}, true});
  for (std::size_t i = 1; i < labels_.size(); ++i) {
    const Label& l = labels_[i];
    // A thin line from a label that stands high or aside to its mark.
    const double foot = axis + l.box.y + 4.2;
    if (l.level > 0) c.line({l.x, foot}, {l.x, axis - 2}, {Ink::soft, weight::leader});
  }
  for (const Label& l : labels_) {
    const Type type{.weight = l.bold ? Weight::bold : Weight::semibold};
    if (l.bold)
      c.text({l.box.x, axis + l.box.y + 2.7}, l.words, type);
    else
      c.text_on_paper({l.box.x, axis + l.box.y + 2.7}, l.words, type, 0.5);
  }
  for (std::size_t i = 0; i < margin_.points.size(); ++i) {
    const Point p{labels_[i + 1].x, axis};
    switch (margin_.points[i].mark) {
      case trail::Margin::Mark::chosen:
        c.circle(p, 1.9, no_stroke(), Ink::ink);
        break;
      case trail::Margin::Mark::other:
        c.rect({p.x - 1.8, p.y - 1.8, 3.6, 3.6}, {Ink::ink, 0.6}, Ink::paper);
        break;
      case trail::Margin::Mark::record:
        c.polygon({{p.x, p.y - 2.5}, {p.x + 2.5, p.y}, {p.x, p.y + 2.5}, {p.x - 2.5, p.y}},
                  {Ink::ink, 0.6}, Ink::paper);
        break;
      case trail::Margin::Mark::refused:
        c.circle(p, 2.2, {Ink::ink, weight::part}, Ink::paper);
        c.line({p.x - 1.2, p.y - 1.2}, {p.x + 1.2, p.y + 1.2}, {Ink::ink, 0.6, {}, true});
        c.line({p.x - 1.2, p.y + 1.2}, {p.x + 1.2, p.y - 1.2}, {Ink::ink, 0.6, {}, true});
        break;
    }
  }
  page.add(c.group({}, "margin-line"));
}

}  // namespace stringwright::sheets::report
