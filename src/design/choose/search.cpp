#include "design/choose/search.hpp"

#include <algorithm>
#include <map>
#include <optional>

namespace stringwright::design {
namespace {

using check::Finding;
using trail::Verdict;

std::size_t at(int i) { return static_cast<std::size_t>(i); }

/// How bad a verdict is, for telling two findings apart.
int weight(const Finding& f) {
  if (f.outcome.verdict == Verdict::fail && !f.waived) return 3;
  if (f.outcome.verdict == Verdict::cannot_tell) return 2;
  return f.outcome.verdict == Verdict::caution ? 1 : 0;
}

std::string word(int w) {
  return w == 3 ? "fails" : w == 2 ? "can't be told" : "draws a caution from";
}

class Search {
 public:
  Search(const job::Job& job, const std::vector<Open>& open, const Judge& judge)
      : start_(job), judge_(judge) {
    proposal_.job = job;
    for (const auto& o : open) {
      if (o.candidates.empty())
        proposal_.open.push_back({o.key, o.none, o.span});
      else
        open_.push_back(&o);
    }
    proposal_.before = score(ask(job));
  }

  Proposal by_bound() {
    picks_.assign(open_.size(), -1);
    descend(0, start_);
    return finish();
  }

  Proposal by_force() {
    picks_.assign(open_.size(), -1);
    exhaust(0, start_);
    return finish();
  }

 private:
  check::Report ask(const job::Job& job) {
    ++proposal_.asked;
    return judge_(job);
  }

  static job::Job with(const job::Job& job, const Candidate& c) {
    job::Job next = job;
    c.put(next);
    return next;
  }

  /// The verdicts of a report, by finding.
  static std::map<std::string, int> verdicts(const check::Report& r) {
    std::map<std::string, int> all;
    for (const auto& f : r.findings) all[f.id] = weight(f);
    return all;
  }

  /// Whether any finding speaks of a choice, all others being made: its verdict is another than with the
  /// choice left open, for the candidate taken or for any other.
  bool looked_at(std::size_t k) {
    job::Job job = start_;
    for (std::size_t i = 0; i < open_.size(); ++i)
      if (i != k) open_[i]->candidates[at((*best_)[i])].put(job);
    const auto left = verdicts(ask(job));
    const auto& candidates = open_[k]->candidates;
    for (std::size_t i = candidates.size(); i-- > 0;)
      if (verdicts(instead(k, i)) != left) return true;
    return false;
  }

  void leaf(const Score& s) {
    // Of equals the first in the order of candidates.
    if (best_ && !(s < best_score_ || (s == best_score_ && picks_ < *best_))) return;
    best_ = picks_;
    best_score_ = s;
  }

  /// A better leaf, or an equal one that stands earlier, may lie below the picks up to `level`.
  bool hopeful(const Score& partial, std::size_t level) const {
    if (!best_) return true;
    const Score bound{partial.fail, best_score_.cannot_tell, partial.caution};
    if (bound != best_score_) return bound < best_score_;
    const auto end = static_cast<std::ptrdiff_t>(level) + 1;
    return std::lexicographical_compare(picks_.begin(), picks_.begin() + end, best_->begin(),
                                        best_->begin() + end);
  }

  /// A first combination stands and the number of questions is used up.
  bool out_of_questions() {
    if (!best_ || proposal_.asked < most_asked) return false;
    proposal_.proved = false;
    return true;
  }

  void descend(std::size_t level, const job::Job& job) {
    if (level == open_.size()) return leaf(score(ask(job)));
    struct Branch {
      int candidate;
      Score s;
    };
    std::vector<Branch> branches;
    const auto& candidates = open_[level]->candidates;
    for (std::size_t i = 0; i < candidates.size(); ++i)
      branches.push_back({static_cast<int>(i), score(ask(with(job, candidates[i])))});
    // The most promising first, so that a good leaf is found soon; the order of candidates among equals.
    std::sort(branches.begin(), branches.end(), [](const Branch& x, const Branch& y) {
      return x.s < y.s || (x.s == y.s && x.candidate < y.candidate);
    });
    for (const auto& b : branches) {
      picks_[level] = b.candidate;
      if (!hopeful(b.s, level)) continue;
      if (out_of_questions()) break;
      descend(level + 1, with(job, candidates[at(b.candidate)]));
    }
    picks_[level] = -1;
  }

  void exhaust(std::size_t level, const job::Job& job) {
    if (level == open_.size()) return leaf(score(ask(job)));
    for (std::size_t i = 0; i < open_[level]->candidates.size(); ++i) {
      picks_[level] = static_cast<int>(i);
      exhaust(level + 1, with(job, open_[level]->candidates[i]));
    }
    picks_[level] = -1;
  }

  Proposal finish() {
    if (!best_ || open_.empty()) {
      proposal_.after = proposal_.before;
      return std::move(proposal_);
    }
    std::vector<bool> keep(open_.size());
    for (std::size_t k = 0; k < open_.size(); ++k) keep[k] = looked_at(k);
    job::Job done = start_;
    for (std::size_t k = 0; k < open_.size(); ++k) {
      if (keep[k])
        open_[k]->candidates[at((*best_)[k])].put(done);
      else
        proposal_.open.push_back({open_[k]->key,
                                  "no rule that is built speaks of it: choose it by hand",
                                  open_[k]->span});
    }
    proposal_.after = score(ask(done));
    const auto chosen = instead(open_.size(), 0);
    const auto verdict = verdicts(chosen);
    for (std::size_t k = 0; k < open_.size(); ++k)
      if (keep[k]) explain(k, verdict, score(chosen));
    proposal_.job = std::move(done);
    return std::move(proposal_);
  }

  /// All the choices made, but another candidate at one place; at none where `k` is beyond the last.
  check::Report instead(std::size_t k, std::size_t candidate) {
    job::Job job = start_;
    for (std::size_t i = 0; i < open_.size(); ++i)
      open_[i]->candidates[i == k ? candidate : at((*best_)[i])].put(job);
    return ask(job);
  }

  void explain(std::size_t k, const std::map<std::string, int>& verdict, const Score& reached) {
    const auto pick = at((*best_)[k]);
    const auto& candidates = open_[k]->candidates;
    const auto& c = candidates[pick];
    Chosen chosen{open_[k]->key, c.value, c.what, open_[k]->span, c.also_write, {}, {}};
    chosen.reason = pick == 0 ? "the first of the list passes" : "";
    for (std::size_t i = pick; i-- > 0;) {
      const auto report = instead(k, i);
      if (!(reached < score(report))) continue;  // as good: it lost to an earlier choice
      const Finding* worst = nullptr;
      for (const auto& f : report.findings) {
        const auto was = verdict.find(f.id);
        const int before = was == verdict.end() ? 0 : was->second;
        if (weight(f) > before && (!worst || weight(f) > weight(*worst))) worst = &f;
      }
      chosen.reason = candidates[i].value + (worst ? " " + word(weight(*worst)) + " " + worst->id +
                                                         ": " + worst->outcome.so
                                                   : " is judged worse");
      break;
    }
    for (std::size_t i = pick + 1; i < candidates.size(); ++i) {
      const auto s = score(instead(k, i));
      if (reached < s) continue;
      chosen.runner_up = candidates[i].value + " is judged as well; it is the next in size";
      break;
    }
    proposal_.chosen.push_back(std::move(chosen));
  }

  const job::Job& start_;
  const Judge& judge_;
  std::vector<const Open*> open_;
  std::vector<int> picks_;
  std::optional<std::vector<int>> best_;
  Score best_score_;
  Proposal proposal_;
};

}  // namespace

Score score(const check::Report& report) {
  const check::Tally t = check::tally(report);
  return {t.fail, t.cannot_tell, t.caution};
}

Proposal search(const job::Job& job, const std::vector<Open>& open, const Judge& judge) {
  return Search(job, open, judge).by_bound();
}

Proposal brute_force(const job::Job& job, const std::vector<Open>& open, const Judge& judge) {
  return Search(job, open, judge).by_force();
}

}  // namespace stringwright::design
