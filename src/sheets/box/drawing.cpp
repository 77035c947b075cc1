#include "sheets/box/drawing.hpp"

#include <algorithm>
#include <array>

#include "base/text.hpp"
#include "sheets/box/layouter.hpp"
#include "sheets/draw/symbols.hpp"
#include "sheets/words.hpp"

namespace stringwright::sheets::box {
namespace {

using namespace draw;

const Stroke part_edge{Ink::ink, draw::weight::part};

/// Ids of the grammar: S1p, S1n, OUTp, OUTn, EGC-ARRAY, EGC-OUT.
std::string wire_group(const View& v, int conductor) {
  const auto& c = v.conductor(conductor);
  if (conductor == v.circuit().rack_bond) return "EGC-ARRAY";
  if (conductor == v.circuit().out_ground) return "EGC-OUT";
  std::string id = c.id;
  id = text::replace_all(std::move(id), "+", "p");
  id = text::replace_all(std::move(id), "-", "n");
  return text::replace_all(std::move(id), "/", "_");
}

void zones(Canvas& c, const Layout& l) {
  for (const auto& z : l.zones) {
    Canvas g;
    switch (z.kind) {
      case Zone::Kind::live:
        g.add(Hatch{z.outline, 2.6, 45, {Ink::copper, 0.28}});
        g.polygon(z.outline, {Ink::copper, draw::weight::outline, {3, 1}});
        c.add(g.group("live-zone", "livezone", "Live whenever there is light"));
        break;
      case Zone::Kind::floating:
        g.add(Hatch{z.outline, 2.6, -45, {Ink::copper, 0.25, {2.4, 1.4}}});
        g.polygon(z.outline, {Ink::copper, 0.45, {3, 1}});
        c.add(g.group("float-zone", "livezone floatzone", "Floats: treat as live"));
        break;
      case Zone::Kind::closed:
        g.add(Hatch{z.outline, 3.6, 45, {Ink::copper, 0.18}});
        g.polygon(z.outline, {Ink::copper, 0.35, {1.2, 1.2}});
        c.add(g.group("closed-zone", "livezone closedzone",
                      "Live once any device closes or a source behind feeds back"));
        break;
    }
  }
}

void zone_words(Canvas& c, const Layout& l) {
  const Type type{.weight = Weight::bold, .ink = Ink::copper, .turn = -90};
  for (const auto& z : l.zones) {
    if (!z.label) continue;
    c.text_on_paper({z.label->x, z.label->y}, z.words, type, 1.2);
    if (z.kind != Zone::Kind::live) continue;
    const double length = measure(z.words, type.points, type.weight).width;
    const double top = z.label->y - length - 11;
    c.rect({z.label->x - 5.2, top - 0.8, 8, 8.4}, no_stroke(), Ink::paper, 0.8);
    live_sign(c, {z.label->x - 1.25, top}, 6.6);
  }
}

/// Words on a device that is wide enough for them: from the top as many as the face has room for.
void face_words(Canvas& c, const View& v, const Layout& l, const Face& f, const Place& p,
                bool fuse) {
  const Box& b = f.box;
  const double x = b.centre().x, top = l.face_top, bottom = l.face_bottom;
  const Type middle{.align = Align::middle};
  const Type name{.points = size::device, .weight = Weight::bold, .align = Align::middle};
  std::vector<std::string> words =
      fuse ? std::vector<std::string>{"empty", "no load"} : rating(v.wiring.part_of(p.device));
  const double most = bottom - top - 4;
  double figure = fuse ? 20 : 16;
  while (!words.empty() && figure + 6 + 5 * static_cast<double>(words.size()) > most) {
    if (figure > 10)
      figure -= 3;
    else
      words.pop_back();
  }
  double y = top + (bottom - top - figure - 6 - 5 * static_cast<double>(words.size())) * 0.4;
  if (fuse) {
    empty_fuse_holder(c, {x, y + figure / 2}, figure);
  } else {
    // Toggle, OFF as landed.
    const double w = std::min(10.0, b.w - 4);
    c.rect({x - w / 2, y, w, figure}, part_edge, Ink::paper, 1);
    c.rect({x - w / 2 + 1.4, y + figure * 0.5, w - 2.8, figure * 0.42}, no_stroke(), Ink::ink, 0.8);
    c.text({x, y + figure * 0.25 + half_capital(size::caption)}, "OFF",
           {.weight = Weight::semibold, .align = Align::middle});
  }
  y += figure + 5.4;
  c.text({x, y}, fit(v.device(p.device).label, b.w - 1, size::device, Weight::bold), name);
  for (const auto& w : words) c.text({x, y += 5}, fit(w, b.w - 1, size::caption), middle);
}

/// @param own  rating, where not all devices of the box are alike; empty else
void narrow_face(Canvas& c, const Layout& l, const Face& f, const Place& p, bool fuse,
                 const std::string& own) {
  const Box& b = f.box;
  const double x = b.centre().x;
  const double lower = l.face_bottom - 1.4;
  c.text({x, lower}, std::to_string(p.number), {.weight = Weight::bold, .align = Align::middle});
  const double bottom = lower - 3.6;
  double top = l.face_top + 1;
  if (!own.empty()) {
    const double length = measure(own, size::caption, Weight::semibold).width;
    c.text({x + half_capital(size::caption), top + length}, own,
           {.weight = Weight::semibold, .turn = -90});
    top += length + 1;
  }
  const Point m{x, (top + bottom) / 2};
  if (fuse) {
    empty_fuse_holder(c, m, bottom - top);
    return;
  }
  const double w = std::min(5.2, b.w - 2), h = bottom - top - 1;
  c.rect({m.x - w / 2, m.y - h / 2, w, h}, part_edge, Ink::paper, 0.8);
  c.rect({m.x - w / 2 + 0.9, m.y + 0.5, w - 1.8, h / 2 - 1.3}, no_stroke(), Ink::ink, 0.6);
}

void devices(Canvas& c, const View& v, const Layout& l) {
  for (const auto& f : l.faces) {
    const Place& p = v.places[static_cast<std::size_t>(f.place)];
    const auto& device = v.device(p.device);
    Canvas g;
    if (p.spare) {
      g.rect(f.box, {Ink::ink, draw::weight::part, {2.2, 1.2}}, Ink::paper, 1);
      const Point m = f.box.centre();
      g.text({m.x + half_capital(size::caption), m.y + f.box.h * 0.08}, "spare",
             {.align = Align::middle, .ink = Ink::soft, .turn = -90});
      c.add(g.group(device.id, "device spare", device.label + " spare"));
      continue;
    }
    const parts::Part* part = v.wiring.part_of(p.device);
    const bool fuse = part && part->kind && *part->kind == parts::PartKind::fuse;
    g.rect(f.box, {Ink::ink, draw::weight::outline}, Ink::paper, 0.8);
    for (const double y : {l.face_top, l.face_bottom})
      g.line({f.box.x, y}, {f.box.right(), y}, {Ink::ink, draw::weight::fine});
    for (std::size_t i = 1; i < f.poles.size(); ++i) {
      const double x = (f.poles[i - 1] + f.poles[i]) / 2;
      g.line({x, l.face_bottom}, {x, f.box.bottom()}, {Ink::ink, draw::weight::fine});
      g.line({x, f.box.y}, {x, l.face_top}, {Ink::ink, draw::weight::fine});
    }
    if (l.small)
      narrow_face(g, l, f, p, fuse, v.one_kind() ? "" : rating(part).front());
    else
      face_words(g, v, l, f, p, fuse);
    c.add(g.group(device.id, "device", device.label));
  }
}

void arrester_face(Canvas& c, const View& v, const Layout& l) {
  if (!l.arrester) return;
  const Box& b = *l.arrester;
  Canvas g;
  g.rect(b, {Ink::ink, draw::weight::outline}, Ink::paper, 0.8);
  const double top = l.load_row + 7.4, bottom = l.line_row - 7.4;
  for (const double y : {top, bottom})
    g.line({b.x, y}, {b.right(), y}, {Ink::ink, draw::weight::fine});
  const double middle = b.centre().x;
  const double figure = std::min(22.0, bottom - top - 7.5);
  const parts::Part* part = v.wiring.part_of(v.arrester);
  const bool volts = part && part->v_dc && bottom - top > figure + 14;
  double y = top + (bottom - top - figure - (volts ? 12 : 6)) * 0.45;
  arrester(g, {middle, y + figure / 2}, figure);
  y += figure + 5;
  g.text({middle, y}, v.device(v.arrester).label,
         {.points = size::device, .weight = Weight::bold, .align = Align::middle});
  if (volts) g.text({middle, y + 5.4}, text::join(rating(part), " · "), {.align = Align::middle});
  c.add(g.group(v.device(v.arrester).id, "device", "Surge arrester"));
}

void metal(Canvas& c, const View& v, const std::vector<Metal>& list, const std::vector<Bar>& bars) {
  for (std::size_t i = list.size(); i-- > 0;) {
    const Metal& m = list[i];
    Canvas g;
    for (const auto& f : m.fingers) {
      const double half = m.finger_width / 2;
      // Over the other bus it passes with a gap: they do not touch.
      if (i == 0 && list.size() > 1)
        g.rect({f.x - half - crossing_gap, list[1].box.y - crossing_gap, 2 * (half + crossing_gap),
                list[1].box.h + 2 * crossing_gap},
               no_stroke(), Ink::paper);
      g.polygon({{f.x - half, m.box.bottom() - 0.2},
                 {f.x - half, m.finger_end},
                 {f.x + half, m.finger_end},
                 {f.x + half, m.box.bottom() - 0.2}},
                part_edge, Ink::metal);
    }
    g.rect(m.box, part_edge, Ink::metal, 0.6);
    const Bar& bar = bars[i];
    const std::string id = bar.pole == wiring::Pole::ground ? "bar-ground"
                           : bar.pole == wiring::Pole::plus ? "bus-positive"
                                                            : "bus-negative";
    c.add(g.group(id, m.fingers.empty() ? "bar" : "bus", v.device(bar.device).id));
  }
}

/// Where the number of a hole stands: beside the screw of a device, on the free side of a bar.
Point number_at(const View& v, const Spot& spot, int device) {
  const Point p = spot.at;
  if (v.device(device).kind == wiring::DeviceKind::protector) {
    // Between two poles there is no room beside the screw.
    const bool several = v.buses.size() > 1;
    if (spot.wire_above) return {p.x + (several ? 0 : 4.6), p.y + (several ? 7.4 : 7)};
    return {p.x + (several ? 0 : 4.6), p.y - (several ? 4.2 : 3.4)};
  }
  if (device == v.arrester)
    return {p.x, spot.wire_above ? p.y + spot.radius + 3.8 : p.y - spot.radius - 1.3};
  double edge = bar_height / 2;
  for (const auto& b : v.buses)
    if (b.device == device) edge = bus_height / 2;
  const bool below = spot.wire_above && !spot.wire_below;
  return {p.x, below ? p.y + edge + 3.9 : p.y - edge - 1.6};
}

/// Screws come after the wires, numbers beside them.
void screws(Canvas& c, const View& v, const Layout& l) {
  for (const auto& [terminal, spot] : l.spots) {
    const int device = v.terminal(terminal).device;
    const bool on_device = v.device(device).kind == wiring::DeviceKind::protector;
    screw(c, spot.at, spot.radius, on_device || !v.on(terminal).empty());
    // A narrow device has its number on its face.
    if (on_device && l.small) continue;
    c.text_on_paper(number_at(v, spot, device), spot.number,
                    {.weight = Weight::semibold, .align = Align::middle}, 0.35);
  }
}

void letters(Canvas& c, const View& v, const Layout& l) {
  for (std::size_t i = 0; i < l.buses.size(); ++i) letter(c, l.buses[i].letter, v.buses[i].letter);
  for (std::size_t i = 0; i < l.bars.size(); ++i) letter(c, l.bars[i].letter, v.bars[i].letter);
  if (l.faces.empty()) return;
  letter(c, l.load_letter, "T");
  letter(c, l.line_letter, "L");
}

void entries(Canvas& c, const Layout& l) {
  int n = 0;
  for (const auto& e : l.entries) {
    Canvas g;
    if (e.kind == Entry::Kind::relief || e.kind == Entry::Kind::ground)
      relief(g, l.wall.bottom(), e.left, e.right, e.plugged);
    else
      hub(g, l.wall.bottom(), e.left, e.right, 6.5);
    const std::string id = e.kind == Entry::Kind::relief   ? "R" + std::to_string(++n)
                           : e.kind == Entry::Kind::ground ? "R-EGC"
                           : e.kind == Entry::Kind::out    ? "HUB"
                                                           : "";
    c.add(g.group(
        id, e.kind == Entry::Kind::relief || e.kind == Entry::Kind::ground ? "relief" : "hub"));
  }
}

void wires(Canvas& c, const View& v, const Layout& l, bool front) {
  for (const auto& p : l.paths) {
    if (p.front != front) continue;
    const auto& conductor = v.conductor(p.conductor);
    c.add(wire(wire_group(v, p.conductor), look(v.wiring, conductor), p.points,
               conductor.tag + " " + wire_words(conductor), conductor.tag));
  }
}

void tags(Canvas& c, const View& v, const Layout& l) {
  for (const auto& p : l.paths)
    for (const auto& t : p.tags)
      c.add(tag(look(v.wiring, v.conductor(p.conductor)).pattern, t.centre,
                v.conductor(p.conductor).tag, t.upright, v.conductor(p.conductor).tag));
}

void captions(Canvas& c, const Layout& l) {
  for (const auto& k : l.captions) {
    const auto lines = fit_lines(k.words, std::max(14.0, k.room), 2, size::caption, Weight::medium);
    c.lines({k.centre, l.foot + 5.4}, lines, 4.7,
            {.weight = Weight::medium, .align = Align::middle});
  }
}

void dimensions(Canvas& c, const View& v, const Layout& l) {
  if (!l.to_scale) {
    std::string words = "NOT TO SCALE";
    if (v.part && v.part->outline && v.part->outline->size() == 2)
      words += ": inside " + text::shortest(v.part->outline->at(0).in(units::millimetres), 4) +
               " × " + text::shortest(v.part->outline->at(1).in(units::millimetres), 4) +
               " mm, the parts are drawn apart";
    else
      words += ": the size of the box is not known";
    c.text({l.wall.x, l.wall.y - 4.6}, words, {.weight = Weight::semibold});
    return;
  }
  const auto size = [&](std::size_t i) {
    return text::shortest(v.part->outline->at(i).in(units::millimetres), 4) + " mm";
  };
  dimension(c, {l.wall.x, l.wall.y - 6}, {l.wall.right(), l.wall.y - 6}, size(0));
  dimension(c, {l.wall.x - 5.6, l.wall.y}, {l.wall.x - 5.6, l.wall.bottom()}, size(1));
}

}  // namespace

void draw_inside(Canvas& c, const View& v, const Layout& l) {
  zones(c, l);
  Canvas wall;
  enclosure(wall, l.wall);
  c.add(wall.group("enclosure"));
  dimensions(c, v, l);
  Canvas rail;
  rail.rect(l.rail, part_edge, Ink::metal);
  for (const double share : {0.16, 0.84})
    rail.line({l.rail.x, l.rail.y + l.rail.h * share},
              {l.rail.right(), l.rail.y + l.rail.h * share}, {Ink::ink, draw::weight::fine});
  c.add(rail.group("rail"));
  devices(c, v, l);
  if (l.small && v.fuses()) {
    // Narrow holders have no room for it on their faces.
    const std::string words = "holders empty, no load";
    const double from = l.faces.back().box.right() + 4;
    const double room = (l.arrester ? l.arrester->x : l.rail.right()) - from - 2;
    if (measure(words, size::caption, Weight::medium).width < room)
      c.text_on_paper({from, l.rail.centre().y + half_capital(size::caption)}, words,
                      {.weight = Weight::medium}, 1);
  }
  arrester_face(c, v, l);
  metal(c, v, l.buses, v.buses);
  metal(c, v, l.bars, v.bars);
  entries(c, l);
  wires(c, v, l, false);
  wires(c, v, l, true);
  screws(c, v, l);
  letters(c, v, l);
  zone_words(c, l);
  tags(c, v, l);
  captions(c, l);
}

void draw_key(Canvas& c, const View& v, const Layout& l, double left, double right, double top) {
  Canvas k;
  k.line({left, top}, {right, top}, {Ink::hair, draw::weight::rule});
  // One sample of each pattern that stands on the sheet.
  constexpr double sample_length = 11;
  const double gap = l.whole_sheet ? 4.4 : 6.5;
  struct Sample {
    Look look;
    std::string words;
  };
  std::vector<Sample> samples;
  for (const auto& w : v.wires) {
    const Look shown = look(v.wiring, v.conductor(w.conductor));
    if (std::any_of(samples.begin(), samples.end(),
                    [&](const Sample& s) { return s.look.pattern == shown.pattern; }))
      continue;
    std::string words;
    const auto& g = v.wiring.job.grounding;
    const bool functional = g.scheme && *g.scheme == job::Scheme::functional && g.pole;
    switch (shown.pattern) {
      case Pattern::plus:
        words = functional && *g.pole == job::Pole::plus ? "plus, functional ground" : "plus";
        break;
      case Pattern::minus:
        words = functional && *g.pole == job::Pole::minus ? "minus, functional ground" : "minus";
        break;
      case Pattern::plus_grounded:
        words = "plus, solidly grounded";
        break;
      case Pattern::minus_grounded:
        words = "minus, solidly grounded";
        break;
      case Pattern::ground:
        words = "equipment ground";
        break;
    }
    samples.push_back({{shown.pattern, false}, words});
  }
  std::sort(samples.begin(), samples.end(),
            [](const Sample& a, const Sample& b) { return a.look.pattern < b.look.pattern; });
  double x = left;
  const double first = top + 4.9, second = l.whole_sheet ? first : top + 10.5;
  for (const auto& s : samples) {
    sample(k, s.look, {x, first}, sample_length);
    x += sample_length + 2.4;
    k.text({x, first + half_capital(size::caption)}, s.words);
    x += measure(s.words, size::caption).width + gap;
  }
  for (const bool used : {true, false}) {
    const std::string words = used ? "in use" : "spare";
    screw(k, {x + 1.7, first}, 1.7, used);
    k.text({x + 5.2, first + half_capital(size::caption)}, words);
    x += 5.2 + measure(words, size::caption).width + gap;
  }
  k.rect({x, first - 1.7, 3.6, 3.4}, no_stroke(), Ink::ink, 0.5);
  k.text({x + 5.4, first + half_capital(size::caption)}, "plugged");

  if (l.whole_sheet)
    x += 5.4 + measure("plugged", size::caption).width + gap;
  else
    x = left;
  const std::array<std::pair<Zone::Kind, const char*>, 3> kinds{
      std::pair{Zone::Kind::live, "live in light"},
      {Zone::Kind::floating, "floats: treat as live"},
      {Zone::Kind::closed, "live once any device closes or a source behind feeds back"}};
  for (const auto& [kind, words] : kinds) {
    if (std::none_of(l.zones.begin(), l.zones.end(),
                     [k = kind](const Zone& z) { return z.kind == k; }))
      continue;
    const std::vector<Point> box{{x, second - 2},
                                 {x + sample_length, second - 2},
                                 {x + sample_length, second + 2},
                                 {x, second + 2}};
    if (kind == Zone::Kind::live) {
      k.add(Hatch{box, 1.7, 45, {Ink::copper, 0.28}});
      k.polygon(box, {Ink::copper, 0.5, {2, 0.8}});
    } else if (kind == Zone::Kind::floating) {
      k.add(Hatch{box, 1.7, -45, {Ink::copper, 0.25, {1.2, 0.7}}});
      k.polygon(box, {Ink::copper, 0.4, {2, 0.8}});
    } else {
      k.add(Hatch{box, 2.6, 45, {Ink::copper, 0.18}});
      k.polygon(box, {Ink::copper, 0.35, {1.2, 1.2}});
    }
    k.text({x + sample_length + 2.4, second + half_capital(size::caption)}, words);
    x += sample_length + 2.4 + measure(words, size::caption).width + gap;
  }
  c.add(k.group("key"));
}

}  // namespace stringwright::sheets::box
