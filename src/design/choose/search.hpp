#pragma once

#include <functional>
#include <string>
#include <vector>

#include "check/finding.hpp"
#include "design/choose/open.hpp"

namespace stringwright::design {

/// How good a job is, by check alone; compared part by part. Waived fails do not count.
struct Score {
  int fail = 0, cannot_tell = 0, caution = 0;
  friend auto operator<=>(const Score&, const Score&) = default;
};
Score score(const check::Report& report);

/// Judges a job with whatever is still open in it: what depends on it ends as cannot-tell.
using Judge = std::function<check::Report(const job::Job&)>;

struct Chosen {
  std::string key, value, what;
  Span span;
  std::vector<std::string> also_write;
  std::string reason;     ///< why not the next smaller one, or that it is the smallest there is
  std::string runner_up;  ///< the next that check likes no less; "" where there is none
};

struct Unchosen {
  std::string key, why;
  Span span;
};

struct Proposal {
  job::Job job;  ///< with the choices made
  std::vector<Chosen> chosen;
  std::vector<Unchosen> open;  ///< left to a person
  Score before, after;
  int asked = 0;  ///< how often check was asked
  /// No combination is better. False where the search stopped at `most_asked`: then it is the best seen.
  bool proved = true;
};

/// How often `search` asks check, at most, before it keeps the best combination it has.
inline constexpr int most_asked = 400;

/// The choice for everything that is open: of all combinations the one with the fewest fails, then the
/// fewest cannot-tells, then the fewest cautions, and of those the first in the order of candidates, the
/// earlier open choice counting more. Branch and bound over the open choices in their order.
///
/// The bound: what fails, or draws a caution, while later choices are open does so whatever they become,
/// because what depends on them ends as cannot-tell; and no combination leaves fewer cannot-tells than the
/// first one found by always taking the best next step. `brute_force` is the same without any bound.
///
/// A choice of which no finding speaks (every verdict is the same as with the choice left open, all others
/// being made) is not made: nobody looks at it.
Proposal search(const job::Job& job, const std::vector<Open>& open, const Judge& judge);
Proposal brute_force(const job::Job& job, const std::vector<Open>& open, const Judge& judge);

}  // namespace stringwright::design
