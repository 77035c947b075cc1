#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.hpp"
#include "sheets/draw/frame.hpp"
#include "sheets/draw/symbols.hpp"
#include "sheets/draw/wires.hpp"
#include "sheets/schedule/table.hpp"
#include "sheets/sheet.hpp"
#include "sheets/words.hpp"
#include "units/print.hpp"

/// Which cables to cut and where: each as a bar to scale, each piece in a table with its labels.
namespace stringwright::sheets {
namespace {

using namespace draw;
using design::CutCable;
using design::CutPiece;
using design::CutPlan;

constexpr std::size_t cables_a_page = 4;
constexpr double inset = 14, name_width = 34, bar_height = 3.2, pitch = 4.8;

std::string metres(units::Length l) { return units::print(units::AnyQuantity(l), 2); }

/// Metres of cable to a millimetre of paper, by the longest cable of the set.
struct Ratio {
  int one_to = 100;
  double mm(units::Length l) const { return l.in(units::millimetres) / one_to; }
};
Ratio ratio_for(const CutPlan& plan, double room) {
  double longest = 0;
  for (const auto& c : plan.cables) longest = std::max(longest, c.stock.in(units::millimetres));
  for (const int r : {10, 20, 25, 50, 100, 125, 200, 250, 500, 1000, 2000})
    if (longest / r <= room) return {r};
  return {5000};
}

class CutSheet {
 public:
  CutSheet(const Material& m, const CutPlan& plan) : m_(m), plan_(plan) {
    const Page page;
    f_ = field(page);
    left_ = f_.left + inset;
    bar_left_ = left_ + name_width;
    ratio_ = ratio_for(plan, f_.right - inset - bar_left_ - 12);
  }

  std::vector<Page> pages() {
    for (std::size_t first = 0; first < plan_.cables.size(); first += cables_a_page) {
      const std::size_t last = std::min(plan_.cables.size(), first + cables_a_page);
      begin();
      for (std::size_t i = first; i < last; ++i) bar(plan_.cables[i]);
      table(first, last);
      key();
      if (last == plan_.cables.size()) rest_ = closing();
      end();
    }
    if (plan_.cables.empty()) rest_ = closing_lines();
    if (!rest_.empty()) rest_pages();
    return std::move(pages_);
  }

 private:
  void begin() {
    y_ = f_.top + 8;
    const std::string words =
        "At the ground, before anyone climbs. Cut only a cable with both plugs unmated and in your "
        "hand: one that is plugged in is live at its other end as long as there is light. Tag both "
        "sides of the cut before the next cable, then test continuity from plug to cut end.";
    live_sign(c_, {left_ + 3, y_ - 4.4}, 6);
    for (const auto& line : wrap(words, f_.right - left_ - inset - 10, size::body)) {
      c_.text({left_ + 10, y_}, line, {.points = size::body, .weight = Weight::medium});
      y_ += 5.2;
    }
    y_ += 6;
  }

  void end() {
    Page p;
    p.scale.text = "1 : " + std::to_string(ratio_.one_to);
    const double metre = ratio_.mm(units::metres(1));
    const double in_bar = metre >= 8 ? 1 : metre >= 4 ? 2 : 5;
    p.scale.bar = metre * in_bar;
    p.scale.bar_label = text::shortest(in_bar) + " m";
    if (p.scale.bar > 30) p.scale.bar = 0, p.scale.bar_label.clear();
    p.shapes = c_.take();
    pages_.push_back(std::move(p));
  }

  Look look_of(const CutPiece& p) const {
    return look(m_.wiring, m_.wiring.conductors[static_cast<std::size_t>(p.conductor)]);
  }

  /// A plug: a block with the sign of the module's plug it mates with; square for plus, round for minus.
  void plug(double x, double y, bool plus, bool at_left) {
    constexpr double w = 7, h = 5.4;
    const Box b{at_left ? x - w : x, y - h / 2, w, h};
    c_.rect(b, {Ink::ink, weight::outline}, Ink::paper, plus ? 0.3 : h / 2);
    c_.text({b.centre().x, y + half_capital(size::caption)}, plus ? "+" : "−",
            {.weight = Weight::bold, .align = Align::middle});
  }

  /// One piece from its plug at `from` towards the cut: run, tail, spare.
  void piece(const CutPiece& p, double from, double direction, double y) {
    const double run = ratio_.mm(p.need - p.tail), tail = ratio_.mm(p.tail);
    const double whole = ratio_.mm(p.length);
    const auto box = [&](double a, double b) {
      const double x1 = from + direction * a, x2 = from + direction * b;
      return Box{std::min(x1, x2), y - bar_height / 2, std::abs(x2 - x1), bar_height};
    };
    const Look l = look_of(p);
    const Box body = box(0, run);
    const bool hollow = l.pattern == Pattern::plus_grounded || l.pattern == Pattern::minus_grounded;
    const bool plus = p.pole == wiring::Pole::plus;
    c_.rect(body, {Ink::ink, weight::part}, hollow ? Ink::paper : plus ? Ink::positive : Ink::ink);
    if (!plus && !hollow) c_.line({body.x, y}, {body.right(), y}, {Ink::paper, 0.5, {2.6, 1.6}});
    if (tail > 0.1) {
      const Box t = box(run, run + tail);
      c_.add(Hatch{{{t.x, t.y}, {t.right(), t.y}, {t.right(), t.bottom()}, {t.x, t.bottom()}},
                   1.3,
                   45,
                   {Ink::ink, weight::leader}});
      c_.rect(t, {Ink::ink, weight::part});
    }
    if (whole - run - tail > 0.1)
      c_.rect(box(run + tail, whole), {Ink::ink, weight::part, {2.2, 1.2}});
  }

  void bar(const CutCable& c) {
    const double y = y_ + 12;
    const double x0 = bar_left_, x1 = bar_left_ + ratio_.mm(c.stock);
    const double cut = bar_left_ + ratio_.mm(c.cut);
    c_.text({left_, y - 2.2}, "Cable " + std::to_string(c.number),
            {.points = size::device, .weight = Weight::bold});
    c_.text({left_, y + 3.2}, metres(c.stock), {.weight = Weight::semibold});
    c_.text({left_, y + 8},
            fit(plain(c.family + ", " + c.wire.size.print()), name_width - 10, size::caption),
            {.ink = Ink::soft});
    if (c.plus) piece(*c.plus, x0, 1, y);
    if (c.minus) piece(*c.minus, x1, -1, y);
    const auto left_over = [&](double a, double b) {
      c_.rect({a, y - bar_height / 2, b - a, bar_height}, {Ink::soft, weight::fine, {0.8, 1.2}});
    };
    if (!c.plus) left_over(x0, cut);
    if (!c.minus) left_over(cut, x1);
    plug(x0, y, true, true);
    plug(x1, y, false, false);

    // The blade.
    c_.line({cut, y - 6.4}, {cut, y + 4.6}, {Ink::copper, weight::outline});
    c_.polygon({{cut - 1.7, y - 7.6}, {cut + 1.7, y - 7.6}, {cut, y - 4.4}}, no_stroke(),
               Ink::copper);
    const std::string where = "cut " + metres(c.cut) + " from +";
    const double half = measure(where, size::body, Weight::bold).width / 2;
    const double middle = std::clamp(cut, left_ + half, f_.right - inset - half);
    c_.text(
        {middle, y - 9.2}, where,
        {.points = size::body, .weight = Weight::bold, .align = Align::middle, .ink = Ink::copper});

    // Tags of both sides, as they are put on the wire.
    if (c.plus) {
      const auto pattern = look_of(*c.plus).pattern;
      const double w = tag_size(pattern, c.plus->tag).along;
      add_tag(pattern, std::max(x0 + w / 2, cut - 2.4 - w / 2), y - 5, c.plus->tag);
    }
    if (c.minus) {
      const auto pattern = look_of(*c.minus).pattern;
      const double w = tag_size(pattern, c.minus->tag).along;
      add_tag(pattern, cut + 2.4 + w / 2, y - 5, c.minus->tag);
    }
    const auto measured = [&](const std::optional<CutPiece>& p, double a, double b) {
      if (!p) return;
      const std::string words = p->tag + " " + metres(p->length);
      if (measure(words, size::caption).width + 8 < b - a)
        dimension(c_, {a, y + 7}, {b, y + 7}, words);
    };
    measured(c.plus, x0, cut);
    measured(c.minus, cut, x1);
    y_ = y + 9.5;
    if (c.half_holds && !*c.half_holds) {
      // Where halving would cut, and why not there.
      const double centre = (x0 + x1) / 2;
      c_.line({centre, y - 3}, {centre, y + 3}, {Ink::ink, weight::part, {1, 0.8}});
    }
    for (const auto& flag : c.flags) {
      const bool fails = text::starts_with(flag, "cut in half");
      mark(c_, {x0 + 2, y_ + 2.6}, 1.6, fails ? Mark::fail : Mark::caution);
      c_.text({x0 + 6, y_ + 2.6 + half_capital(size::caption)},
              fit(plain(flag), f_.right - inset - x0 - 8, size::caption, Weight::medium),
              {.weight = Weight::medium});
      y_ += pitch + 0.6;
    }
    y_ += 3.4;
  }

  void add_tag(Pattern pattern, double x, double y, const std::string& words) {
    c_.add(tag(pattern, {x, y}, plain(words), true, words));
  }

  void table(std::size_t first, std::size_t last) {
    struct Head {
      const char* words;
      double at;
      bool right;
    };
    static constexpr std::array<Head, 10> heads{{{"Cable", 0, false},
                                                 {"Piece", 20, false},
                                                 {"cut to", 58, true},
                                                 {"needs", 78, true},
                                                 {"spare", 98, true},
                                                 {"label at the plug", 104, false},
                                                 {"label at the box", 166, false},
                                                 {"cut", 232, false},
                                                 {"tag", 245, false},
                                                 {"contin.", 258, false}}};
    y_ = std::max(y_ + 4, f_.top + 150.0);
    table_top_ = y_;
    const double right = left_ + table_width;
    for (const auto& h : heads)
      c_.text({left_ + h.at, y_ + 4}, h.words,
              {.align = h.right ? Align::right : Align::left, .ink = Ink::soft});
    y_ += 5.8;
    c_.line({left_, y_}, {right, y_}, {Ink::ink, weight::rule});
    for (std::size_t i = first; i < last; ++i) {
      const auto& c = plan_.cables[i];
      bool named = false;
      for (const auto* p : {&c.plus, &c.minus}) {
        if (!*p) continue;
        const double base = y_ + 4.3;
        if (!named) c_.text({left_, base}, std::to_string(c.number), {.weight = Weight::bold});
        named = true;
        c_.text({left_ + 20, base}, (*p)->tag, {.weight = Weight::semibold});
        const auto number = [&](double x, units::Length l) {
          c_.text({left_ + x, base}, metres(l), {.align = Align::right});
        };
        number(58, (*p)->length);
        number(78, (*p)->need);
        number(98, (*p)->spare());
        c_.text({left_ + 104, base}, fit(plain((*p)->at_string), 60, size::caption));
        c_.text({left_ + 166, base}, fit(plain((*p)->at_box), 62, size::caption));
        for (const double x : {235.0, 248.0, 263.0}) tick_box(c_, {left_ + x, base - 1.3});
        y_ += 5.8;
        c_.line({left_, y_}, {right, y_}, {Ink::hair, weight::leader});
      }
    }
  }

  void key() {
    double y = table_top_ + 4;
    const double x = left_ + table_width + 8, words = x + 20;
    c_.text({x, y}, "Reading a bar", {.points = size::body, .weight = Weight::bold});
    y += 6.2;
    const auto line = [&](const std::string& s) {
      c_.text({words, y + half_capital(size::caption)}, s);
      y += 5.6;
    };
    c_.rect({x, y - 1.6, 16, 3.2}, {Ink::ink, weight::part}, Ink::positive);
    line("plus, plug to box");
    c_.rect({x, y - 1.6, 16, 3.2}, {Ink::ink, weight::part}, Ink::ink);
    c_.line({x, y}, {x + 16, y}, {Ink::paper, 0.5, {2.6, 1.6}});
    line("minus, plug to box");
    c_.add(Hatch{{{x, y - 1.6}, {x + 16, y - 1.6}, {x + 16, y + 1.6}, {x, y + 1.6}},
                 1.3,
                 45,
                 {Ink::ink, weight::leader}});
    c_.rect({x, y - 1.6, 16, 3.2}, {Ink::ink, weight::part});
    line("tail inside the box");
    c_.rect({x, y - 1.6, 16, 3.2}, {Ink::ink, weight::part, {2.2, 1.2}});
    line("spare: trim at the box");
    plug(x + 7, y, true, true);
    plug(x + 9, y, false, false);
    line("mates with module +, −");
    mark(c_, {x + 8, y}, 1.6, Mark::fail);
    line("would leave one short");
  }

  std::vector<std::pair<Mark, std::string>> closing_lines() const {
    std::vector<std::pair<Mark, std::string>> all;
    for (const auto& why : plan_.cannot_tell) all.emplace_back(Mark::cannot_tell, why);
    for (const auto& r : plan_.reel)
      all.emplace_back(
          Mark::caution,
          r.piece.tag + ": " + metres(r.piece.need) + " off a reel of " + r.wire.print() +
              ", one connector of family " + r.family + " that mates with module " +
              (r.piece.pole == wiring::Pole::plus ? "+" : "−") +
              ", crimped with its maker's tool; " +
              (r.longest_stock ? "the longest cable is " + metres(*r.longest_stock)
                               : std::string("no stock cable of this family and wire is known")));
    for (const auto& b : plan_.buy)
      all.emplace_back(Mark::pass, "Buy " + std::to_string(b.count) + " × " +
                                       (b.part.empty() ? "" : b.part + ", ") + metres(b.length) +
                                       ": " + b.title);
    if (!plan_.cables.empty()) {
      std::string total = "Bought " + metres(plan_.bought) + ", needed " + metres(plan_.needed);
      if (plan_.price) total += ", " + plan_.price->print() + " at prices of " + plan_.price_date;
      total += plan_.proved
                   ? std::string("; no plan ") +
                         (plan_.by_price ? "costs less"
                                         : "takes fewer cables, or as many and less length,") +
                         " with this stock."
                   : std::string("; not proved to be the least.");
      all.emplace_back(Mark::not_applicable, total);
    }
    for (const auto& a : plan_.advice) all.emplace_back(Mark::not_applicable, a);
    all.emplace_back(
        Mark::caution,
        "Which plug mates with module + differs between families: go by label and "
        "meter, never by shape or colour. Unlike families never mate; such cables meet "
        "only at terminals in the box.");
    return all;
  }

  /// Puts what closes the list below the table; hands back what does not fit.
  std::vector<std::pair<Mark, std::string>> closing() {
    y_ = std::max(y_, table_top_ + 42) + 4;
    auto all = closing_lines();
    const double width = f_.right - inset - left_ - 8;
    std::size_t lines = 0;
    for (const auto& [kind, words] : all) lines += wrap(plain(words), width, size::caption).size();
    if (y_ + static_cast<double>(lines) * pitch > f_.bottom - 4) return all;
    for (const auto& [kind, words] : all) {
      if (kind != Mark::not_applicable && kind != Mark::pass)
        mark(c_, {left_ + 2, y_ + 1.4}, 1.6, kind);
      for (const auto& line : wrap(plain(words), width, size::caption)) {
        c_.text({left_ + 7, y_ + 2.8}, line);
        y_ += pitch;
      }
    }
    return {};
  }

  void rest_pages() {
    schedule::Tables t("");
    t.begin("To buy and to know", {{"", 30}, {"", 350}});
    for (const auto& [kind, words] : rest_)
      t.row({{kind == Mark::cannot_tell ? "CANNOT TELL"
              : kind == Mark::caution   ? "CAUTION"
              : kind == Mark::pass      ? "buy"
                                        : "",
              Weight::semibold},
             {plain(words)}});
    for (auto& page : t.take()) pages_.push_back(std::move(page));
  }

  static constexpr double table_width = 272;

  const Material& m_;
  const CutPlan& plan_;
  Field f_{};
  Ratio ratio_;
  double left_ = 0, bar_left_ = 0, y_ = 0, table_top_ = 0;
  Canvas c_;
  std::vector<Page> pages_;
  std::vector<std::pair<Mark, std::string>> rest_;
};

std::vector<Paper> make(const Material& m) {
  if (!m.cuts || (m.cuts->empty() && m.cuts->cannot_tell.empty())) return {};
  Paper paper;
  paper.name = "cut-list";
  paper.title = "Cut list for home runs";
  paper.pages = CutSheet(m, *m.cuts).pages();
  for (std::size_t i = 0; i < paper.pages.size(); ++i)
    paper.pages[i].title =
        paper.title + (paper.pages.size() > 1 ? ", " + std::to_string(i + 1) + " of " +
                                                    std::to_string(paper.pages.size())
                                              : "");
  return {paper};
}

}  // namespace

extern const Sheet cut_list_sheet{"cut-list", "Cut list for home runs", make};

}  // namespace stringwright::sheets
