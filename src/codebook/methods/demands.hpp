#pragma once

#include <optional>
#include <string>
#include <vector>

#include "codebook/facts.hpp"
#include "codebook/methods/words.hpp"

/// Demands that a yes or a no answers, several of them in one finding.
namespace stringwright::codebook {

/// How one demand reads, met, not met, and asked.
struct DemandWords {
  std::string met;    ///< "it can be locked open"
  std::string unmet;  ///< "it can't be locked open"
  std::string asks;   ///< "whether it can be locked open"
};

/// Collects demands; one that is not met fails all, else one that is not known leaves all open.
class Demands {
 public:
  explicit Demands(Trail& trail) : trail_(trail) {}

  /// @param holds  empty: not known
  void ask(std::optional<bool> holds, DemandWords words, const trail::Source& source);
  void ask(const Fact<bool>& fact, DemandWords words, const trail::Source& source) {
    ask(fact.value, std::move(words), source);
  }
  /// The demand is met where the fact is one of `good`.
  void one_of(const Fact<std::string>& fact, const std::vector<std::string>& good,
              DemandWords words, const trail::Source& source);
  /// A demand that was judged as an outcome of its own, with its arithmetic.
  void add(const Outcome& outcome);

  /// "It can be locked open and it opens both conductors: passes."
  /// @param look  where to find what is not known: "Its marking says so."
  Outcome outcome(const std::string& look) const;

 private:
  Trail& trail_;
  std::vector<std::string> met_, unmet_, open_, sentences_;
  bool failed_ = false, unknown_ = false;
};

/// Capital letter first.
std::string sentence_case(std::string s);

}  // namespace stringwright::codebook
