#include "sheets/report/block.hpp"

#include <algorithm>
#include <optional>

#include "base/text.hpp"
#include "sheets/report/margin.hpp"
#include "sheets/words.hpp"

namespace stringwright::sheets::report {
namespace {

using namespace draw;
using trail::Step;

constexpr double words_width = 31, formula = Flow::left + 34, result = 146, cite_width = 42;
constexpr double pitch = 5, given_pitch = 4.8;

/// A row of the calculation: what it is, how it is reckoned, what comes out, where it stands.
struct Row {
  std::vector<std::string> words, cite;
  std::vector<std::string> below;  ///< a citation that is too long for its column
  struct Line {
    std::string text;
    Weight weight = Weight::regular;
  };
  std::vector<Line> lines;
  std::string result;         ///< beside the last line
  bool rule = true;           ///< a pale line below
  bool given = false;         ///< stands closer to its neighbours
  bool result_first = false;  ///< the result stands beside the first line
  double height() const {
    const std::size_t n = std::max({words.size(), lines.size(), cite.size(), std::size_t{1}});
    return pitch * static_cast<double>(n + below.size()) +
           (given && !rule ? given_pitch - pitch : 1.3);
  }
};

void add_wrapped(Row& r, const std::string& words, double width, Weight weight = Weight::regular) {
  for (auto& line : wrap(words, width, size::body, weight))
    r.lines.push_back({std::move(line), weight});
}

std::vector<std::string> cite_lines(const trail::Source& s) {
  std::string words = short_cite(s.cite);
  if (s.status == "given") {
    if (words.empty())
      words = "given";
    else if (measure("given: " + words, size::caption).width <= cite_width)
      words = "given: " + words;
  }
  auto lines = words.empty() ? std::vector<std::string>{} : wrap(words, cite_width, size::caption);
  // Who has not seen it in print says so on a line of its own.
  if (s.status == "memory") {
    if (!lines.empty() &&
        measure(lines.back() + ", from memory", size::caption).width <= cite_width)
      lines.back() += ", from memory";
    else
      lines.push_back("from memory");
  } else if (!s.status.empty() && s.status != "given" && s.status != "computed" &&
             !text::starts_with(s.status, "verified")) {
    for (auto& line : wrap(s.status, cite_width, size::caption)) lines.push_back(std::move(line));
  }
  return lines;
}

Row row(const Step& s) {
  Row r;
  const double room = result - formula;
  const auto fits_beside = [&](const Row::Line& line) {
    return measure(line.text, size::body, line.weight).width +
               measure(r.result, 11, Weight::bold).width + 3 <=
           room;
  };
  r.words = s.words.empty() ? std::vector<std::string>{}
                            : wrap(flat(s.words), words_width, size::caption);
  r.cite = cite_lines(s.source);
  r.result = s.printed;
  switch (s.kind) {
    case Step::Kind::given:
      r.given = true;
      add_wrapped(r, flat(s.symbol), room, Weight::medium);
      break;
    case Step::Kind::factor:
      add_wrapped(r, flat(s.symbol), room, Weight::medium);
      break;
    case Step::Kind::table:
      add_wrapped(r, flat(s.symbol) + (s.numbers.empty() ? "" : ":  " + s.numbers), room - 20,
                  Weight::medium);
      break;
    case Step::Kind::let:
      add_wrapped(r, flat(s.symbol) + " = " + flat(s.formula), room, Weight::medium);
      add_wrapped(r, "= " + s.numbers, room);
      break;
    case Step::Kind::require:
      if (r.words.empty()) r.words = {"must hold"};
      add_wrapped(r, flat(s.formula), room, Weight::medium);
      add_wrapped(r, s.numbers, room);
      r.result = !s.holds ? "cannot tell" : *s.holds ? "holds" : "does not hold";
      break;
    case Step::Kind::note:
      r.words = {"note"};
      for (auto& line : wrap(flat(s.words), room, size::body))
        r.lines.push_back({std::move(line), Weight::regular});
      r.result.clear();
      break;
  }
  if (!r.result.empty() && !r.lines.empty() && !fits_beside(r.lines.back())) {
    if (fits_beside(r.lines.front()))
      r.result_first = true;
    else
      r.lines.push_back({"", Weight::regular});
  }
  if (r.cite.size() > 2 && r.cite.size() > r.lines.size()) {
    r.below = wrap(text::join(r.cite, " "), Flow::right - formula, size::caption);
    r.cite.clear();
  }
  return r;
}

/// A row of plain sentences: the first heavier where it is the result.
Row sentences(const std::string& words, const std::vector<std::string>& all, bool first_heavy) {
  Row r;
  r.rule = false;
  r.words = {words};
  for (std::size_t i = 0; i < all.size(); ++i) {
    const Weight weight = i == 0 && first_heavy ? Weight::semibold : Weight::regular;
    for (auto& line : wrap(flat(all[i]), Flow::right - formula, size::body, weight))
      r.lines.push_back({std::move(line), weight});
  }
  return r;
}

void draw_row(Flow& flow, const Row& r) {
  Canvas& c = flow.canvas();
  const double first = flow.y + 4.2;
  c.lines({Flow::left, first}, r.words, pitch, {.ink = Ink::soft});
  double y = first;
  for (const auto& l : r.lines) {
    c.text({formula, y}, l.text, {.points = size::body, .weight = l.weight});
    y += pitch;
  }
  if (!r.result.empty())
    c.text({result, r.result_first ? first : std::max(first, y - pitch)}, r.result,
           {.points = 11, .weight = Weight::bold, .align = Align::right});
  c.lines({Flow::right, first}, r.cite, pitch, {.align = Align::right, .ink = Ink::soft});
  c.lines({formula, flow.y + r.height() - 1.3 - pitch * static_cast<double>(r.below.size()) + 4},
          r.below, pitch, {.ink = Ink::soft});
  flow.y += r.height();
  if (r.rule) c.line({Flow::left, flow.y}, {Flow::right, flow.y}, {Ink::hair, weight::leader});
}

double chip(Canvas& c, Point at, const std::string& words) {
  const double w = std::max(9.5, measure(words, 11, Weight::bold).width + 4);
  c.rect({at.x, at.y - 4.6, w, 6.4}, no_stroke(), Ink::ink, 0.8);
  c.text({at.x + w / 2, at.y}, words,
         {.points = 11, .weight = Weight::bold, .align = Align::middle, .ink = Ink::paper});
  return w;
}

struct Head {
  std::vector<std::string> title, ids;
  double height() const {
    return 4.6 + 5.8 * static_cast<double>(title.size()) + 4.9 * static_cast<double>(ids.size()) +
           1.2;
  }
};

Head head(const Entry& e) {
  Head h;
  h.title = wrap(e.first().title + ": " + e.things(), 112, size::head, Weight::bold);
  h.ids = wrap(e.first().rule + "@" + e.things(), Flow::right - Flow::left - 13, size::caption);
  return h;
}

void draw_head(Flow& flow, const Entry& e, const Head& h, bool again) {
  Canvas& c = flow.canvas();
  c.line({12, flow.y - 2.4}, {198, flow.y - 2.4}, {Ink::ink, 0.5});
  const double y = flow.y + 5.8;
  const double w = chip(c, {Flow::left, y}, "F" + std::to_string(e.number));
  const double x = Flow::left + std::max(13.0, w + 3);
  double end = c.lines({x, y}, h.title, 5.8, {.points = size::head, .weight = Weight::bold});
  Canvas verdict_mark;
  verdict(verdict_mark, {Flow::right, y}, size::head, 2.9, e.mark());
  c.add(verdict_mark.group("F" + std::to_string(e.number) + (again ? "-again" : ""), "verdict"));
  if (again) {
    c.text({x, end - 0.9}, "continued", {.ink = Ink::soft});
    flow.y = end + 1;
    return;
  }
  for (const auto& line : h.ids) {
    c.text({x, end - 0.9}, line, {.ink = Ink::soft}, line);
    end += 4.9;
  }
  flow.y = end - 2.6;
}

/// The same steps for other things: only what came out differently, at most six results.
void draw_variants(Flow& flow, const Entry& e, const Head& h) {
  const auto& own = e.first().trail.steps();
  std::vector<std::size_t> differs;
  for (std::size_t i = 0; i < own.size(); ++i)
    if (own[i].kind != Step::Kind::require && own[i].kind != Step::Kind::note &&
        std::any_of(e.variants.begin(), e.variants.end(), [&](const Entry::Variant& v) {
          return v.findings.front()->trail.steps()[i].printed != own[i].printed;
        }))
      differs.push_back(i);
  // The last ones are what the comparison rests on.
  constexpr std::size_t most = 6;
  if (differs.size() > most) differs.erase(differs.begin(), differs.end() - most);
  const double step = (Flow::right - formula) / most;
  const auto heads = [&] {
    Canvas& c = flow.canvas();
    const double y = flow.y + 4.2;
    c.text({Flow::left, y}, "alike", {.ink = Ink::soft});
    double x = formula + step;
    for (const std::size_t i : differs) {
      c.text({x - 1, y}, fit(flat(own[i].symbol), step - 2, size::body, Weight::medium),
             {.points = size::body, .weight = Weight::medium, .align = Align::right});
      x += step;
    }
    flow.y += pitch + 1.3;
    c.line({Flow::left, flow.y}, {Flow::right, flow.y}, {Ink::ink, weight::rule});
  };
  const auto again = [&] {
    draw_head(flow, e, h, true);
    heads();
  };
  if (flow.room(3 * pitch + 6)) draw_head(flow, e, h, true);
  flow.y += 2;
  heads();
  const auto line = [&](const std::vector<const check::Finding*>& findings) {
    const auto things = wrap(listed(names(findings)), formula - Flow::left + step - 20,
                             size::caption, Weight::semibold);
    // What did not pass says for each thing why.
    const auto why = e.mark() == Mark::pass ? std::vector<std::string>{}
                                            : wrap(flat(findings.front()->outcome.so),
                                                   Flow::right - formula, size::caption);
    const double height = pitch * static_cast<double>(things.size() + why.size()) + 0.8;
    if (flow.room(height)) again();
    Canvas& c = flow.canvas();
    const double y = c.lines({Flow::left, flow.y + 4}, things, pitch, {.weight = Weight::semibold});
    double x = formula + step;
    for (const std::size_t i : differs) {
      c.text({x - 1, flow.y + 4}, findings.front()->trail.steps()[i].printed,
             {.align = Align::right});
      x += step;
    }
    c.lines({formula, y}, why, pitch);
    flow.y += height;
    c.line({Flow::left, flow.y}, {Flow::right, flow.y}, {Ink::hair, weight::leader});
  };
  line(e.findings);
  for (const auto& v : e.variants) line(v.findings);
}

}  // namespace

void draw_finding(Flow& flow, const Entry& e) {
  const check::Finding& f = e.first();
  std::vector<Row> rows;
  for (const auto& s : f.trail.steps()) rows.push_back(row(s));
  for (std::size_t i = 0; i + 1 < rows.size(); ++i)
    rows[i].rule = !(rows[i].given && rows[i + 1].given);
  if (f.outcome.verdict == trail::Verdict::cannot_tell && !f.trail.missing().empty())
    rows.push_back(sentences("not known", {text::join(f.trail.missing(), ", ")}, false));
  std::vector<std::string> so{(e.variants.empty() ? "" : e.own_things() + ": ") + f.outcome.so};
  so.insert(so.end(), f.outcome.also.begin(), f.outcome.also.end());
  rows.push_back(sentences("So", so, true));
  if (f.waived) {
    const auto said = [](const Given<std::string>& g) { return plain(g.value_or("not said")); };
    rows.push_back(sentences(
        "waived",
        {said(f.waived->reason), "By " + said(f.waived->by) + ", " + said(f.waived->date) + "."},
        true));
  }
  std::optional<MarginLine> margin;
  if (f.outcome.margin) margin.emplace(*f.outcome.margin, Flow::left, Flow::right);

  const Head h = head(e);
  double whole = h.height() + 4;
  for (const auto& r : rows) whole += r.height();
  if (margin) whole += margin->height();
  // A finding begins a new page rather than break early on this one.
  const bool keep = whole <= Flow::full() * 0.4 || flow.left_over() < 55;
  if (whole > flow.left_over() && keep)
    flow.room(std::min(whole, Flow::full()));
  else
    flow.room(h.height() + rows.front().height());
  const auto mentions = [&] {
    const std::string number = "F" + std::to_string(e.number);
    const std::size_t dash = flow.bookmark.find(": F");
    flow.bookmark =
        dash == std::string::npos
            ? flow.bookmark + ": " + number
            : flow.bookmark.substr(0, flow.bookmark.find(" to ", dash)) + " to " + number;
  };
  const auto fresh = [&] {
    const std::size_t colon = flow.bookmark.find(": F");
    if (colon != std::string::npos) flow.bookmark = flow.bookmark.substr(0, colon);
  };
  if (flow.left_over() > Flow::full() - 0.1) fresh();
  mentions();
  draw_head(flow, e, h, false);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    // The margin line stays with the last sentences.
    const bool last = i + 1 == rows.size();
    const double need = rows[i].height() + (last && margin ? margin->height() : 0);
    if (flow.room(need)) {
      fresh();
      mentions();
      draw_head(flow, e, h, true);
    }
    draw_row(flow, rows[i]);
  }
  if (margin) {
    margin->draw(flow.canvas(), flow.y);
    flow.y += margin->height();
  }
  if (!e.variants.empty()) draw_variants(flow, e, h);
  flow.y += 4;
}

}  // namespace stringwright::sheets::report
