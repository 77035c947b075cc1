#include "app/explain.hpp"

#include <algorithm>
#include <sstream>

#include "base/text.hpp"
#include "codebook/edition.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"
#include "events/event.hpp"

namespace stringwright::app {
namespace {

Failure unknown(std::string_view id, const std::vector<std::string>& known,
                const std::string& what) {
  std::string message = "no " + what + " has the id '" + std::string(id) + "'";
  if (const auto near = text::nearest(id, known)) {
    message += "; did you mean '" + *near + "'?";
  } else {
    message += "; there are: " + text::join(known, ", ");
  }
  return {"app.unknown-id", message};
}

std::vector<Explanation::Cited> citations(const codebook::Rule& rule) {
  std::vector<Explanation::Cited> all;
  for (const auto& id : codebook::Edition::offered()) {
    const auto edition = codebook::Edition::open(id);
    if (!edition || !codebook::asked_in(rule, *edition)) continue;
    std::istringstream keys{std::string(rule.cites)};
    for (std::string key; keys >> key;) {
      const auto source = edition->cite(key);
      const Explanation::Cited cited{std::string(edition->name()), source.cite, source.status};
      const auto same = [&](const auto& c) {
        return c.edition == cited.edition && c.cite == cited.cite;
      };
      if (!source.cite.empty() && std::none_of(all.begin(), all.end(), same)) all.push_back(cited);
    }
  }
  return all;
}

/// The same formulas and factors, wherever they stand.
bool alike(const std::vector<codebook::AskedLine>& x, const std::vector<codebook::AskedLine>& y) {
  return std::equal(x.begin(), x.end(), y.begin(), y.end(),
                    [](const auto& a, const auto& b) { return a.text == b.text; });
}

void add_asked(const codebook::Rule& rule, Explanation& x) {
  auto ids = codebook::Edition::offered();
  std::reverse(ids.begin(), ids.end());
  for (const auto& id : ids) {
    const auto edition = codebook::Edition::open(id);
    if (!codebook::asked_in(rule, *edition)) {
      x.not_asked_in.insert(x.not_asked_in.begin(), std::string(edition->name()));
      continue;
    }
    auto lines = codebook::asked_lines(rule, *edition);
    if (lines.empty()) continue;
    const auto same = std::find_if(x.asked.begin(), x.asked.end(), [&](const auto& a) {
      return a.editions.front().substr(0, 3) == edition->name().substr(0, 3) &&
             alike(a.lines, lines);
    });
    if (same == x.asked.end())
      x.asked.push_back({{std::string(edition->name())}, std::move(lines)});
    else
      same->editions.push_back(std::string(edition->name()));
  }
}

}  // namespace

std::string editions_named(std::vector<std::string> names) {
  std::sort(names.begin(), names.end());
  for (std::size_t i = 1; i < names.size(); ++i)
    if (text::starts_with(names[0], "NEC ") && text::starts_with(names[i], "NEC "))
      names[i].erase(0, 4);
  return codebook::words::list(names);
}

Result<Explanation> explain(std::string_view id, const Evaluation* e) {
  const std::size_t at_sign = id.find('@');
  const std::string_view rule_id = id.substr(0, at_sign);
  const codebook::Rule* rule = codebook::find_rule(rule_id);
  if (!rule) {
    for (const auto& listed : codebook::listed_rules()) {
      if (listed.id != rule_id) continue;
      for (const auto* r : codebook::all_rules()) {
        std::istringstream words{std::string(r->aliases)};
        for (std::string word; words >> word;)
          if (word == listed.id) return explain(r->id, e);
      }
      return Failure{"app.not-looked-at", listed.id + " (" + listed.title +
                                              ") is NOT LOOKED AT: no rule for it is built yet"};
    }
    if (events::find_kind(rule_id))
      return Failure{"app.an-event", "'" + std::string(id) +
                                         "' is an event: stringwright events JOB --event " +
                                         std::string(id)};
    std::vector<std::string> known;
    for (const auto* r : codebook::all_rules()) known.emplace_back(r->id);
    return unknown(rule_id, known, "rule");
  }
  Explanation x{std::string(rule->id),
                std::string(rule->title),
                std::string(rule->asks),
                std::string(rule->aliases),
                citations(*rule),
                {},
                {},
                {}};
  add_asked(*rule, x);
  if (at_sign == std::string_view::npos) return x;
  if (!e)
    return Failure{"app.needs-job",
                   "a finding belongs to a job: write explain " + std::string(id) + " JOB"};
  std::vector<std::string> known;
  for (const auto& f : e->report.findings) {
    known.push_back(f.id);
    if (f.id == id) x.finding = f;
  }
  if (!x.finding) return unknown(id, known, "finding");
  return x;
}

}  // namespace stringwright::app
