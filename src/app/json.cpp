#include "app/json.hpp"

#include <nlohmann/json.hpp>

namespace stringwright::app {
namespace {

// ordered_json keeps the keys as written here: same evaluation, same bytes.
using json = nlohmann::ordered_json;

std::string text_of(const json& j) {
  // Invalid UTF-8 of a file name or a text is replaced, never an exception.
  return j.dump(2, ' ', false, json::error_handler_t::replace) + "\n";
}

json span(const Span& s) {
  if (!s.known()) return nullptr;
  return {{"line", s.line},
          {"column", s.column},
          {"end_line", s.end_line},
          {"end_column", s.end_column}};
}

std::string_view severity(Severity s) {
  return s == Severity::error ? "error" : s == Severity::question ? "question" : "note";
}

json diagnostics(const Evaluation& e) {
  json all = json::array();
  for (const auto& d : e.diagnostics)
    all.push_back({{"severity", severity(d.severity)},
                   {"id", d.id},
                   {"message", d.message},
                   {"help", d.help},
                   {"file", d.file},
                   {"at", span(d.span)}});
  return all;
}

/// A quantity whose unit is known only at run time says its unit beside the number.
json quantity(const units::AnyQuantity& q) {
  return {{"number", units::shown_number(q)},
          {"unit", units::shown(q).unit},
          {"printed", units::print(q)}};
}

std::string_view kind(trail::Step::Kind k) {
  using Kind = trail::Step::Kind;
  switch (k) {
    case Kind::given:
      return "given";
    case Kind::factor:
      return "factor";
    case Kind::table:
      return "table";
    case Kind::let:
      return "let";
    case Kind::require:
      return "require";
    case Kind::note:
      return "note";
  }
  return "note";
}

json step(const trail::Step& s) {
  json j = {{"kind", kind(s.kind)},    {"words", s.words},
            {"symbol", s.symbol},      {"formula", s.formula},
            {"numbers", s.numbers},    {"value", s.value ? quantity(*s.value) : json(nullptr)},
            {"cite", s.source.cite},   {"status", s.source.status},
            {"text", trail::render(s)}};
  if (s.kind == trail::Step::Kind::require) j["holds"] = s.holds ? json(*s.holds) : json(nullptr);
  return j;
}

json margin(const trail::Margin& m) {
  json points = json::array();
  for (const auto& p : m.points) {
    using Mark = trail::Margin::Mark;
    const char* mark = p.mark == Mark::chosen   ? "chosen"
                       : p.mark == Mark::other  ? "other"
                       : p.mark == Mark::record ? "record"
                                                : "refused";
    points.push_back({{"at", quantity(p.at)}, {"label", p.label}, {"mark", mark}});
  }
  return {{"limit", quantity(m.limit)},
          {"label", m.limit_label},
          {"forbidden_above", m.forbidden_above},
          {"points", points}};
}

json finding(const check::Finding& f, const Flips* flips = nullptr) {
  json trail = json::array();
  for (const auto& s : f.trail.steps()) trail.push_back(step(s));
  json waived = nullptr;
  if (f.waived)
    waived = {{"reason", f.waived->reason.value_or("")},
              {"by", f.waived->by.value_or("")},
              {"date", f.waived->date.value_or("")}};
  json j = {{"id", f.id},
            {"rule", f.rule},
            {"thing", f.thing},
            {"title", f.title},
            {"verdict", trail::key(f.outcome.verdict)},
            {"waived", waived},
            {"so", f.outcome.so},
            {"also", f.outcome.also},
            {"margin", f.outcome.margin ? margin(*f.outcome.margin) : json(nullptr)},
            {"at", span(f.span)},
            {"trail", trail}};
  if (flips) {
    json changes = json::array();
    if (const auto known = flips->find(f.id); known != flips->end())
      for (const auto& flip : known->second)
        changes.push_back(
            {{"lever", flip.lever}, {"to", trail::key(flip.to)}, {"sentence", flip.sentence}});
    j["flips"] = changes;
  }
  return j;
}

json tally_of(const check::Report& r) {
  const check::Tally t = check::tally(r);
  return {{"fail", t.fail},
          {"cannot_tell", t.cannot_tell},
          {"caution", t.caution},
          {"on_site", t.on_site},
          {"pass", t.pass},
          {"waived", t.waived},
          {"not_applicable", t.not_applicable},
          {"not_looked_at", t.not_looked_at}};
}

template <class Q, class U>
json in_unit(const std::optional<Q>& q, U unit) {
  return q ? json(q->in(unit)) : json(nullptr);
}

json operating(const Evaluation& e) {
  json all = json::array();
  for (const auto& p : e.operating)
    all.push_back({{"thing", p.thing},
                   {"load", p.load},
                   {"cell_c", p.cell.celsius()},
                   {"sun_w_m2", p.sun.in(units::watts_per_square_metre)},
                   {"v_v", in_unit(p.v, units::volts)},
                   {"i_a", in_unit(p.i, units::amps)},
                   {"p_w", in_unit(p.p, units::watts)},
                   {"lost_w", in_unit(p.lost, units::watts)}});
  return all;
}

}  // namespace

std::string check_json(const Evaluation& e, const Flips* flips) {
  json j = {
      {"kind", "check"}, {"file", e.file}, {"usable", e.usable}, {"diagnostics", diagnostics(e)}};
  if (e.usable) {
    j["job"] = e.wiring.job.job.name.value_or("");
    j["edition"] = e.report.edition;
    const auto n = wiring::count(e.wiring);
    j["counts"] = {{"modules", n.modules},
                   {"strings", n.strings},
                   {"boxes", n.boxes},
                   {"string_devices", n.devices},
                   {"string_wires", n.string_wires},
                   {"output_wires", n.output_wires}};
    j["fine"] = check::fine(e.report);
    j["tally"] = tally_of(e.report);
    j["findings"] = json::array();
    for (const auto& f : e.report.findings) j["findings"].push_back(finding(f, flips));
    j["not_looked_at"] = json::array();
    for (const auto& r : e.report.not_looked_at)
      j["not_looked_at"].push_back({{"id", r.id}, {"title", r.title}});
    j["choices"] = json::array();
    for (const auto& c : e.choices)
      j["choices"].push_back(
          {{"key", c.key}, {"value", c.value}, {"reason", c.reason}, {"at", span(c.span)}});
    j["operating"] = operating(e);
    j["remarks"] = e.remarks;
  }
  return text_of(j);
}

std::string papers_json(const Evaluation& e, const std::string& folder,
                        const std::vector<File>& files) {
  json names = json::array();
  for (const auto& f : files) names.push_back(folder + "/" + f.name);
  const json reply = {{"kind", "papers"},
                      {"file", e.file},
                      {"diagnostics", diagnostics(e)},
                      {"written", names},
                      {"fine", check::fine(e.report)},
                      {"tally", tally_of(e.report)}};
  return text_of(reply);
}

std::string explain_json(const Explanation& x) {
  json cited = json::array();
  for (const auto& c : x.cited)
    cited.push_back({{"edition", c.edition}, {"cite", c.cite}, {"status", c.status}});
  json asked = json::array();
  for (const auto& a : x.asked) {
    json lines = json::array();
    for (const auto& l : a.lines)
      lines.push_back(
          {{"text", l.text}, {"words", l.words}, {"cite", l.cite}, {"status", l.status}});
    asked.push_back({{"editions", a.editions}, {"lines", lines}});
  }
  const json reply = {{"kind", "explain"},
                      {"rule", x.rule},
                      {"title", x.title},
                      {"asks", x.asks},
                      {"aliases", x.aliases},
                      {"cited", cited},
                      {"asked", asked},
                      {"not_asked_in", x.not_asked_in},
                      {"finding", x.finding ? finding(*x.finding) : json(nullptr)}};
  return text_of(reply);
}

std::string new_json(const std::string& path) {
  const json reply = {{"kind", "new"}, {"written", path}};
  return text_of(reply);
}

}  // namespace stringwright::app
