#include "sheets/box/column.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "base/text.hpp"
#include "sheets/draw/symbols.hpp"
#include "sheets/words.hpp"

namespace stringwright::sheets::box {
namespace {

using namespace draw;
using wiring::Pole;

constexpr double row_pitch = 5.6, group_gap = 7.4, head_height = 9;

/// "N3", "N1–12", from labels that follow each other; "+ − E" where they are no numbers.
std::string span_of(const std::vector<std::string>& labels, const std::string& letter) {
  if (labels.size() == 1) return labels.front();
  if (labels.front().size() < 4 &&
      !std::isdigit(static_cast<unsigned char>(labels.front().back())) && letter == "S")
    return text::join(labels, " ");
  return labels.front() + "–" + labels.back().substr(std::min(letter.size(), labels.back().size()));
}

std::string tags_of(const std::vector<std::string>& tags) {
  std::vector<std::string> distinct;
  for (const auto& t : tags)
    if (std::find(distinct.begin(), distinct.end(), t) == distinct.end()) distinct.push_back(t);
  if (distinct.empty()) return "";
  if (distinct.size() < 3) return text::join(distinct, " ");
  return distinct.front() + "…" + distinct.back();
}

bool alike(const Row& a, const Row& b) {
  return a.spare == b.spare && a.size == b.size && a.newton_metres == b.newton_metres &&
         a.wires == b.wires && a.may_hold == b.may_hold;
}

class Table {
 public:
  Table(const View& v, bool shared) : v_(v), shared_(shared) {}

  Row hole(int terminal) const {
    const auto& t = v_.terminal(terminal);
    Row r;
    r.terminals = {terminal};
    r.labels = {t.label};
    r.holes = t.label;
    const auto conductors = v_.on(terminal);
    for (int c : conductors) r.wires += v_.conductor(c).parallel;
    r.may_hold = t.spec ? t.spec->wires.value_or(0) : 0;
    r.spare = conductors.empty();
    std::vector<std::string> tags;
    tags.reserve(conductors.size());
    for (int c : conductors) tags.push_back(v_.conductor(c).tag);
    r.wire = tags_of(tags);
    if (!conductors.empty()) r.size = wire_words(v_.conductor(conductors.front()));
    if (const auto q = torque(t.spec)) {
      r.newton_metres = q->newton_metres;
      r.pound_force_inches = q->pound_force_inches;
    }
    return r;
  }

  void add(Section& s, Row r) const {
    // Spare holes always stand together, others where rows are shared.
    if (!s.rows.empty() && (shared_ || r.spare) && alike(s.rows.back(), r)) {
      Row& last = s.rows.back();
      last.terminals.insert(last.terminals.end(), r.terminals.begin(), r.terminals.end());
      last.labels.insert(last.labels.end(), r.labels.begin(), r.labels.end());
      std::vector<std::string> tags;
      for (int t : last.terminals)
        for (int c : v_.on(t)) tags.push_back(v_.conductor(c).tag);
      last.holes = span_of(last.labels, s.letter);
      if (s.letter == "S")
        last.wire = "its leads";
      else if (last.wire != "finger")
        last.wire = tags_of(tags);
      return;
    }
    s.rows.push_back(std::move(r));
  }

  /// One section for each kind of device in the box, in the order of their first places.
  std::vector<Section> device_sides(bool load) const {
    std::vector<Section> all;
    for (const auto* part : v_.kinds()) all.push_back(device_side(load, part, !v_.one_kind()));
    return all;
  }

  Section device_side(bool load, const parts::Part* part, bool among_others) const {
    const std::string what = device_word(part);
    std::string capital =
        what == "fuse" ? "Fuse holder"
                       : std::string(1, static_cast<char>(std::toupper(what[0]))) + what.substr(1);
    if (among_others) capital += " " + rating(part).front();
    Section s{
        load ? "T" : "L",
        capital + (load ? ", bus side, top"
                        : (v_.strings() > 0 ? ", string side, bottom" : ", feeder side, bottom")),
        {}};
    for (const auto& p : v_.places) {
      if (v_.wiring.part_of(p.device) != part) continue;
      for (const auto& e : p.ends) {
        const int t = load ? e.load : e.line;
        if (t < 0) continue;
        Row r = hole(t);
        if (load) {
          r.wire = "finger";
          r.size = "bus bar";
          r.wires = 1;
          r.spare = false;
        }
        add(s, std::move(r));
      }
    }
    return s;
  }

  Section bar(const Bar& b, bool bus) const {
    Section s{b.letter,
              bus                    ? (b.pole == Pole::plus ? "Plus bus, lugs" : "Minus bus, lugs")
              : b.pole == Pole::plus ? "Plus bar"
              : b.pole == Pole::minus ? "Minus bar"
                                      : "Ground bar",
              {}};
    for (int t : b.holes) add(s, hole(t));
    return s;
  }

 private:
  const View& v_;
  bool shared_;
};

}  // namespace

std::vector<Section> table(const View& v, bool shared) {
  const Table t(v, shared);
  std::vector<Section> all;
  for (const bool load : {true, false})
    for (Section& s : t.device_sides(load))
      if (!s.rows.empty()) all.push_back(std::move(s));
  for (const auto& b : v.buses) all.push_back(t.bar(b, true));
  for (const auto& b : v.bars) all.push_back(t.bar(b, false));
  if (v.arrester >= 0) {
    Section s{"S", "Arrester, own terminals", {}};
    for (int terminal : v.device(v.arrester).terminals) {
      Row r = t.hole(terminal);
      // "SA+" is the terminal "+" of the arrester SA.
      const std::string& own = v.device(v.arrester).label;
      if (text::starts_with(r.holes, own)) r.holes = r.holes.substr(own.size());
      r.labels = {r.holes};
      t.add(s, std::move(r));
    }
    all.push_back(std::move(s));
  }
  return all;
}

namespace {

constexpr double cell_width = 7, cell_height = 5;

/// What is written into the squares of a row: the number of each hole, or nothing where there is one.
std::vector<std::string> cells(const Section& s, const Row& r) {
  if (r.spare) return {};
  if (r.labels.size() == 1) return {""};
  std::vector<std::string> numbers;
  numbers.reserve(r.labels.size());
  for (const auto& l : r.labels) numbers.push_back(number_in(l, s.letter));
  return numbers;
}

/// Squares of a row stand at its end if they are few, else on lines of their own below it.
constexpr std::size_t beside = 1;

double row_height(const Section& s, const Row& r, double width) {
  const std::size_t n = cells(s, r).size();
  if (n <= beside) return row_pitch;
  const auto per_line = static_cast<std::size_t>(std::max(1.0, (width - 13) / cell_width));
  const std::size_t lines = (n + per_line - 1) / per_line;
  return row_pitch + (cell_height + 0.8) * static_cast<double>(lines);
}

}  // namespace

double height(const std::vector<Section>& sections, double width) {
  double h = head_height;
  for (const auto& s : sections) {
    h += group_gap;
    for (const auto& r : s.rows) h += row_height(s, r, width);
  }
  return h;
}

double draw_table(Canvas& page, const std::vector<Section>& sections, double left, double right,
                  double top) {
  Canvas c;
  const Type soft{.ink = Ink::soft}, soft_right{.align = Align::right, .ink = Ink::soft};
  const double dots = right - 20.5;
  const double inches = dots - 4, newton = inches - 12.5;
  const double wire = left + 12, size = left + (right - left > 105 ? 32 : 25);
  double y = top + 5.6;
  c.text({left, y}, "Hole", soft);
  c.text({wire, y}, "Wire", soft);
  c.text({size, y}, "Size", soft);
  c.text({newton, y}, "N·m", soft_right);
  c.text({inches, y}, "lbf·in", soft_right);
  c.text({dots, y}, "Wires", soft);
  c.text({right, y}, "Tight", soft_right);
  c.line({left, y + 2}, {right, y + 2}, {Ink::ink, draw::weight::rule});
  y = top + head_height;
  for (const auto& s : sections) {
    letter(c, {left, y + group_gap - 3.3}, s.letter);
    c.text({left + 7, y + group_gap - 2}, s.title, {.points = size::body, .weight = Weight::bold});
    y += group_gap;
    for (const auto& r : s.rows) {
      const double base = y + row_pitch - 1.6;
      const double middle = base - half_capital(size::caption);
      const double holes = measure(r.holes, size::caption, Weight::semibold).width;
      c.text({left, base}, r.holes, {.weight = Weight::semibold});
      if (r.spare) {
        c.text({std::max(wire, left + holes + 2.5), base}, "spare, screw tight, no wire", soft);
      } else {
        const double from = std::max(wire, left + holes + 2);
        c.text({from, base}, r.wire);
        const double after = std::max(size, from + measure(r.wire, size::caption).width + 2);
        const bool by_marking = r.newton_metres.empty();
        c.text({after, base},
               fit(r.size, (by_marking ? inches - 19 : newton - 8.2) - after, size::caption));
        if (by_marking) {
          c.text({inches, base}, "by marking", soft_right);
        } else {
          c.text({newton, base}, r.newton_metres, {.align = Align::right});
          c.text({inches, base}, r.pound_force_inches, {.align = Align::right});
        }
        occupancy(c, {dots, middle}, r.wires, r.may_hold);
        const auto squares = cells(s, r);
        if (squares.size() <= beside) {
          tick_box(c, {right - 2, middle});
        } else {
          double x = left + 13, line = y + row_pitch;
          for (const auto& number : squares) {
            if (x + cell_width > right + 0.01) {
              x = left + 13;
              line += cell_height + 0.8;
            }
            c.rect({x, line, cell_width - 0.9, cell_height}, {Ink::ink, draw::weight::part},
                   Ink::paper);
            c.text(
                {x + (cell_width - 0.9) / 2, line + cell_height / 2 + half_capital(size::caption)},
                number, {.align = Align::middle, .ink = Ink::soft});
            x += cell_width;
          }
        }
      }
      y += row_height(s, r, right - left);
      c.line({left, y}, {right, y}, {Ink::hair, draw::weight::leader});
    }
  }
  page.add(c.group("hole-table"));
  return y;
}

}  // namespace stringwright::sheets::box
