#include "app/compare.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <utility>

#include "app/explain.hpp"
#include "app/flips.hpp"
#include "base/order.hpp"
#include "base/text.hpp"
#include "codebook/methods/words.hpp"
#include "codebook/rule.hpp"

namespace stringwright::app {
namespace {

using trail::Verdict;

/// What one edition says of one finding; empty where it does not ask.
struct Said {
  std::optional<Verdict> verdict;
  std::string so;
  bool waived = false;
  friend bool operator==(const Said&, const Said&) = default;
};

/// The comparison alone, without "passes with ... to spare": "13.92 A < 14.5 A".
std::string figures(std::string so) {
  for (const auto* tail : {": passes", ": fails", ": within", ": above"})
    if (const auto at = so.rfind(tail); at != std::string::npos) so.resize(at);
  if (text::starts_with(so, "cannot tell: ")) so = so.substr(13);
  while (!so.empty() && so.back() == '.') so.pop_back();
  return so;
}

std::string verb(const Said& s) {
  if (!s.verdict) return "is not asked";
  if (s.waived) return "fails, waived,";
  switch (*s.verdict) {
    case Verdict::pass:
      return "passes";
    case Verdict::fail:
      return "fails";
    case Verdict::caution:
      return "is a caution";
    case Verdict::cannot_tell:
      return "cannot be told";
    case Verdict::on_site:
      return "is to be checked on site";
    case Verdict::not_applicable:
      return "does not apply";
  }
  return "?";
}

struct Told {
  Evaluation e;
  std::string name;
  std::map<std::string, const check::Finding*> findings;
  std::map<std::string, std::vector<check::Flip>> flips;
  std::vector<check::Saving> savings;
};

std::string sentence_of(const std::string& title, const std::vector<Told>& all,
                        const std::vector<Said>& said) {
  // One verdict in all of them is said once; the figures follow.
  const bool one = std::all_of(said.begin(), said.end(), [&](const Said& s) {
    return s.verdict == said[0].verdict && s.waived == said[0].waived;
  });
  std::vector<std::string> parts;
  std::vector<bool> done(all.size(), false);
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (done[i]) continue;
    std::vector<std::string> names;
    for (std::size_t k = i; k < all.size(); ++k) {
      if (!(said[k] == said[i])) continue;
      done[k] = true;
      names.push_back(all[k].name);
    }
    const std::string numbers = figures(said[i].so);
    if (one) {
      parts.push_back(numbers + " in " + editions_named(names));
      continue;
    }
    parts.push_back(verb(said[i]) + " in " + editions_named(names) +
                    (said[i].verdict && !numbers.empty() ? " (" + numbers + ")" : ""));
  }
  return title + (one ? " " + verb(said[0]) + " in all: " : ": ") + codebook::words::list(parts) +
         ".";
}

/// The cheapest mend in each edition where the finding is not a pass, like ones together.
std::vector<std::string> mends(const std::string& id, const std::vector<Told>& all,
                               const std::vector<Said>& said) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_sentence;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (said[i].verdict != Verdict::fail && said[i].verdict != Verdict::caution) continue;
    const auto flips = all[i].flips.find(id);
    if (flips == all[i].flips.end()) continue;
    const auto best = std::find_if(flips->second.begin(), flips->second.end(), [&](const auto& f) {
      return f.to == Verdict::pass ||
             (f.to == Verdict::caution && said[i].verdict == Verdict::fail);
    });
    if (best == flips->second.end()) continue;
    const auto same = std::find_if(by_sentence.begin(), by_sentence.end(),
                                   [&](const auto& s) { return s.first == best->sentence; });
    if (same == by_sentence.end())
      by_sentence.push_back({best->sentence, {all[i].name}});
    else
      same->second.push_back(all[i].name);
  }
  std::vector<std::string> lines;
  for (const auto& [sentence, names] : by_sentence)
    lines.push_back(editions_named(names) + ": " + sentence);
  return lines;
}

std::vector<std::string> savings_for(const std::string& thing, const std::vector<Told>& all) {
  std::vector<std::pair<std::string, std::vector<std::string>>> by_sentence;
  for (const auto& told : all)
    for (const auto& s : told.savings) {
      if (s.thing != thing) continue;
      const auto same = std::find_if(by_sentence.begin(), by_sentence.end(),
                                     [&](const auto& x) { return x.first == s.sentence; });
      if (same == by_sentence.end())
        by_sentence.push_back({s.sentence, {told.name}});
      else
        same->second.push_back(told.name);
    }
  std::vector<std::string> lines;
  for (const auto& [sentence, names] : by_sentence)
    lines.push_back(editions_named(names) + ": " + sentence);
  return lines;
}

bool alike(const Comparison::Group& x, const Comparison::Group& y) {
  if (x.changes.size() != y.changes.size() || x.savings != y.savings) return false;
  for (std::size_t i = 0; i < x.changes.size(); ++i)
    if (x.changes[i].sentence != y.changes[i].sentence ||
        x.changes[i].cheapest != y.changes[i].cheapest)
      return false;
  return true;
}

Said said_of(const Told& told, const std::string& id) {
  const auto f = told.findings.find(id);
  if (f == told.findings.end()) return {};
  return {f->second->outcome.verdict, f->second->outcome.so, f->second->waived.has_value()};
}

/// Flips of what differs and does not pass: the others are not printed.
void add_flips(std::vector<Told>& all) {
  for (auto& told : all) {
    std::set<std::string> wanted;
    for (const auto& [id, f] : told.findings) {
      if (f->outcome.verdict != Verdict::fail && f->outcome.verdict != Verdict::caution) continue;
      for (const auto& other : all)
        if (!(said_of(other, id) == said_of(told, id))) wanted.insert(id);
    }
    if (!wanted.empty()) told.flips = flips_of(told.e, &wanted);
  }
}

void add_changes(const std::vector<Told>& all, Comparison& c) {
  // Ids in the order of the newest edition, then what only older ones ask.
  std::vector<std::string> ids;
  std::set<std::string> seen;
  for (auto told = all.rbegin(); told != all.rend(); ++told)
    for (const auto& f : told->e.report.findings)
      if (seen.insert(f.id).second) ids.push_back(f.id);
  std::vector<Comparison::Group> groups;
  for (const auto& id : ids) {
    std::vector<Said> said;
    const check::Finding* any = nullptr;
    for (const auto& told : all) {
      said.push_back(said_of(told, id));
      if (const auto f = told.findings.find(id); f != told.findings.end()) any = f->second;
    }
    const bool differ =
        std::any_of(said.begin(), said.end(), [&](const Said& s) { return !(s == said[0]); });
    if (!differ) {
      ++c.same;
      continue;
    }
    Comparison::Change change;
    change.rule = any->rule;
    change.title = any->title;
    change.sentence = sentence_of(any->title, all, said);
    change.cheapest = mends(id, all, said);
    change.verdict = std::any_of(said.begin(), said.end(),
                                 [&](const Said& s) { return s.verdict != said[0].verdict; });
    auto group = std::find_if(groups.begin(), groups.end(),
                              [&](const auto& g) { return g.things[0] == any->thing; });
    if (group == groups.end()) {
      groups.push_back({{any->thing}, {}, savings_for(any->thing, all)});
      group = groups.end() - 1;
    }
    group->changes.push_back(std::move(change));
  }
  for (auto& g : groups) {
    sort_keeping_order(g.changes,
                       [](const auto& x, const auto& y) { return x.verdict && !y.verdict; });
    const auto same = std::find_if(c.groups.begin(), c.groups.end(),
                                   [&](const auto& other) { return alike(other, g); });
    if (same == c.groups.end())
      c.groups.push_back(std::move(g));
    else
      same->things.push_back(g.things[0]);
  }
}

/// What the tool filled in where the job leaves it open, where editions differ.
void add_choices(const std::vector<Told>& all, Comparison& c) {
  std::vector<std::string> keys;
  for (const auto& told : all)
    for (const auto& choice : told.e.choices)
      if (std::find(keys.begin(), keys.end(), choice.key) == keys.end()) keys.push_back(choice.key);
  for (const auto& key : keys) {
    std::vector<std::pair<std::string, std::vector<std::string>>> values;
    for (const auto& told : all) {
      std::string value = "open";
      for (const auto& choice : told.e.choices)
        if (choice.key == key) value = choice.value;
      const auto same = std::find_if(values.begin(), values.end(),
                                     [&](const auto& v) { return v.first == value; });
      if (same == values.end())
        values.push_back({value, {told.name}});
      else
        same->second.push_back(told.name);
    }
    if (values.size() < 2) continue;
    std::vector<std::string> parts;
    for (const auto& [value, names] : values)
      parts.push_back(value + " in " + editions_named(names));
    c.notes.push_back("Left open in the job, " + key + " becomes " + codebook::words::list(parts) +
                      ".");
  }
}

/// One edition has nothing to be compared with: what it does not pass is told instead.
void add_alone(const Told& told, Comparison& c) {
  c.notes.push_back("Only one edition of this family is offered, " + told.name +
                    ": nothing to compare. What it does not pass:");
  std::vector<std::pair<std::string, std::vector<std::string>>> lines;
  for (const auto& f : told.e.report.findings) {
    const auto v = f.outcome.verdict;
    if (v != Verdict::fail && v != Verdict::cannot_tell) continue;
    const std::string line = f.title + ": " + f.outcome.so;
    const auto same = std::find_if(lines.begin(), lines.end(),
                                   [&](const auto& known) { return known.first == line; });
    if (same == lines.end())
      lines.push_back({line, {f.thing}});
    else
      same->second.push_back(f.thing);
  }
  for (const auto& [line, things] : lines)
    c.notes.push_back("- " + codebook::words::list(things) + ": " + line);
  if (lines.empty()) c.notes.emplace_back("- nothing; check prints the rest.");
}

}  // namespace

Comparison compare(std::string_view text, std::string_view file, codebook::Family family,
                   const parts::Library& library) {
  Comparison c;
  c.file = file;
  std::vector<Told> all;
  std::string own;
  for (const auto& id : codebook::Edition::offered(family)) {
    Told told;
    told.e = evaluate(text, file, id, library);
    if (!told.e.usable) {
      c.diagnostics = std::move(told.e.diagnostics);
      return c;
    }
    told.name = told.e.report.edition;
    all.push_back(std::move(told));
  }
  if (all.empty()) return c;
  own = all.front().e.named_edition;
  for (auto& told : all) {
    for (const auto& f : told.e.report.findings) told.findings[f.id] = &f;
    told.savings = savings_of(told.e);
  }
  add_flips(all);
  c.usable = true;
  c.job = all.front().e.wiring.job.job.name.value_or("");
  c.diagnostics = all.front().e.diagnostics;
  for (const auto& told : all) {
    const std::string id = told.e.wiring.job.job.edition.value_or("");
    c.editions.push_back({id, told.name, check::tally(told.e.report), id == own});
  }
  add_changes(all, c);
  add_choices(all, c);
  if (all.size() == 1) add_alone(all.front(), c);
  const auto named_one = codebook::Edition::open(own);
  if (named_one && named_one->family() != family)
    c.notes.push_back("The job names " + std::string(named_one->name()) + ", of the other family.");
  c.notes.push_back(
      family == codebook::Family::nec
          ? "IEC is a family of its own and not mixed in: other factors for fuses, other cables "
            "and "
            "ampacities, other colours. Ask for it alone: compare JOB --family iec."
          : "NEC is a family of its own and not mixed in: other factors for devices, other "
            "conductor "
            "sizes and ampacities, other colours. Ask for it alone: compare JOB --family nec.");
  return c;
}

}  // namespace stringwright::app
