#include <algorithm>

#include "base/text.hpp"
#include "sheets/report/block.hpp"
#include "sheets/report/findings.hpp"
#include "sheets/report/flow.hpp"
#include "sheets/report/labels.hpp"
#include "sheets/sheet.hpp"
#include "sheets/words.hpp"

/// The calculation report: first what has to be read, then what nobody looked at, then every
/// calculation.
namespace stringwright::sheets {
namespace {

using namespace draw;
using report::Entry;
using report::Flow;

constexpr double pitch = 5;

void heading(Flow& flow, const std::string& words, double need) {
  flow.room(need + 9);
  flow.canvas().text({Flow::left, flow.y + 6.4}, words,
                     {.points = size::head, .weight = Weight::bold});
  flow.y += 9.4;
}

void paragraph(Flow& flow, const std::string& words, const Type& type = {}) {
  for (const auto& line : wrap(words, Flow::right - Flow::left, type.points, type.weight)) {
    flow.room(pitch);
    flow.canvas().text({Flow::left, flow.y + 3.8}, line, type);
    flow.y += pitch;
  }
}

/// Seven counts side by side, the gap among them as large as the rest.
void tally_band(Flow& flow, const check::Report& r) {
  const check::Tally t = check::tally(r);
  struct Cell {
    int count;
    std::string word;
    Mark mark;
  };
  std::vector<Cell> cells{{t.fail, "fail", Mark::fail},
                          {t.cannot_tell, "cannot tell", Mark::cannot_tell},
                          {t.waived, "waived", Mark::waived},
                          {t.caution, "caution", Mark::caution},
                          {t.on_site, "on site", Mark::on_site},
                          {t.pass, "pass", Mark::pass},
                          {t.not_applicable, "not applicable", Mark::not_applicable}};
  Canvas c;
  // What is left over by the words is shared.
  double need = 0;
  const auto least = [](const Cell& cell) {
    const double number =
        8.4 + measure(std::to_string(cell.count), size::report, Weight::bold).width;
    return std::max({17.0, number, measure(cell.word, size::caption).width});
  };
  for (const auto& cell : cells) need += least(cell);
  const double gap = (Flow::right - Flow::left - 38 - need) / static_cast<double>(cells.size());
  const double top = flow.y + 3, bottom = top + 17;
  double x = Flow::left;
  for (std::size_t i = 0; i < cells.size(); ++i, x += least(cells[i - 1]) + gap) {
    if (i > 0) c.line({x - gap / 2, top}, {x - gap / 2, bottom}, {Ink::hair, weight::rule});
    mark(c, {x + 3.2, top + 4.6}, 2.6, cells[i].mark);
    c.text({x + 8.4, top + 7.4}, std::to_string(cells[i].count),
           {.points = size::report, .weight = Weight::bold});
    c.text({x + 0.6, top + 14.4}, cells[i].word);
  }
  x = Flow::right - 36;
  c.rect({x, top - 0.6, 36, 18.4}, {Ink::ink, weight::frame}, Ink::paper);
  c.text({x + 3, top + 7.4}, std::to_string(t.not_looked_at),
         {.points = size::report, .weight = Weight::bold});
  c.text({x + 3, top + 14.4}, "NOT LOOKED AT", {.weight = Weight::bold});
  flow.canvas().add(c.group("tally"));
  flow.y = bottom + 4;
}

/// Mark, number, title with all its things, verdict: the line of a finding in a list.
void list_line(Flow& flow, const Entry& e, Weight weight) {
  const double indent = 22, verdict_room = 40;
  const auto title = wrap(e.first().title + ": " + e.things(),
                          Flow::right - Flow::left - indent - verdict_room, size::caption, weight);
  flow.room(pitch * static_cast<double>(title.size()) + 0.8);
  Canvas c;
  const double y = flow.y + 4.2;
  mark(c, {Flow::left + 2.4, y - 1.3}, 1.9, e.mark());
  c.text({Flow::left + 8, y}, "F" + std::to_string(e.number), {.weight = Weight::bold});
  verdict_word(c, {Flow::right, y}, size::caption, e.mark());
  c.lines({Flow::left + indent, y}, title, pitch, {.weight = weight});
  flow.canvas().add(c.group({}, "finding-line"));
  flow.y += pitch * static_cast<double>(title.size()) + 0.6;
}

void rule_off(Flow& flow) {
  flow.canvas().line({Flow::left, flow.y}, {Flow::right, flow.y}, {Ink::hair, weight::leader});
}

/// A finding that has to be read, with what follows from it for each thing, and what else it says.
void open_point(Flow& flow, const Entry& e) {
  const auto& f = e.first();
  std::vector<std::string> sentences;
  const auto say = [&](const std::string& sentence) {
    if (std::find(sentences.begin(), sentences.end(), sentence) == sentences.end())
      sentences.push_back(sentence);
  };
  const auto so = [&](const std::vector<const check::Finding*>& findings) {
    const std::string things = e.variants.empty() ? "" : listed(report::names(findings)) + ": ";
    say(report::flat(things + findings.front()->outcome.so));
  };
  so(e.findings);
  for (const auto& v : e.variants) so(v.findings);
  for (const auto& also : f.outcome.also) say(report::flat(also));
  if (f.waived)
    say("Waived: " + plain(f.waived->reason.value_or("no reason given")) + " (" +
        plain(f.waived->by.value_or("no name")) + ", " + plain(f.waived->date.value_or("no date")) +
        ")");

  flow.room(3 * pitch);
  list_line(flow, e, Weight::semibold);
  for (const auto& sentence : sentences)
    for (const auto& line : wrap(sentence, Flow::right - Flow::left - 22, size::caption)) {
      flow.room(pitch);
      flow.canvas().text({Flow::left + 22, flow.y + 4.2}, line);
      flow.y += pitch;
    }
  flow.y += 1;
  rule_off(flow);
}

void summary(Flow& flow, const Material& m, const std::vector<Entry>& all) {
  flow.page("What was judged, what was not, and where this report ends.",
            "Calculation report, summary");
  tally_band(flow, m.report);
  const check::Tally t = check::tally(m.report);
  paragraph(flow,
            std::to_string(t.not_looked_at) +
                " rules of the list were not looked at; they follow by name. Passes do not make "
                "up for them.",
            {.weight = Weight::medium});
  flow.y += 2;

  const auto open = report::open_points(all);
  heading(flow, open.empty() ? "No fail, no open question, no caution" : "To be read first", 14);
  for (const Entry* e : open) open_point(flow, *e);
  flow.y += 2;

  if (const auto site = report::site_points(all); !site.empty()) {
    heading(flow, "To be checked on site", 14);
    paragraph(flow, "Demands on workmanship that no drawing can show. None of them is a pass.");
    flow.y += 1;
    for (const Entry* e : site) open_point(flow, *e);
    flow.y += 2;
  }

  heading(flow, "Where this report ends", 30);
  paragraph(flow,
            "The border is the equipment's PV input: the modules, the strings, the boxes, the runs "
            "and the device at the input are "
            "in. A battery behind the equipment counts as a source, no more.");
  flow.y += 1;
  paragraph(flow,
            "Not in it: the circuit between equipment and battery, the battery bank, the a.c. "
            "side, wind and snow loads, the "
            "structure. What is not known ends as CANNOT TELL, never as a pass.");
  flow.y += 1;
  const report::Cites n = report::cites(m.report);
  if (n.from_memory > 0)
    paragraph(flow, std::to_string(n.from_memory) + " of " + std::to_string(n.all) +
                        " citations are marked \u201cfrom memory\u201d: nobody has yet compared "
                        "them with the printed code.");
  for (const auto& r : m.remarks) {
    flow.y += 1;
    paragraph(flow, plain(r));
  }
}

void operating_points(Flow& flow, const Material& m) {
  if (m.operating.empty()) return;
  flow.y += 2;
  heading(flow, "Operating points", 20);
  Canvas& c = flow.canvas();
  const Type soft{.ink = Ink::soft}, right{.align = Align::right},
      head{.align = Align::right, .ink = Ink::soft};
  const double condition = Flow::left + 30, volts = Flow::right - 46, amps = Flow::right - 23,
               watts = Flow::right;
  c.text({Flow::left, flow.y + 3.8}, "Where", soft);
  c.text({condition, flow.y + 3.8}, "Load and sky", soft);
  c.text({volts, flow.y + 3.8}, "V", head);
  c.text({amps, flow.y + 3.8}, "A", head);
  c.text({watts, flow.y + 3.8}, "W", head);
  c.line({Flow::left, flow.y + 5.6}, {Flow::right, flow.y + 5.6}, {Ink::ink, weight::rule});
  flow.y += 6;
  for (const auto& o : m.operating) {
    flow.room(6);
    Canvas& page = flow.canvas();
    const double y = flow.y + 4.2;
    page.text({Flow::left, y}, fit(o.thing, 28, size::caption, Weight::semibold),
              {.weight = Weight::semibold});
    page.text({condition, y}, fit(o.condition, volts - 18 - condition, size::caption));
    page.text({volts, y}, o.volts, right);
    page.text({amps, y}, o.amps, right);
    page.text({watts, y}, o.watts, right);
    flow.y += 5.8;
    page.line({Flow::left, flow.y}, {Flow::right, flow.y}, {Ink::hair, weight::leader});
  }
}

/// Every finding in one line, so that a reader sees that none is left out.
void index(Flow& flow, const std::vector<Entry>& all) {
  flow.y += 2;
  heading(flow, "All findings", 14);
  for (const auto& e : all) {
    list_line(flow, e, Weight::regular);
    rule_off(flow);
  }
}

/// Two columns of rule ids and titles, over as many pages as it takes.
void not_looked_at(Flow& flow, const check::Report& r) {
  if (r.not_looked_at.empty()) return;
  // Behind the findings where there is room, so that nobody takes them for all.
  const bool same_page = flow.left_over() > 60;
  if (same_page)
    flow.y += 2;
  else
    flow.page("Rules of the list that no built rule answers.", "Calculation report");
  flow.bookmark += ", rules NOT LOOKED AT";
  const std::size_t count = r.not_looked_at.size();
  heading(flow,
          std::to_string(count) + (count == 1 ? " rule NOT LOOKED AT" : " rules NOT LOOKED AT"),
          20);
  const double column = (Flow::right - Flow::left - 6) / 2;
  struct Item {
    std::string id;
    std::vector<std::string> lines;
    double height() const { return 4.7 * static_cast<double>(lines.size()) + 0.7; }
  };
  std::vector<Item> items;
  for (const auto& n : r.not_looked_at) {
    items.push_back({n.id, wrap(n.title, column - 12, size::caption)});
  }
  std::size_t i = 0;
  while (i < items.size()) {
    const double top = flow.y, room = flow.left_over();
    // The last page shares what is left between its columns.
    double left = 0;
    for (std::size_t k = i; k < items.size(); ++k) left += items[k].height();
    const double depth = std::min(room, left / 2 + 6);
    double lowest = top;
    for (int side = 0; side < 2 && i < items.size(); ++side) {
      double y = top;
      while (i < items.size() && y + items[i].height() <= top + (side == 0 ? depth : room) + 1e-6) {
        const double x = Flow::left + side * (column + 6);
        flow.canvas().text({x, y + 3.6}, items[i].id, {.weight = Weight::semibold}, items[i].id);
        flow.canvas().lines({x + 12, y + 3.6}, items[i].lines, 4.7);
        y += items[i].height();
        ++i;
      }
      lowest = std::max(lowest, y);
    }
    flow.y = lowest;
    if (i < items.size()) flow.room(Flow::full());
  }
}

std::vector<Paper> make(const Material& m) {
  const std::string title = report::code_title(m.report);
  Flow flow("Calculation report", m.report.edition,
            title.empty() ? "edition of this report" : "places of " + title);
  const auto all = report::entries(m.report);
  summary(flow, m, all);
  operating_points(flow, m);
  index(flow, all);
  not_looked_at(flow, m.report);
  report::labels_due(flow, m.report);
  if (!all.empty()) {
    flow.page("Each line: words, formula, numbers, result, place in the code.", "Calculations");
    for (const auto& e : all) report::draw_finding(flow, e);
  }
  Paper paper{"report", "Calculation report", flow.take()};
  return {paper};
}

}  // namespace

extern const Sheet report_sheet{"report", "Calculation report", make};

}  // namespace stringwright::sheets
