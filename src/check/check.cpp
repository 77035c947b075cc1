#include "check/check.hpp"

#include <algorithm>
#include <set>
#include <sstream>

#include "check/event_facts.hpp"
#include "check/labels.hpp"

namespace stringwright::check {
namespace {

/// Flag the fails that the job accepts; a waiver that meets no fail is itself worth a caution.
void apply_waivers(const std::vector<job::Waiver>& waivers, std::vector<Finding>& findings) {
  for (const auto& w : waivers) {
    bool met = false;
    std::string verdict;
    for (auto& f : findings) {
      if (f.id != w.finding.value_or("")) continue;
      verdict = trail::word(f.outcome.verdict);
      if (f.outcome.verdict != trail::Verdict::fail) continue;
      f.waived = w;
      met = true;
    }
    if (met) continue;
    Finding f;
    f.rule = "job.waiver";
    f.thing = w.finding.value_or("");
    f.id = f.rule + "@" + f.thing;
    f.title = "Waiver that waives nothing";
    f.span = w.span;
    f.outcome.verdict = trail::Verdict::caution;
    f.outcome.so = verdict.empty() ? "No finding has the id " + f.thing + "."
                                   : "The finding " + f.thing + " is " + verdict +
                                         "; only a fail can be waived.";
    findings.push_back(std::move(f));
  }
}

std::vector<NotLookedAt> not_looked_at(const codebook::Edition& edition) {
  std::set<std::string> answered;
  for (const auto* rule : codebook::rules_of(edition)) {
    std::istringstream words{std::string(rule->aliases)};
    for (std::string id; words >> id;) answered.insert(id);
  }
  std::vector<NotLookedAt> rest;
  for (const auto& r : codebook::listed_rules(edition))
    if (!answered.count(r.id)) rest.push_back(r);
  return rest;
}

}  // namespace

Finding ask(const codebook::Rule& rule, const Judged& judged, const codebook::Edition& edition) {
  Finding f;
  f.rule = rule.id;
  f.thing = judged.facts.thing;
  f.id = f.rule + "@" + f.thing;
  f.title = rule.title;
  f.span = judged.span;
  f.outcome = rule.check(judged.facts, edition, f.trail);
  return f;
}

Finding not_solved(const std::string& why) {
  Finding f;
  f.rule = "circuit.solved";
  f.thing = "array";
  f.id = f.rule + "@" + f.thing;
  f.title = "Currents and voltages in faults";
  f.outcome.verdict = trail::Verdict::cannot_tell;
  f.outcome.so = "cannot tell: the circuit could not be solved." + (why.empty() ? "" : " " + why);
  f.outcome.also = {"Nothing is said of back-feed, shorts and reversed strings."};
  return f;
}

std::vector<events::Event> events_to_judge(const events::Site& site) {
  auto all = events::catalogue(site);
  std::erase_if(all, [](const events::Event& e) {
    const events::Kind* kind = events::find_kind(e.kind);
    return !kind || !kind->overcurrent;
  });
  return all;
}

Report check(const wiring::Wiring& w, const codebook::Edition& edition, const Events* events) {
  Report r;
  r.edition = edition.name();
  auto all = facts_of(w, edition);
  if (events) add_events(events->site, events->table, all);
  for (const auto* rule : codebook::rules_of(edition))
    for (const auto& judged : all)
      if (rule->applies(judged.facts)) r.findings.push_back(ask(*rule, judged, edition));
  apply_waivers(w.job.waive, r.findings);
  r.not_looked_at = not_looked_at(edition);
  r.labels = labels_due(w, edition);
  return r;
}

Tally tally(const Report& r) {
  Tally t;
  for (const auto& f : r.findings) switch (f.outcome.verdict) {
      case trail::Verdict::pass:
        ++t.pass;
        break;
      case trail::Verdict::caution:
        ++t.caution;
        break;
      case trail::Verdict::fail:
        ++(f.waived ? t.waived : t.fail);
        break;
      case trail::Verdict::cannot_tell:
        ++t.cannot_tell;
        break;
      case trail::Verdict::on_site:
        ++t.on_site;
        break;
      case trail::Verdict::not_applicable:
        ++t.not_applicable;
        break;
    }
  t.not_looked_at = static_cast<int>(r.not_looked_at.size());
  return t;
}

std::string tally_line(const Report& r) {
  const Tally t = tally(r);
  std::string line = std::to_string(t.fail) + " fail · " + std::to_string(t.cannot_tell) +
                     " cannot tell · " + std::to_string(t.caution) + " caution · " +
                     std::to_string(t.on_site) + " to check on site · " + std::to_string(t.pass) +
                     " pass";
  if (t.waived > 0) line += " · " + std::to_string(t.waived) + " waived";
  if (t.not_applicable > 0) line += " · " + std::to_string(t.not_applicable) + " not applicable";
  return line + " · " + std::to_string(t.not_looked_at) + " rules NOT LOOKED AT";
}

bool fine(const Report& r) {
  const Tally t = tally(r);
  return t.fail == 0 && t.cannot_tell == 0;
}

}  // namespace stringwright::check
