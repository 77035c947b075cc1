#include "app/explain.hpp"

#include <algorithm>
#include <sstream>

#include "base/text.hpp"
#include "codebook/edition.hpp"
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

}  // namespace

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
  Explanation x{std::string(rule->id),      std::string(rule->title), std::string(rule->asks),
                std::string(rule->aliases), citations(*rule),         {}};
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
