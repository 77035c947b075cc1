#include "sheets/report/findings.hpp"

#include <algorithm>
#include <cctype>
#include <functional>

#include "base/text.hpp"
#include "sheets/words.hpp"

namespace stringwright::sheets::report {
namespace {

using draw::Mark;
using trail::Step;

/// Rule, verdict and steps of a finding without its numbers.
std::string shape(const check::Finding& f) {
  std::string s = f.rule + "|" + std::string(trail::key(f.outcome.verdict));
  for (const auto& step : f.trail.steps()) {
    s += "\n" + std::to_string(static_cast<int>(step.kind)) + step.words + "|" + step.symbol + "|" +
         step.formula;
    if (step.kind != Step::Kind::given) s += step.source.cite + step.source.status;
  }
  return s;
}

/// The trail of one finding as one word, for comparing it with another's.
std::string fingerprint(const check::Finding& f) {
  std::string s = f.rule + "|" + f.title + "|" + std::string(trail::key(f.outcome.verdict)) + "|" +
                  f.outcome.so;
  for (const auto& a : f.outcome.also) s += "|" + a;
  for (const auto& step : f.trail.steps()) {
    s += "\n" + std::to_string(static_cast<int>(step.kind)) + step.words + step.symbol +
         step.formula + step.numbers + step.printed;
    // Where a given fact stands differs from string to string; what it is does not.
    if (step.kind != Step::Kind::given) s += step.source.cite + step.source.status;
  }
  if (f.outcome.margin) {
    s += "\n" + f.outcome.margin->limit_label;
    for (const auto& p : f.outcome.margin->points) s += "|" + p.label;
  }
  return s;
}

}  // namespace

std::vector<std::string> names(const std::vector<const check::Finding*>& findings) {
  std::vector<std::string> all;
  all.reserve(findings.size());
  for (const auto* f : findings) all.push_back(f->thing);
  return all;
}

Mark Entry::mark() const {
  const auto& f = first();
  switch (f.outcome.verdict) {
    case trail::Verdict::pass:
      return Mark::pass;
    case trail::Verdict::caution:
      return Mark::caution;
    case trail::Verdict::fail:
      return f.waived ? Mark::waived : Mark::fail;
    case trail::Verdict::cannot_tell:
      return Mark::cannot_tell;
    case trail::Verdict::on_site:
      return Mark::on_site;
    case trail::Verdict::not_applicable:
      return Mark::not_applicable;
  }
  return Mark::cannot_tell;
}

std::string Entry::own_things() const { return listed(names(findings)); }

std::string Entry::things() const {
  std::vector<const check::Finding*> all = findings;
  for (const auto& v : variants) all.insert(all.end(), v.findings.begin(), v.findings.end());
  // They lie in one list, in the order of the report.
  std::sort(all.begin(), all.end(), std::less<>());
  return listed(names(all));
}

std::vector<Entry> entries(const check::Report& r) {
  struct Key {
    std::string shape;
    std::vector<std::string> prints;  // of the entry and its variants
  };
  std::vector<Entry> all;
  std::vector<Key> keys;
  for (const auto& f : r.findings) {
    // A waiver is one person's word on one finding: it stands alone.
    const std::string form = f.waived ? f.id : shape(f), print = f.waived ? f.id : fingerprint(f);
    const auto it =
        std::find_if(keys.begin(), keys.end(), [&](const Key& k) { return k.shape == form; });
    if (it == keys.end()) {
      Entry e;
      e.number = static_cast<int>(all.size()) + 1;
      e.findings = {&f};
      all.push_back(std::move(e));
      keys.push_back({form, {print}});
      continue;
    }
    Entry& e = all[static_cast<std::size_t>(it - keys.begin())];
    const auto same = std::find(it->prints.begin(), it->prints.end(), print);
    if (same == it->prints.begin()) {
      e.findings.push_back(&f);
    } else if (same != it->prints.end()) {
      e.variants[static_cast<std::size_t>(same - it->prints.begin()) - 1].findings.push_back(&f);
    } else {
      e.variants.push_back({{&f}});
      it->prints.push_back(print);
    }
  }
  return all;
}

std::vector<const Entry*> open_points(const std::vector<Entry>& all) {
  std::vector<const Entry*> open;
  for (const Mark m : {Mark::fail, Mark::cannot_tell, Mark::waived, Mark::caution})
    for (const auto& e : all)
      if (e.mark() == m) open.push_back(&e);
  return open;
}

std::vector<const Entry*> site_points(const std::vector<Entry>& all) {
  std::vector<const Entry*> points;
  for (const auto& e : all)
    if (e.mark() == Mark::on_site) points.push_back(&e);
  return points;
}

std::string flat(std::string_view symbols) {
  std::string out;
  const auto word = [](char c) {
    return std::isalnum(static_cast<unsigned char>(c)) || static_cast<unsigned char>(c) >= 0x80;
  };
  bool inside = false;  // a subscript has begun in this word
  for (std::size_t i = 0; i < symbols.size(); ++i) {
    const char c = symbols[i];
    const bool joins =
        c == '_' && i > 0 && word(symbols[i - 1]) && i + 1 < symbols.size() && word(symbols[i + 1]);
    if (joins) {
      if (inside) out += ',';
      inside = true;
      continue;
    }
    if (!word(c)) inside = false;
    out += c;
  }
  return out;
}

std::string short_cite(std::string_view cite) {
  if (!text::starts_with(cite, "NFPA 70-")) return std::string(cite);
  const std::size_t comma = cite.find(", ");
  return std::string(comma == std::string_view::npos ? cite : cite.substr(comma + 2));
}

std::string code_title(const check::Report& r) {
  for (const auto& f : r.findings)
    for (const auto& s : f.trail.steps())
      if (text::starts_with(s.source.cite, "NFPA 70-"))
        return s.source.cite.substr(0, s.source.cite.find(','));
  return "";
}

Cites cites(const check::Report& r) {
  Cites n;
  for (const auto& f : r.findings)
    for (const auto& s : f.trail.steps()) {
      if (s.source.cite.empty() || s.source.status == "given" || s.source.status == "computed")
        continue;
      ++n.all;
      n.from_memory += s.source.status == "memory";
    }
  return n;
}

}  // namespace stringwright::sheets::report
