#include "codebook/methods/demands.hpp"

#include <algorithm>

namespace stringwright::codebook {

std::string sentence_case(std::string s) {
  if (!s.empty() && s.front() >= 'a' && s.front() <= 'z')
    s.front() = static_cast<char>(s.front() - 'a' + 'A');
  return s;
}

void Demands::ask(std::optional<bool> holds, DemandWords words, const trail::Source& source) {
  trail_.note("Asked: " + words.met + (holds ? *holds ? ": yes." : ": no." : ": not known."),
              source);
  if (!holds)
    open_.push_back(words.asks);
  else
    (*holds ? met_ : unmet_).push_back(*holds ? words.met : words.unmet);
}

void Demands::one_of(const Fact<std::string>& fact, const std::vector<std::string>& good,
                     DemandWords words, const trail::Source& source) {
  std::optional<bool> holds;
  if (fact.known()) holds = std::find(good.begin(), good.end(), *fact) != good.end();
  ask(holds, std::move(words), source);
}

void Demands::add(const Outcome& outcome) {
  sentences_.push_back(outcome.so);
  failed_ = failed_ || outcome.verdict == Verdict::fail;
  unknown_ = unknown_ || outcome.verdict == Verdict::cannot_tell;
}

Outcome Demands::outcome(const std::string& look) const {
  Outcome o;
  const bool failed = failed_ || !unmet_.empty();
  const bool unknown = unknown_ || !open_.empty();
  o.verdict = failed ? Verdict::fail : unknown ? Verdict::cannot_tell : Verdict::pass;
  std::vector<std::string> rest = sentences_;
  if (!unmet_.empty()) {
    o.so = sentence_case(words::list(unmet_)) + ": fails.";
  } else if (!failed && !open_.empty()) {
    o.so =
        "cannot tell: " + words::list(open_) + (open_.size() == 1 ? " is" : " are") + " not known.";
  } else if (!failed && !unknown && !met_.empty()) {
    o.so = sentence_case(words::list(met_)) + ": passes.";
  } else {
    // One of the sentences of its own decides; it leads.
    const auto leads = std::find_if(rest.begin(), rest.end(), [&](const std::string& s) {
      return failed ? s.find("fails") != std::string::npos : s.rfind("cannot tell", 0) == 0;
    });
    if (leads != rest.end()) {
      o.so = *leads;
      rest.erase(leads);
    } else if (!rest.empty()) {
      o.so = rest.front();
      rest.erase(rest.begin());
    }
  }
  for (auto& s : rest) o.also.push_back(std::move(s));
  if (!open_.empty()) {
    if (failed) o.also.push_back("Not known yet: " + words::list(open_) + ".");
    if (!look.empty()) o.also.push_back(look);
  }
  return o;
}

}  // namespace stringwright::codebook
