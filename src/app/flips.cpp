#include "app/flips.hpp"

#include "check/facts.hpp"
#include "codebook/rule.hpp"

namespace stringwright::app {

std::map<std::string, std::vector<check::Flip>> flips_of(const Evaluation& e,
                                                         const std::set<std::string>* only) {
  std::map<std::string, std::vector<check::Flip>> all;
  const auto edition = codebook::Edition::open(e.wiring.job.job.edition.value_or(""));
  if (!e.usable || !edition) return all;
  std::map<std::string, const check::Judged*> facts;
  const auto judged = check::facts_of(e.wiring, *edition);
  for (const auto& rule : codebook::rules_of(*edition))
    for (const auto& j : judged)
      if (rule->applies(j.facts)) facts[std::string(rule->id) + "@" + j.facts.thing] = &j;
  // Like things have like answers: strings of one make-up differ in their names only.
  std::map<std::string, std::vector<check::Flip>> known;
  for (const auto& f : e.report.findings) {
    const auto* rule = codebook::find_rule(f.rule);
    const auto j = facts.find(f.id);
    if (!rule || j == facts.end() || (only && !only->count(f.id))) continue;
    const std::string like = f.rule + "\n" + trail::render(f.trail) + f.outcome.so;
    const auto before = known.find(like);
    if (before != known.end()) {
      if (!before->second.empty()) all[f.id] = before->second;
      continue;
    }
    auto flips = check::flips(*rule, j->second->facts, *edition);
    // Without the events of the report the rule may say something else: then nothing is said of it.
    trail::Trail aside;
    if (rule->check(j->second->facts, *edition, aside).verdict != f.outcome.verdict) flips.clear();
    known[like] = flips;
    if (!flips.empty()) all[f.id] = std::move(flips);
  }
  return all;
}

std::vector<check::Saving> savings_of(const Evaluation& e) {
  std::vector<check::Saving> all;
  const auto edition = codebook::Edition::open(e.wiring.job.job.edition.value_or(""));
  if (!e.usable || !edition) return all;
  for (const auto& j : check::facts_of(e.wiring, *edition))
    for (auto& s : check::savings(j, *edition)) all.push_back(std::move(s));
  return all;
}

}  // namespace stringwright::app
