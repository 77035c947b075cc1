#pragma once

#include <string>
#include <vector>

#include "check/facts.hpp"
#include "check/finding.hpp"
#include "codebook/rule.hpp"

namespace stringwright::check {

/// A single change of one value of the job that changes a finding's verdict, found by asking the very
/// same rule again. Quantities are varied by bisection, sizes and ratings by their standard series.
struct Flip {
  std::string lever;     ///< what is varied: "length", "wire", "stretches.2.above_roof"
  std::string sentence;  ///< "Holds up to 2.1 m more length, 40.6 m in all."
  trail::Verdict to = trail::Verdict::cannot_tell;  ///< the verdict on the far side
  double effort = 0;  ///< order among flips of one finding: small is cheap to do on site
};

/// The nearest change of each value that can flip the verdict, the cheapest first. Empty for verdicts
/// that no number decides (cannot-tell, not-applicable), and for rules about events: a change there
/// changes the solution of the circuit, which is not repeated here.
///
/// On demand: it asks the rule some hundred times.
std::vector<Flip> flips(const codebook::Rule& rule, const codebook::Facts& facts,
                        const codebook::Edition& edition);

/// A height over a sunlit roof that saves wire: what one more millimetre of stand-off is worth.
struct Saving {
  std::string thing;  ///< "OUT"
  std::string
      sentence;  ///< "Raise stretch 2 by 5 mm, to 23 mm: two sizes smaller, 10 AWG, is enough."
};

/// The smallest wire with which no rule about the conductor fails, and the least raise of one of its
/// stretches that makes a smaller one do. Empty where raising helps nothing.
std::vector<Saving> savings(const Judged& judged, const codebook::Edition& edition);

}  // namespace stringwright::check
