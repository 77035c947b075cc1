#include "sheets/event.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>

#include "sheets/draw/canvas.hpp"
#include "sheets/draw/symbols.hpp"
#include "sheets/words.hpp"
#include "units/print.hpp"

namespace stringwright::sheets {
namespace {

using namespace draw;
using events::DevicePole;
using events::Paths;
using events::Row;
using events::Site;
using wiring::DeviceKind;
using wiring::Pole;

constexpr double page_width = 297, page_height = 210, margin = 14;
// From above: re-combiner, plus bus, devices, landings, modules, minus bus, re-combiner, metal.
constexpr double y_upper = 48, y_feeder = 55.5, y_feeder_end = 61.5, y_bus = 72, y_device = 87,
                 y_landing = 94, y_top = 110, y_foot = 136, y_minus = 150, y_lower = 163,
                 y_earth = 173;
constexpr double column_pitch = 27, box_gap = 30;

/// One drawn string: itself, or one for several that do the same.
struct Column {
  std::vector<int> strings;
  double x = 0;
  int first() const { return strings.front(); }
};

struct DrawnBox {
  int box = -1;  ///< -1: strings that land on the input itself
  std::vector<Column> columns;
  double left = 0, right = 0, way_out = 0;
};

std::string amps(units::Current i) { return events::amps(i); }

class Drawing {
 public:
  Drawing(const Site& site, const Row& row, const Paths& paths)
      : s_(site), w_(site.w), row_(row), p_(paths) {}

  Page page() {
    lay_out();
    for (const auto i : p_.poles) most_ = std::fmax(most_, std::fabs(i.si()));
    most_ = std::fmax(most_, p_.fault.si());
    earth();
    equipment();
    for (const auto& b : boxes_) box(b);
    input_devices();
    fault();
    words();
    Page page;
    page.width = page_width;
    page.height = page_height;
    page.title = row_.event.id;
    page.scale.text = "none";
    page.shapes = c_.take();
    return page;
  }

 private:
  /// A string that has to stand by itself: the fault touches it, it is reversed, or it carries something else.
  std::set<int> special() const {
    std::set<int> found;
    const auto touch = [&](int terminal) {
      if (terminal < 0) return;
      const int device = w_.terminals[terminal].device;
      for (std::size_t k = 0; k < w_.strings.size(); ++k) {
        const auto& x = w_.strings[k];
        const bool own = std::find(x.modules.begin(), x.modules.end(), device) != x.modules.end() ||
                         x.device == device;
        if (own) found.insert(static_cast<int>(k));
      }
    };
    for (const int t : {p_.fault_from, p_.fault_to, p_.gap_one, p_.gap_other}) touch(t);
    std::string place = row_.event.place.substr(0, row_.event.place.find('.'));
    for (std::size_t k = 0; k < w_.strings.size(); ++k) {
      const std::string& id = w_.strings[k].id;
      if (p_.reversed[k] || place == id || place == id + "+" || place == id + "-")
        found.insert(static_cast<int>(k));
    }
    return found;
  }

  void lay_out() {
    const auto own = special();
    std::vector<int> order;
    for (std::size_t b = 0; b < w_.boxes.size(); ++b)
      if (!w_.boxes[b].strings.empty()) order.push_back(static_cast<int>(b));
    double x = margin + 12;
    for (const int b : order) {
      DrawnBox drawn;
      drawn.box = b;
      drawn.left = x;
      for (const int k : w_.boxes[b].strings) {
        const double i = p_.strings[k].si();
        const auto like =
            std::find_if(drawn.columns.begin(), drawn.columns.end(), [&](const Column& o) {
              const double j = p_.strings[o.first()].si();
              return !own.count(o.first()) &&
                     std::fabs(i - j) <= 0.05 * std::fmax(std::fabs(i), std::fabs(j)) + 0.05;
            });
        if (own.count(k) || like == drawn.columns.end())
          drawn.columns.push_back({{k}});
        else
          like->strings.push_back(k);
      }
      for (Column& column : drawn.columns) {
        column.x = x + 8;
        x += column_pitch;
      }
      drawn.way_out = x;
      drawn.right = x + 4;
      x += box_gap;
      boxes_.push_back(std::move(drawn));
    }
    equipment_x_ = std::fmax(std::fmin(x + 14, page_width - margin - 34), page_width - margin - 60);
    recombined_ = std::any_of(boxes_.begin(), boxes_.end(),
                              [&](const DrawnBox& b) { return w_.boxes[b.box].lands_box >= 0; });
  }

  Stroke stroke(units::Current i, bool against) const {
    const double share = most_ > 0 ? std::fabs(i.si()) / most_ : 0;
    return {against ? Ink::copper : Ink::ink, weight::part + 1.9 * share};
  }

  /// A vertical wire with its current: up is from the larger y to the smaller.
  void wire(Point from, Point to, units::Current i, bool against) {
    c_.line(from, to, stroke(i, against));
  }

  void arrow(Point at, double dx, double dy, Ink ink, double line = 0) {
    const double half = 1.5 + line / 2, h = 2 * half;
    const Point tip{at.x + dx * h / 2, at.y + dy * h / 2};
    const Point base{at.x - dx * h / 2, at.y - dy * h / 2};
    c_.polygon(
        {tip, {base.x - dy * half, base.y + dx * half}, {base.x + dy * half, base.y - dx * half}},
        {Ink::paper, 0.3}, ink);
  }

  void flow(Point at, units::Current i, double dx, double dy, bool against,
            bool label_right = true) {
    if (std::fabs(i.si()) < 0.02 * most_) return;
    const double sign = i.si() >= 0 ? 1 : -1;
    arrow(at, sign * dx, sign * dy, against ? Ink::copper : Ink::ink, stroke(i, against).width);
    if (dx != 0)
      c_.text_on_paper({at.x, at.y - 4}, amps(i),
                       {.weight = Weight::semibold, .align = Align::middle});
    else
      c_.text_on_paper(
          {at.x + (label_right ? 4 : -4), at.y + half_capital(size::caption)}, amps(i),
          {.weight = Weight::semibold, .align = label_right ? Align::left : Align::right});
  }

  void device(Point at, const parts::Part* part, bool upright = true) {
    const auto kind = part && part->kind ? *part->kind : parts::PartKind::breaker;
    const auto turned = [&](double along, double across) {
      return upright ? Point{at.x + across, at.y + along} : Point{at.x + along, at.y + across};
    };
    const Stroke pen{Ink::ink, weight::symbol};
    if (kind == parts::PartKind::fuse) {
      const double l = 8, w = 3.2;
      c_.rect(
          upright ? Box{at.x - w / 2, at.y - l / 2, w, l} : Box{at.x - l / 2, at.y - w / 2, l, w},
          pen, Ink::paper);
      c_.line(turned(-l / 2, 0), turned(l / 2, 0), pen);
      return;
    }
    // White where the contacts part; a breaker's arc, a switch's blade.
    c_.rect(upright ? Box{at.x - 2, at.y - 3.4, 4, 6.8} : Box{at.x - 3.4, at.y - 2, 6.8, 4},
            no_stroke(), Ink::paper);
    c_.circle(turned(-3.4, 0), 0.8, pen, Ink::paper);
    c_.circle(turned(3.4, 0), 0.8, pen, Ink::paper);
    if (kind == parts::PartKind::disconnect) {
      c_.line(turned(3.4, 0), turned(-3, 0.4), {Ink::ink, weight::frame});
      return;
    }
    std::vector<Point> arc;
    for (int k = 0; k <= 12; ++k) {
      const double t = 3.14159265358979 * k / 12;
      arc.push_back(turned(-2.9 * std::cos(t), 2.4 * std::sin(t)));
    }
    c_.polyline(arc, {Ink::ink, weight::outline});
  }

  void bus(Point from, Point to, const char* name) {
    c_.line(from, to, {Ink::ink, 1.8});
    letter(c_, {from.x - 7, from.y}, name);
  }

  void earth() {
    c_.line({margin + 10, y_earth}, {equipment_x_ + 26, y_earth},
            {Ink::ground, weight::ground, {3.4, 1.1}});
    const double x = margin + 10;
    c_.line({x, y_earth}, {x, y_earth + 2.6}, {Ink::ink, weight::symbol});
    for (int k = 0; k < 3; ++k)
      c_.line({x - 3 + k, y_earth + 2.6 + k * 1.1}, {x + 3 - k, y_earth + 2.6 + k * 1.1},
              {Ink::ink, weight::symbol});
    c_.text({x + 5, y_earth + 5}, "metal, equipment grounds", {.ink = Ink::soft});
  }

  double y_plus_out() const { return recombined_ ? y_upper : y_bus; }
  double y_minus_out() const { return recombined_ ? y_lower : y_minus; }

  void equipment() {
    const Box b{equipment_x_ + 6, y_plus_out() - 8, 30, y_minus_out() - y_plus_out() + 16};
    c_.rect(b, {Ink::ink, weight::outline}, Ink::paper);
    if (w_.inputs.empty()) return;
    const auto& in = w_.inputs.front();
    double y = b.y + b.h / 2 - 8;
    c_.text({b.centre().x, y}, in.id,
            {.points = size::device, .weight = Weight::semibold, .align = Align::middle});
    const char* load = row_.event.load == events::Load::idle      ? "takes nothing"
                       : row_.event.load == events::Load::working ? "working"
                                                                  : "failed: battery";
    c_.text({b.centre().x, y + 6}, load, {.align = Align::middle, .ink = Ink::soft});
    c_.text({b.x + 2, y_plus_out() + half_capital(size::caption)}, "+", {.weight = Weight::bold});
    c_.text({b.x + 2, y_minus_out() - 1.6}, "−", {.weight = Weight::bold});
    if (s_.bonded()) {
      const double x = b.x + 24;
      c_.polyline({{b.x, y_minus_out()}, {x, y_minus_out()}, {x, y_earth}},
                  {Ink::ink, weight::symbol});
      c_.circle({x, y_earth}, 0.9, no_stroke(), Ink::ink);
      c_.text_on_paper({x - 1, y_minus_out() - 2.2}, "bond", {.align = Align::right});
    }
  }

  /// What the equipment carries stands at its own device.
  void input_devices() {
    const Box b{equipment_x_ + 6, 0, 0, 0};
    for (const auto& pole : s_.poles) {
      if (pole.role != DevicePole::Role::input) continue;
      const bool plus = pole.pole == Pole::plus;
      const double at_y = plus ? y_plus_out() : y_minus_out();
      const units::Current i = p_.poles[static_cast<std::size_t>(&pole - s_.poles.data())];
      const double x = equipment_x_ - 4;
      if (plus) {
        c_.line({boxes_.empty() ? margin : boxes_.back().way_out, at_y}, {b.x, at_y},
                stroke(i, i.si() < 0));
        flow({x - 12, at_y}, i, 1, 0, i.si() < 0);
      }
      device({x, at_y}, w_.part_of(pole.device), false);
      c_.text({x, at_y + 7}, w_.devices[pole.device].label,
              {.weight = Weight::semibold, .align = Align::middle});
    }
  }

  void column(const Column& column) {
    const int k = column.first();
    const auto& string = w_.strings[k];
    const bool reversed = p_.reversed[k];
    // Up through the column: out of the plus end, or into it where it stands on its head.
    const units::Current up = reversed ? -p_.strings[k] : p_.strings[k];
    units::Current through = up;
    bool devices_plus = false, devices_minus = false;
    const parts::Part* part = string.device < 0 ? nullptr : w_.part_of(string.device);
    for (std::size_t n = 0; n < s_.poles.size(); ++n) {
      if (s_.poles[n].device != string.device) continue;
      (s_.poles[n].pole == Pole::plus ? devices_plus : devices_minus) = true;
      if (s_.poles[n].pole == Pole::plus || !devices_plus) through = p_.poles[n];
    }
    const bool against = through.si() < -0.02 * most_;
    const double x = column.x;
    wire({x, y_landing}, {x, y_bus}, through, against);
    wire({x, y_top}, {x, y_landing}, up, up.si() < -0.02 * most_);
    wire({x, y_minus}, {x, y_foot}, up, up.si() < -0.02 * most_);
    // Modules: three at most are drawn.
    const int n = static_cast<int>(string.modules.size());
    const int drawn = std::min(n, 3);
    const double pitch = (y_foot - y_top) / drawn;
    for (int m = 0; m < drawn; ++m) {
      const Box box{x - 5.5, y_top + m * pitch + 0.8, 11, pitch - 1.6};
      c_.rect(box, {Ink::ink, weight::symbol}, Ink::paper);
      const double mid = box.y + box.h / 2;
      const double point = reversed ? -1 : 1;
      c_.polyline({{box.x, mid + point * box.h / 2},
                   {x, mid - point * box.h / 6},
                   {box.right(), mid + point * box.h / 2}},
                  {Ink::ink, weight::part});
    }
    c_.text({x + 7, y_top + 3}, reversed ? "−" : "+", {.weight = Weight::bold});
    c_.text({x + 7, y_foot}, reversed ? "+" : "−", {.weight = Weight::bold});
    if (n > drawn)
      c_.text_on_paper({x, (y_top + y_foot) / 2 + 1.3}, std::to_string(n) + " ×",
                       {.align = Align::middle});
    if (reversed)
      c_.text_on_paper({x, y_minus + 10}, "REVERSED",
                       {.weight = Weight::bold, .align = Align::middle, .ink = Ink::copper});
    if (devices_plus) device({x, y_device}, part);
    if (devices_minus) device({x, y_minus - 8}, part);
    std::vector<std::string> ids;
    for (const int one : column.strings) ids.push_back(w_.strings[one].id);
    std::string label = listed(ids);
    if (measure(label, size::device, Weight::semibold).width > column_pitch - 3)
      label = "the others";
    c_.text_on_paper({x, y_minus + 5.2}, label,
                     {.points = size::device, .weight = Weight::semibold, .align = Align::middle});
    if (column.strings.size() > 1)
      c_.text_on_paper({x, y_minus + 10}, std::to_string(column.strings.size()) + " alike, each",
                       {.align = Align::middle, .ink = Ink::soft});
    if (string.device >= 0) {
      c_.text({x + 4, y_device - 1}, w_.devices[string.device].label, {.weight = Weight::semibold});
      if (part && part->rating)
        c_.text({x + 4, y_device + 3.6}, units::print(*part->rating, 0), {.ink = Ink::soft});
    }
    const bool parted = std::fabs(through.si() - up.si()) > 0.02 * most_;
    if (parted) flow({x, y_bus + 6.5}, through, 0, -1, against);
    flow({x, (y_landing + y_top) / 2}, up, 0, -1, up.si() < -0.02 * most_);
  }

  void box(const DrawnBox& b) {
    const auto& x = w_.boxes[b.box];
    c_.rect({b.left - 8, y_bus - 6, b.way_out - b.left + 6, y_minus - y_bus + 9},
            {Ink::hair, weight::rule});
    c_.text({b.left - 7, y_bus - 8}, x.id, {.points = size::device, .weight = Weight::semibold});
    const units::Current out = x.out_plus < 0 ? units::Current{} : p_.conductors[x.out_plus];
    const units::Current back = x.out_minus < 0 ? units::Current{} : p_.conductors[x.out_minus];
    bus({b.left, y_bus}, {b.way_out - 4, y_bus}, "P");
    bus({b.left, y_minus}, {b.way_out - 4, y_minus}, "N");
    for (const Column& one : b.columns) column(one);
    const double end_x = equipment_x_ + 6;
    if (recombined_) {
      c_.polyline({{b.way_out - 4, y_bus}, {b.way_out, y_bus}, {b.way_out, y_upper}},
                  stroke(out, out.si() < 0));
      c_.polyline({{b.way_out - 4, y_minus}, {b.way_out, y_minus}, {b.way_out, y_lower}},
                  stroke(back, back.si() > 0));
      const bool first = &b == &boxes_.front();
      if (first) {
        c_.line({b.way_out - 6, y_upper}, {end_x, y_upper}, {Ink::ink, 1.4});
        c_.line({b.way_out - 6, y_lower}, {end_x, y_lower}, {Ink::ink, 1.4});
      }
      for (const auto& pole : s_.poles) {
        if (pole.role != DevicePole::Role::feeder || pole.of != b.box) continue;
        const units::Current i = p_.poles[static_cast<std::size_t>(&pole - s_.poles.data())];
        if (pole.pole == Pole::plus) {
          c_.line({b.way_out, y_feeder_end}, {b.way_out, y_upper}, stroke(i, i.si() < 0));
          c_.text({b.way_out + 4, y_feeder - 1}, w_.devices[pole.device].label,
                  {.weight = Weight::semibold});
          if (pole.rating)
            c_.text({b.way_out + 4, y_feeder + 3.6}, units::print(*pole.rating, 0),
                    {.ink = Ink::soft});
          if (std::fabs(i.si() - out.si()) > 0.02 * most_)
            c_.text_on_paper({b.way_out - 4, y_feeder + 1.2}, amps(i) + (i.si() < 0 ? " ↓" : " ↑"),
                             {.weight = Weight::semibold,
                              .align = Align::right,
                              .ink = i.si() < 0 ? Ink::copper : Ink::ink});
        }
        device({b.way_out, pole.pole == Pole::plus ? y_feeder : y_lower - 6},
               w_.part_of(pole.device));
      }
      c_.text_on_paper({b.way_out - 6, y_bus - 2.4}, w_.conductors[x.out_plus].run,
                       {.align = Align::right, .ink = Ink::soft});
      flow({b.way_out, (y_feeder_end + y_bus) / 2}, out, 0, -1, out.si() < 0);
      flow({b.way_out, y_minus + 5.5}, back, 0, -1, back.si() > 0);
    } else {
      const bool drawn_by_input =
          std::any_of(s_.poles.begin(), s_.poles.end(), [](const DevicePole& p) {
            return p.role == DevicePole::Role::input && p.pole == Pole::plus;
          });
      if (!drawn_by_input) {
        c_.line({b.way_out - 4, y_bus}, {end_x, y_bus}, stroke(out, out.si() < 0));
        flow({(b.way_out + end_x) / 2, y_bus}, out, 1, 0, out.si() < 0);
      } else {
        c_.line({b.way_out - 4, y_bus}, {b.way_out, y_bus}, stroke(out, out.si() < 0));
      }
      c_.line({b.way_out - 4, y_minus}, {end_x, y_minus}, stroke(back, back.si() > 0));
      flow({(b.way_out + end_x) / 2, y_minus}, back, 1, 0, back.si() > 0);
    }
  }

  /// Where a terminal is on the sheet; along a bar or metal any place is as good.
  struct Spot {
    Point at;
    bool slides = false;
    double aside = -8.5;  ///< how far beside it a fault is drawn
  };
  std::optional<Spot> place(int terminal) const {
    if (terminal < 0) return std::nullopt;
    const auto& t = w_.terminals[terminal];
    const auto& d = w_.devices[t.device];
    for (const DrawnBox& b : boxes_) {
      for (const Column& column : b.columns) {
        const auto& string = w_.strings[column.first()];
        const int n = static_cast<int>(string.modules.size());
        const auto found = std::find(string.modules.begin(), string.modules.end(), t.device);
        if (found != string.modules.end()) {
          const int k =
              static_cast<int>(found - string.modules.begin()) + (t.pole == Pole::plus ? 1 : 0);
          const double share = static_cast<double>(k) / n;
          const double y = p_.reversed[column.first()] ? y_top + share * (y_foot - y_top)
                                                       : y_foot - share * (y_foot - y_top);
          return Spot{{column.x, k == 0 ? y + 4 : k == n ? y - 4 : y}};
        }
        if (string.device == t.device)
          return Spot{{column.x, t.pole == Pole::plus ? y_landing : y_minus - 4}};
      }
      for (const auto& pole : s_.poles)
        if (pole.role == DevicePole::Role::feeder && pole.of == b.box && pole.device == t.device)
          return Spot{
              {b.way_out, pole.pole == Pole::plus ? y_feeder_end : y_lower - 10}, false, 18};
      const auto& box = w_.boxes[b.box];
      if (t.device == box.bus_plus) return Spot{{b.way_out - 8, y_bus}, true};
      if (t.device == box.bus_minus) return Spot{{b.way_out - 8, y_minus}, true};
      if (t.device == box.bar_ground) return Spot{{b.way_out - 8, y_earth}, true};
    }
    if (t.pole == Pole::ground || d.kind == DeviceKind::rack)
      return Spot{{boxes_.empty() ? 40 : boxes_.front().left - 2, y_earth}, true};
    return Spot{{equipment_x_ - 20, t.pole == Pole::plus ? y_plus_out() : y_minus_out()}, true};
  }

  void bolt(Point p) {
    c_.circle(p, 2.6, {Ink::copper, weight::outline}, Ink::paper);
    c_.polygon({{p.x + 0.5, p.y - 2},
                {p.x - 1.3, p.y + 0.4},
                {p.x - 0.1, p.y + 0.4},
                {p.x - 0.6, p.y + 2},
                {p.x + 1.3, p.y - 0.5},
                {p.x + 0.2, p.y - 0.5}},
               no_stroke(), Ink::copper);
  }

  void fault() {
    const auto from = place(p_.fault_from), to = place(p_.fault_to);
    if (from && to) {
      auto one = from->at, other = to->at;
      const auto *a = &one, *b = &other;
      // What slides moves under the other end, or both stay where they are.
      if (from->slides && !to->slides) one.x = other.x + to->aside;
      if (to->slides && !from->slides) other.x = one.x + from->aside;
      const bool spot = p_.fault_from == p_.fault_to;
      const double x = spot                         ? a->x
                       : from->slides && to->slides ? std::fmin(a->x, b->x)
                       : from->slides != to->slides ? (from->slides ? a->x : b->x)
                                                    : std::fmin(a->x, b->x) - 8.5;
      const double y = (a->y + b->y) / 2;
      if (!spot) {
        const std::vector<Point> path{*a, {x, a->y}, {x, b->y}, *b};
        c_.polyline(path, {Ink::paper, weight::output + 1.6}, 1.5);
        c_.polyline(path, {Ink::copper, weight::output, {2.6, 1.2}}, 1.5);
        for (const Point& end : {*a, *b}) c_.circle(end, 1.1, no_stroke(), Ink::copper);
        if (std::fabs(a->y - b->y) > 16)
          arrow({x, y + (b->y > a->y ? 6.5 : -6.5)}, 0, b->y > a->y ? 1 : -1, Ink::copper,
                weight::output);
      }
      bolt({x, y});
      if (p_.fault.si() > 0.005)
        c_.text_on_paper({from->aside > 0 ? x + 3.6 : x - 3.6, y + half_capital(size::caption)},
                         amps(p_.fault),
                         {.weight = Weight::bold,
                          .align = from->aside > 0 ? Align::left : Align::right,
                          .ink = Ink::copper});
    }
    if (const auto g = place(p_.gap_one); g) {
      c_.rect({g->at.x - 2.4, g->at.y - 1.6, 4.8, 3.2}, no_stroke(), Ink::paper);
      c_.line({g->at.x - 2.4, g->at.y - 1.6}, {g->at.x + 2.4, g->at.y - 1.6},
              {Ink::copper, weight::frame});
      c_.line({g->at.x - 2.4, g->at.y + 1.6}, {g->at.x + 2.4, g->at.y + 1.6},
              {Ink::copper, weight::frame});
      c_.text_on_paper({g->at.x - 4, g->at.y + 1.2},
                       row_.gap_most ? "open, up to " + events::volts(*row_.gap_most)
                       : row_.gap    ? "open, " + events::volts(*row_.gap)
                                     : "open",
                       {.weight = Weight::bold, .align = Align::right, .ink = Ink::copper});
    }
  }

  void words() {
    const double wide = page_width - 2 * margin;
    c_.text({margin, 20}, fit(row_.event.title, wide, size::title, Weight::semibold),
            {.points = size::title, .weight = Weight::semibold});
    c_.text({margin, 26.5},
            row_.event.id + " · " +
                (row_.event.cause == events::Cause::work ? "work error" : "equipment fault") +
                " · " + units::print(p_.sky.sun, 0) + ", cells " + units::print(p_.sky.cell) +
                " · " + w_.job.job.name.value_or(""),
            {.ink = Ink::soft});
    double y = 35;
    const auto mark_of = row_.danger >= events::Danger::silent ? Mark::fail : Mark::caution;
    mark(c_, {margin + 2.4, y - 1.7}, 2.2, mark_of);
    for (const auto& line :
         fit_lines(row_.verdict + ".", wide - 8, 2, size::head, Weight::semibold)) {
      c_.text({margin + 7, y}, line, {.points = size::head, .weight = Weight::semibold});
      y += 5.6;
    }
    double foot = 185;
    std::vector<std::string> notes = row_.notes;
    for (std::size_t k = 0; k < notes.size() && foot < 196; ++k)
      for (const auto& line : fit_lines(notes[k], wide, 2, size::caption)) {
        if (foot > 197) break;
        c_.text({margin, foot}, line, {});
        foot += 4.6;
      }
    c_.text({margin, page_height - 7},
            fit("Arrows: the way current flows; thicker: more of it. Copper: against normal "
                "service, and the fault. Solved, not "
                "measured.",
                wide, size::caption),
            {.ink = Ink::soft});
  }

  const Site& s_;
  const wiring::Wiring& w_;
  const Row& row_;
  const Paths& p_;
  Canvas c_;
  std::vector<DrawnBox> boxes_;
  double equipment_x_ = 240, most_ = 0;
  bool recombined_ = false;
};

/// Steps of 1, 2 or 5 that divide a range into four to nine parts.
double tick(double most) {
  const double raw = most / 6;
  const double power = std::pow(10, std::floor(std::log10(raw)));
  for (const double k : {1.0, 2.0, 5.0, 10.0})
    if (k * power >= raw) return k * power;
  return 10 * power;
}

}  // namespace

Page event_page(const Site& site, const Row& row, const Paths& paths) {
  return Drawing(site, row, paths).page();
}

Page curve_page(const wiring::Wiring& w, const circuit::IvCurve& curve,
                const std::vector<std::string>& kinds, const std::vector<int>& strings,
                const std::vector<CurveMark>& marks, const std::string& title,
                const std::string& under) {
  Canvas c;
  const Box field{30, 40, 220, 140};
  const double v_most = curve.v.empty() ? 1 : std::fmax(curve.v.back().si() * 1.04, 1);
  double i_most = 1;
  for (const auto i : curve.i) i_most = std::fmax(i_most, i.si() * 1.12);
  const auto at = [&](double v, double i) {
    return Point{field.x + v / v_most * field.w, field.bottom() - i / i_most * field.h};
  };
  c.text({14, 20}, fit(title, 269, size::title, Weight::semibold),
         {.points = size::title, .weight = Weight::semibold});
  c.text({14, 27}, under, {.ink = Ink::soft});
  const double dv = tick(v_most), di = tick(i_most);
  for (double v = 0; v <= v_most + 1e-9; v += dv) {
    c.line(at(v, 0), {at(v, 0).x, field.y}, {Ink::hair, weight::fine});
    c.text({at(v, 0).x, field.bottom() + 5}, units::print(units::volts(v), 0),
           {.align = Align::middle});
  }
  for (double i = 0; i <= i_most + 1e-9; i += di) {
    c.line(at(0, i), {field.right(), at(0, i).y}, {Ink::hair, weight::fine});
    c.text({field.x - 2, at(0, i).y + 1.3}, units::print(units::amps(i), di < 1 ? 1 : 0),
           {.align = Align::right});
  }
  c.line(at(0, 0), {field.right(), field.bottom()}, {Ink::ink, weight::symbol});
  c.line(at(0, 0), {field.x, field.y}, {Ink::ink, weight::symbol});
  const auto draw_line = [&](const std::vector<units::Voltage>& v,
                             const std::vector<units::Current>& i, Stroke pen) {
    std::vector<Point> points;
    for (std::size_t k = 0; k < v.size(); ++k)
      if (i[k].si() >= 0 && v[k].si() >= 0 && v[k].si() <= v_most)
        points.push_back(at(v[k].si(), i[k].si()));
    if (points.size() > 1) c.polyline(points, std::move(pen));
  };
  const std::vector<std::vector<double>> dashes{{}, {4, 1.4}, {1.2, 1.2}, {6, 1.2, 1.2, 1.2}};
  for (std::size_t k = 0; k < strings.size(); ++k) {
    const auto& v = curve.string_v[static_cast<std::size_t>(strings[k])];
    const auto& i = curve.string_i[static_cast<std::size_t>(strings[k])];
    draw_line(v, i, {Ink::ink, weight::outline, dashes[(k + 1) % dashes.size()]});
    const double y = 48 + 6 * static_cast<double>(k + 1);
    c.line({254, y}, {264, y}, {Ink::ink, weight::outline, dashes[(k + 1) % dashes.size()]});
    c.text({266, y + 1.3}, fit(kinds[k], 28, size::caption), {});
  }
  draw_line(curve.v, curve.i, {Ink::copper, 1.2});
  c.line({254, 48}, {264, 48}, {Ink::copper, 1.2});
  c.text({266, 49.3}, "together", {.weight = Weight::semibold});
  for (const auto& m : marks) {
    const Point p = at(m.v.si(), m.i.si());
    c.circle(p, 1.6, {Ink::ink, weight::symbol}, Ink::paper);
    const bool far = p.x > field.x + 0.6 * field.w;
    const bool right = far && m.i.si() >= 0.1 * i_most;  // written to the left, below the curve
    c.text_on_paper({p.x + (right ? -3 : 3), p.y + (right ? 8 : -2.4)},
                    m.label + ", " + units::print(m.v, 1) + ", " + events::amps(m.i),
                    {.align = right ? Align::right : Align::left});
  }
  c.text({14, 203},
         fit("A string's curve is drawn at its landing. " + wiring::counts_line(w) +
                 ". Solved, not measured.",
             269, size::caption),
         {.ink = Ink::soft});
  Page page;
  page.width = page_width;
  page.height = page_height;
  page.title = title;
  page.shapes = c.take();
  return page;
}

}  // namespace stringwright::sheets
