#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "units/print.hpp"

namespace stringwright::trail {

/// pass: the demand is met. caution: advice, or a danger that no rule forbids. fail: the demand is not
/// met. cannot_tell: a fact is missing; never a pass. on_site: a demand on workmanship that no drawing
/// can show, named with its numbers; never a pass, it stays open until somebody has looked.
/// not_applicable: the rule does not ask this of this thing.
enum class Verdict { pass, caution, fail, cannot_tell, on_site, not_applicable };

/// "PASS", "CAUTION", "FAIL", "CANNOT TELL", "CHECK ON SITE", "NOT APPLICABLE"
std::string_view word(Verdict v);
/// "pass", "caution", "fail", "cannot-tell", "on-site", "not-applicable"
std::string_view key(Verdict v);

/// The margin line under a finding: values on one scale, against one limit.
struct Margin {
  enum class Mark { chosen, other, record, refused };
  struct Point {
    units::AnyQuantity at;
    std::string label;  ///< "141.9 V design, −31 °C"
    Mark mark = Mark::chosen;
  };
  units::AnyQuantity limit;
  std::string limit_label;
  bool forbidden_above = true;  ///< false: values below the limit are the bad side
  std::vector<Point> points;
};

/// What a rule says of one thing. `so` is one sentence with the comparison and its margin; `also` are
/// further sentences: the other method, what would flip it, the danger.
struct Outcome {
  Verdict verdict = Verdict::cannot_tell;
  std::string so;
  std::vector<std::string> also;
  std::optional<Margin> margin;
};

/// "pass" for true, "fail" for false, "cannot-tell" where it is not known.
Verdict verdict_of(std::optional<bool> holds);

}  // namespace stringwright::trail
